package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var noteInSite = &Check{
	Name:     journal.NoteInSite,
	Severity: problem.Error,
	Summary:  "a note in a folder that guidecoat published",
	Explain: "A folder that `publish` wrote holds a hidden file `.guidecoat` and is not read, so a note saved into it would count for nothing. " +
		"Move the note to the build's folder. If the folder was never a site, delete its `.guidecoat`, and its notes are read.",
	Bad:       "site/2026-04-12.md lies beside site/.guidecoat\n",
	Good:      "-- 2026-04-12.md --\n---\nstage: rear axle\n---\n",
	Elsewhere: true,
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " lies in a folder that guidecoat published, where no note is read",
			"Move it out of that folder, beside build.md for instance."
	},
}
