package check

import (
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var wrongShape = &Check{
	Name:     note.WrongShape,
	Severity: problem.Error,
	Summary:  "a line written in another shape than its key has",
	Explain: "Some keys have one value behind them, some have a list of lines that begin with a dash, and some have lines that begin with a name. " +
		"A line in another shape is left out.",
	Bad:  "---\nstage: rear axle\nparts:\n  - fitted rear axle beam\n---\n",
	Good: "---\nstage: rear axle\nparts:\n  rear-beam: fitted rear axle beam; free\n---\n",
	Say: func(f source.Fault) (string, string) {
		help := "Write \"" + f.Word + ": VALUE\" on one line."
		switch {
		case f.Help != "":
			help = f.Help
		case strings.Contains(f.Why, "hyphen"):
			help = "Write \"- \" instead."
		case strings.Contains(f.Why, "indented"):
			help = "Write two spaces before it."
		case strings.Contains(f.Why, "name"):
			help = "Write \"NAME: \" before it."
		case strings.Contains(f.Why, "dash"):
			help = "Write \"- \" before it."
		}
		return "this line does not fit " + quote(f.Word) + ": " + f.Why, help
	},
}
