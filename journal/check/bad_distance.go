package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var badDistance = &Check{
	Name:     note.BadDistance,
	Severity: problem.Error,
	Summary:  "a distance that cannot be read",
	Explain: "A distance is a number with km or mi behind it, such as 91252 mi. " +
		"Without the unit a reading may be wrong by more than half.",
	Bad:  "---\nodometer: 91252\n---\n",
	Good: "---\nodometer: 91252 mi\n---\n",
	Say:  cannotRead("distance"),
}
