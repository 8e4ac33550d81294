package check

import (
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var clauseValue = &Check{
	Name:     note.ClauseValue,
	Severity: problem.Error,
	Summary:  "a clause with its value missing, or with one it does not take",
	Explain: "Some clauses are a word alone, such as `private`; others need something behind them, such as `from`. " +
		"A line with a clause that is neither is left out.",
	Bad:  "---\nstage: rear axle\ntime: 3h beam out; hands\n---\n",
	Good: "---\nstage: rear axle\ntime: 3h beam out; hands 2\n---\n",
	Say: func(f source.Fault) (string, string) {
		return strings.Replace(f.Why, "it", quote(f.Word), 1), f.Help
	},
}
