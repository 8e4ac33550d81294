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
	Explain: "Hundreds of quotes or lists inside each other, or thousands of brackets and stars in one paragraph, take a Markdown reader minutes, and no builder writes them. " +
		"Such a paragraph is left out; where one line of a note nests too deeply, all of the note's words are.",
	Bad: `# Beam out

` + strings.Repeat(">", 120) + ` quoted
`,
	Good: `# Beam out

> > quoted twice
`,
	Say: func(f source.Fault) (string, string) {
		if f.Why != "" {
			return f.Why, f.Help
		}
		return "this is too tangled to be read as Markdown",
			"Part it with empty lines, or put it into a fenced block, where Markdown means nothing."
	},
}
