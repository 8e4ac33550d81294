package check

import (
	"fmt"

	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var tooLarge = &Check{
	Name:     note.TooLarge,
	Severity: problem.Error,
	Summary:  "a note too large to be read",
	Explain: "A year of sessions fits into one file many times over, so a larger one is hardly a note. " +
		"It is left out whole. Part it, or give it a name that does not end in .md.",
	Bad:       "2026-04-11.md holds 5 MiB of text\n",
	Good:      "---\nstage: rear axle\n---\n",
	Elsewhere: true,
	Say: func(f source.Fault) (string, string) {
		return fmt.Sprintf("the file is larger than %d MiB", note.MaxSize>>20), "Part it into several notes."
	},
}
