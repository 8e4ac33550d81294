package check

import (
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var notPortable = &Check{
	Name:     note.NotPortable,
	Severity: problem.Information,
	Summary:  "front matter that other programs would read differently",
	Explain: "guidecoat reads every line as you typed it, so nothing is wrong. " +
		"Other programs that read your notes take front matter as YAML, and would stop here or read something else; quotes around the value mostly settle it.",
	Bad:  "---\ntitle: Beam out: a long day\nstage: rear axle\n---\n",
	Good: "---\ntitle: \"Beam out: a long day\"\nstage: rear axle\n---\n",
	Say: func(f source.Fault) (string, string) {
		const help = "Put the value in quotes if other programs should read it as you typed it."
		if f.Word == "" {
			return "programs that take this for YAML stop here: " + strings.TrimPrefix(f.Why, "they stop at it: "), help
		}
		return "programs that take this for YAML do not read " + quote(f.Word) + ": " + f.Why, help
	},
}
