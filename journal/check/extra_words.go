package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var extraWords = &Check{
	Name:     note.ExtraWords,
	Severity: problem.Error,
	Summary:  "words behind a value that stands alone",
	Explain: "Some values have no description behind them, such as a category or a system. " +
		"More words there may hide a missing semicolon, so the line is left out.",
	Bad:  "---\nstage: body\nparts:\n  hose: needed brake hose; system brakes front\n---\n",
	Good: "---\nstage: body\nparts:\n  hose: needed brake hose, front; system brakes\n---\n",
	Say: func(f source.Fault) (string, string) {
		help := "Leave it out, or write a semicolon before it if it is a clause."
		if f.Help != "" {
			help = f.Help
		}
		return "nothing may follow here, but " + quote(f.Word) + " does", help
	},
}
