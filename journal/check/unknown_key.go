package check

import (
	"slices"
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var unknownKey = &Check{
	Name:     note.UnknownKey,
	Severity: problem.Error,
	Summary:  "a key that such a file does not have",
	Explain: "What stands below an unknown key counts nowhere. " +
		"Spell it as in the manual; what has no key of its own goes into the prose.",
	Bad:  "---\nstage: rear axle\ncosts: 12.00 copper grease\n---\n",
	Good: "---\nstage: rear axle\ncost: 12.00 copper grease\n---\n",
	Say: func(f source.Fault) (string, string) {
		if help := inPlaceOf[strings.ToLower(f.Word)]; help != "" && slices.Contains(f.Near, "odometer") {
			return "no key called " + quote(f.Word), help
		}
		return "no key called " + quote(f.Word), Nearest(f.Word, f.Near, "The keys are "+strings.Join(f.Near, ", ")+".")
	},
}

const (
	pictureHelp = "A picture stands in the body, as in ![what it shows](photos/beam.jpg), or on a line of parts or checks as \"; photo FILE\"."
	scanHelp    = "Write a block in the body that opens with three backticks, the word scan and the control unit, such as ```scan abs, and a line for each code."
	itemHelp    = "Write an item in the body, such as \"- [ ] job door-seal: lets water in\"."
)

// inPlaceOf is what keys stand for that no session has.
var inPlaceOf = map[string]string{
	"photos": pictureHelp, "photo": pictureHelp, "pictures": pictureHelp, "picture": pictureHelp, "images": pictureHelp,
	"codes": scanHelp, "code": scanHelp, "fault codes": scanHelp, "faults": scanHelp, "dtc": scanHelp, "dtcs": scanHelp, "scan": scanHelp, "scans": scanHelp,
	"todo": itemHelp, "to do": itemHelp, "snags": itemHelp, "jobs": itemHelp, "tasks": itemHelp, "temporary": itemHelp,
	"notes": "Words stand below the closing \"---\".", "note": "Words stand below the closing \"---\".", "remarks": "Words stand below the closing \"---\".",
	"supplier": "Write it on the line of cost, as in \"12.00 hose; from Tidewell\".",
	"receipts": "Write it on the line of cost, as in \"12.00 hose; receipt 20411\".",
	"torque":   "Write it under \"readings\", as in \"wheel-bolts: 110 Nm\".",
}
