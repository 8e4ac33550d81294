package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var otherEnding = &Check{
	Name:     journal.OtherEnding,
	Severity: problem.Warning,
	Summary:  "a file that looks like a note, but whose name does not end in .md",
	Explain: "Only files whose names end in .md, in small letters, are read. " +
		"What stands in this one counts nowhere.",
	Bad:  "-- 2026-04-11.MD --\n---\nstage: rear axle\n---\n",
	Good: "-- 2026-04-11.md --\n---\nstage: rear axle\n---\n",
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " looks like a note but is not read, since " + f.Why, "Rename it so that it ends in .md, in small letters."
	},
}
