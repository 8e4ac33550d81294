package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var tabIndentation = &Check{
	Name:     note.TabIndentation,
	Severity: problem.Error,
	Summary:  "a tab at the beginning of a line of front matter",
	Explain: "A tab looks different in every editor and other programs refuse it in front matter. " +
		"Indent with spaces.",
	Bad:  "---\nstage: rear axle\ntime:\n\t- 2h beam out\n---\n",
	Good: "---\nstage: rear axle\ntime:\n  - 2h beam out\n---\n",
	Say: func(f source.Fault) (string, string) {
		return "a tab stands at the beginning of this line", "Indent with spaces."
	},
}
