package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var tickWithoutID = &Check{
	Name:     journal.TickWithoutID,
	Severity: problem.Warning,
	Summary:  "an item in plain words that was meant for an open one",
	Explain: "A tick clears a snag by its id and a colon, or one without an id by the words it begins with. " +
		"Otherwise it is an item of its own, and what it was meant for stays open.",
	Bad:  "---\nstage: body\n---\n- [ ] temporary bonnet-strap: tied down\n- [x] bonnet-strap latch fitted\n",
	Good: "---\nstage: body\n---\n- [ ] temporary bonnet-strap: tied down\n- [x] bonnet-strap: latch fitted\n",
	Say: func(f source.Fault) (string, string) {
		if f.Word != "" {
			return "this is an item of its own, and says nothing of " + quote(f.Near[0]), "Write \"" + f.Near[0] + ": " + f.Word + "\"."
		}
		if len(f.Near) > 0 {
			return "this clears nothing: " + quote(f.Near[0]) + " stays open", "Write \"- [x] " + f.Near[0] + ": \" and what was done."
		}
		return "this clears nothing: no open item without an id begins with these words",
			"Begin it with the words of the item, or with a kind such as \"job\" if it was opened and cleared today."
	},
}
