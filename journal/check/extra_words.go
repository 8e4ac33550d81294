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
	Explain: "Some values have no description behind them, such as an odometer reading or a system. " +
		"More words there may hide a missing semicolon, so the line is left out.",
	Bad:  "---\nodometer: 91252 mi about\n---\n",
	Good: "---\nodometer: 91252 mi\n---\n",
	Say: func(f source.Fault) (string, string) {
		return "nothing may follow here, but " + quote(f.Word) + " does", "Leave it out, or write a semicolon before it if it is a clause."
	},
}
