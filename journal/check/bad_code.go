package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var badCode = &Check{
	Name:     note.BadCode,
	Severity: problem.Error,
	Summary:  "a line of a scan that is no fault code",
	Explain: "A fault code is a letter B, C, P or U, a digit 0 to 3 and three more digits or letters A to F, by SAE J2012 and ISO 15031-6. " +
		"A code that is misread could hide a fault, so the line is left out.",
	Bad:  "~~~ scan abs\nC035 left front wheel speed\n~~~\n",
	Good: "~~~ scan abs\nC0035 left front wheel speed\n~~~\n",
	Say:  cannotRead("fault code"),
}
