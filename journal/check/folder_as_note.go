package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var folderAsNote = &Check{
	Name:     journal.FolderAsNote,
	Severity: problem.Error,
	Summary:  "a folder named like a note",
	Explain: "A name that ends in .md should be a note, but here it is a folder, mostly made by unpacking or synchronising. " +
		"The notes in it are read; rename the folder so that nobody takes it for one.",
	Bad:  "-- 2026-04-11.md/2026-04-11.md --\n---\nstage: rear axle\n---\n",
	Good: "-- 2026-04/2026-04-11.md --\n---\nstage: rear axle\n---\n",
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " is a folder, not a note", "Give the folder a name without .md."
	},
}
