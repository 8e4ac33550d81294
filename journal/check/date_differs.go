package check

import (
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var dateDiffers = &Check{
	Name:     journal.DateDiffers,
	Severity: problem.Error,
	Summary:  "a date that differs from the one in the file's name",
	Explain: "One of the two is a slip, and nobody but you can tell which. " +
		"The note is left out until they agree; the name alone is enough.",
	Bad:  "---\ndate: 2026-04-12\n---\n",
	Good: "---\ndate: 2026-04-11\n---\n",
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " is not the date in the file's name, " + strings.Join(f.Near, ""), "Correct one of the two, or leave this line out."
	},
}
