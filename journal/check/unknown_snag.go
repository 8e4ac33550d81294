package check

import (
	"cmp"

	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var unknownSnag = &Check{
	Name:     journal.UnknownSnag,
	Severity: problem.Error,
	Summary:  "a snag that is cleared or opened again, but was never opened",
	Explain: "What a tick clears must have been opened under the same id before. " +
		"With a slip in the id the snag itself would stay open.",
	Bad:  "---\nstage: rear axle\n---\n- [ ] temporary exhaust-hanger: hung on wire\n- [x] exhaust-rubber: fitted\n",
	Good: "---\nstage: rear axle\n---\n- [ ] temporary exhaust-hanger: hung on wire\n- [x] exhaust-hanger: rubber fitted\n",
	Say: func(f source.Fault) (string, string) {
		if help, ok := settledOtherwise[f.Why]; ok {
			return quote(f.Word) + " is a " + f.Why + ", which no tick clears", cmp.Or(f.Help, help)
		}
		return "no snag called " + quote(f.Word), Nearest(f.Word, f.Near, "Write a kind before it, such as \"job\", if it was opened and cleared today.")
	},
}

// settledOtherwise says how each thing that is no snag of the notes is settled.
var settledOtherwise = map[string]string{
	"part":                     "What becomes of a part stands under \"parts\".",
	"check":                    "",
	"reading":                  "A later reading within the limits, under \"readings\", settles it.",
	"paper":                    "Write the paper again below \"papers\", with its new \"until\".",
	"scan":                     "A later scan that no longer lists the code settles it.",
	"fastener":                 "Write under \"fasteners\" how it was tightened.",
	"fired part":               "A new part, fitted, settles it.",
	"surcharge":                "A \"credit\" with \"as surcharge\" settles it.",
	"part that stood in water": "Fit another one, and write what became of this one below \"parts\".",
}
