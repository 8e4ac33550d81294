package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var nearID = &Check{
	Name:     journal.NearID,
	Severity: problem.Error,
	Summary:  "an id a letter or two from a known one",
	Explain: "Without a kind before it, the item may be a remark on a known snag with a slip in its id, or a new snag. " +
		"Spell the id as before, or begin with a kind such as `job` if it is new.",
	Bad:  "---\nstage: rear axle\n---\n- [ ] temporary exhaust-hanger: hung on wire\n- [ ] exhaust-hangar: the rubber is ordered\n",
	Good: "---\nstage: rear axle\n---\n- [ ] temporary exhaust-hanger: hung on wire\n- [ ] exhaust-hanger: the rubber is ordered\n",
	Say: func(f source.Fault) (string, string) {
		return "no snag called " + quote(f.Word), Nearest(f.Word, f.Near, "Begin with a kind, such as \"job\", if it is a new one.")
	},
}
