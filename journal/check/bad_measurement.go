package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var badMeasurement = &Check{
	Name:     note.BadMeasurement,
	Severity: problem.Error,
	Summary:  "a measured value or limit that cannot be read",
	Explain: "A reading is a number and its unit, such as 8.7 mm or 110 N·m, and its limits measure the same kind of thing. " +
		"A value without a unit cannot be held against a limit.",
	Bad:  "---\nstage: rear axle\nreadings:\n  disc-left: 8.7; min 8.0 mm\n---\n",
	Good: "---\nstage: rear axle\nreadings:\n  disc-left: 8.7 mm; min 8.0 mm\n---\n",
	Say:  cannotRead("measurement"),
}
