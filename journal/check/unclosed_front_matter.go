package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var unclosedFrontMatter = &Check{
	Name:     note.UnclosedFrontMatter,
	Severity: problem.Error,
	Summary:  "front matter that never ends",
	Explain: "A note that opens with --- needs a second --- alone on a line, from the first column, where its front matter ends. " +
		"Without it nobody can tell lines from prose, so the whole note is left out.",
	Bad:  "---\nstage: rear axle\ntime: 3h40 beam out\n\nA long day.\n",
	Good: "---\nstage: rear axle\ntime: 3h40 beam out\n---\n\nA long day.\n",
	Say: func(f source.Fault) (string, string) {
		return "the front matter that begins with this \"---\" never ends", "Write \"---\" alone on a line below its last line."
	},
}
