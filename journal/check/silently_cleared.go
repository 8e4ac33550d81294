package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var silentlyCleared = &Check{
	Name:     journal.SilentlyCleared,
	Severity: problem.Warning,
	Summary:  "a dangerous snag that is cleared without a word",
	Explain: "A buyer, or you in a year, will want to know what made a danger go away. " +
		"Say what was done and who looked at it; local rules may ask for somebody licensed.",
	Bad:  "---\nstage: rear axle\n---\n- [ ] job hose-chafed: brake hose rubs on the strut; dangerous\n- [x] hose-chafed\n",
	Good: "---\nstage: rear axle\n---\n- [ ] job hose-chafed: brake hose rubs on the strut; dangerous\n- [x] hose-chafed: clipped clear, checked at full lock\n",
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " is dangerous and is cleared without a word", "Write what was done behind a colon."
	},
}
