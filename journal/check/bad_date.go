package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var badDate = &Check{
	Name:     note.BadDate,
	Severity: problem.Error,
	Summary:  "a date that cannot be read",
	Explain: "Dates are written year, month, day, such as 2026-04-11, which nobody reads two ways. " +
		"The day must exist. A session with a bad date is left out whole.",
	Bad:  "---\ndate: 11.04.2026\n---\n",
	Good: "---\ndate: 2026-04-11\n---\n",
	Say:  cannotRead("date"),
}
