package check

import (
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var unknownClause = &Check{
	Name:     note.UnknownClause,
	Severity: problem.Error,
	Summary:  "words behind a semicolon that such a line does not have",
	Explain: "Behind a semicolon a line expects one of its own keywords, such as `from` or `for`. " +
		"Something else may be a slip or the rest of a description; a line with one is left out. Write a comma where it is description.",
	Bad:  "---\nstage: rear axle\ncost: 6.49 copper grease; form Tidewell Motor Factors\n---\n",
	Good: "---\nstage: rear axle\ncost: 6.49 copper grease; from Tidewell Motor Factors\n---\n",
	Say: func(f source.Fault) (string, string) {
		if f.Help != "" {
			return "no clause begins with " + quote(f.Word), f.Help
		}
		const help = "Write a comma if this is description"
		if like := Nearest(f.Word, f.Near, ""); like != "" {
			return "no clause begins with " + quote(f.Word), like + " " + help + "."
		}
		if len(f.Near) > fewWords {
			return "no clause begins with " + quote(f.Word), help + "."
		}
		return "no clause begins with " + quote(f.Word), help + "; otherwise it begins with one of: " + strings.Join(f.Near, ", ") + "."
	},
}
