package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var badDuration = &Check{
	Name:     note.BadDuration,
	Severity: problem.Error,
	Summary:  "a length of time that cannot be read",
	Explain: "A line of time begins with how long it took: 3h40, 40m, 3.5h, 3:40, or a clock range such as 19:30-21:15. " +
		"One line holds at most 24 hours.",
	Bad:  "---\nstage: rear axle\ntime: 3 beam out\n---\n",
	Good: "---\nstage: rear axle\ntime: 3h beam out\n---\n",
	Say:  cannotRead("duration"),
}
