package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var badScan = &Check{
	Name:     note.BadScan,
	Severity: problem.Error,
	Summary:  "a fault scan without a name or without lines",
	Explain: "A block that begins with the word scan is what one control unit said. " +
		"It needs the unit's name, so that a later scan of the same unit can clear a code, and a line for each code, or `no faults`.",
	Bad:  "~~~ scan\nC0035 left front wheel speed\n~~~\n",
	Good: "~~~ scan abs\nC0035 left front wheel speed\n~~~\n",
	Say:  cannotRead("scan"),
}
