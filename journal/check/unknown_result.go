package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var unknownResult = &Check{
	Name:     note.UnknownResult,
	Severity: problem.Error,
	Summary:  "a check that says neither passed, failed nor done",
	Explain: "What was checked is worth something only with its outcome. " +
		"Begin the line with passed, failed or done; whatever else there is to say comes after it.",
	Bad:  "---\nchecks:\n  alignment: pass by the machine\n---\n",
	Good: "---\nchecks:\n  alignment: passed by the machine\n---\n",
	Say:  unknown("result"),
}
