package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var unknownState = &Check{
	Name:     note.UnknownState,
	Severity: problem.Error,
	Summary:  "a state that no part can be in",
	Explain: "A line of a part begins with what became of it: needed, ordered, arrived, fitted or refitted, or returned, cancelled or sold. " +
		"A description comes after that word.",
	Bad:  "---\nstage: rear axle\nparts:\n  rear-beam: neded rear axle beam\n---\n",
	Good: "---\nstage: rear axle\nparts:\n  rear-beam: needed rear axle beam\n---\n",
	Say:  unknown("state"),
}
