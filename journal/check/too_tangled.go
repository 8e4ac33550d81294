package check

import (
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var tooTangled = &Check{
	Name:     note.TooTangled,
	Severity: problem.Error,
	Summary:  "a shape of Markdown too tangled to be read in good time",
	Explain: "Very wide tables, very deep quotes and lists, and thousands of unclosed marks in one paragraph " +
		"take longer to work out than all other notes together. Such a piece is left out, and the site is not written.",
	Bad:  "Deep.\n\n" + strings.Repeat(">", 120) + " quoted\n",
	Good: "Deep.\n\n> quoted\n",
	Say: func(source.Fault) (string, string) {
		return "this is too tangled to be read as Markdown", "Part it with empty lines, or put it into a fenced block, where Markdown means nothing."
	},
}
