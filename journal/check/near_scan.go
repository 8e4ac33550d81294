package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var nearScan = &Check{
	Name:     note.NearScan,
	Severity: problem.Error,
	Summary:  "a block of fault codes whose first line is nearly that of a scan",
	Explain: "A scan is a fenced block that begins with the word scan, in small letters, and the name of the control unit. " +
		"Spelled otherwise it is code like any other, and its faults are outstanding nowhere.",
	Bad:  "~~~ Scan abs\nC0035 left front wheel speed\n~~~\n",
	Good: "~~~ scan abs\nC0035 left front wheel speed\n~~~\n",
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " does not begin a scan, and its fault codes are not read", "Write \"scan " + f.Near[0] + "\" behind the marks that open the block."
	},
}
