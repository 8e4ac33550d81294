package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var notALine = &Check{
	Name:     note.NotALine,
	Severity: problem.Error,
	Summary:  "a line of front matter that has no place there",
	Explain: "Front matter holds `key: value`, lines below a key, and comments that begin with #. " +
		"A value is one line; prose belongs below the front matter.",
	Bad:  "---\nstage: rear axle\nbeam out today\n---\n",
	Good: "---\nstage: rear axle\n# beam out today\n---\n",
	Say: func(f source.Fault) (string, string) {
		if f.Help != "" {
			return quote(f.Word) + " is no line of front matter: " + f.Why, f.Help
		}
		return quote(f.Word) + " is no line of front matter: " + f.Why,
			"Write \"key: value\", or \"- LINE\" below a key, or begin the line with \"#\" if it is a comment."
	},
}
