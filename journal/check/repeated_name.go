package check

import (
	"path"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var repeatedName = &Check{
	Name:     note.RepeatedName,
	Severity: problem.Error,
	Summary:  "a name that stands twice below one key",
	Explain: "Two lines of one name are often one line too many, so the second is left out. " +
		"Where both are meant, as a part that was ordered and fitted on one day, begin each with a dash.",
	Bad:  "---\nstage: rear axle\nreadings:\n  disc-left: 8.7 mm\n  disc-left: 8.9 mm\n---\n",
	Good: "---\nstage: rear axle\nreadings:\n  - disc-left: 8.7 mm\n  - disc-left: 8.9 mm\n---\n",
	Say: func(f source.Fault) (string, string) {
		help := "Begin both lines with a dash if both are meant."
		if name := path.Base(f.Span.File.Path); name == journal.CardName || name == journal.GarageName {
			help = "Leave one of the two out."
		}
		return "the name " + quote(f.Word) + " stands twice, first at " + place(f.Other), help
	},
}
