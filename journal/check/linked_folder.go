package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var linkedFolder = &Check{
	Name:     journal.LinkedFolder,
	Severity: problem.Information,
	Summary:  "a link to a folder, which is not followed",
	Explain: "A link can lead out of the build or round in a circle, so links to folders are not followed. " +
		"Put the folder itself here if its notes and pictures belong to the build.",
	Bad:       "photos is a link to /home/me/pictures\n",
	Good:      "-- 2026-04-11.md --\n[the test sheet](papers/test.md)\n-- papers/test.md --\n---\npage: The test sheet\n---\n",
	Elsewhere: true,
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " is a link to a folder and is not followed", "Put the folder itself here if it belongs to the build."
	},
}
