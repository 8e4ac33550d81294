package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var missingDate = &Check{
	Name:     journal.MissingDate,
	Severity: problem.Error,
	Summary:  "a session note without a date",
	Explain: "Every session has its day, in the name of its file or in its front matter. " +
		"Without one nothing in the note can count, so all of it is left out.",
	Bad:  "-- axle.md --\n---\ntime: 3h40 beam out\n---\n",
	Good: "-- axle.md --\n---\ndate: 2026-04-11\nstage: rear axle\ntime: 3h40 beam out\n---\n",
	Say: func(f source.Fault) (string, string) {
		if f.Help != "" {
			return "this note holds work but has no date", f.Help
		}
		return "this note holds work but has no date", "Write \"date: YYYY-MM-DD\", or begin the file's name with the date."
	},
}
