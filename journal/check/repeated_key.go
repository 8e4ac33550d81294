package check

import (
	"slices"

	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var repeatedKey = &Check{
	Name:     note.RepeatedKey,
	Severity: problem.Error,
	Summary:  "a key that stands twice",
	Explain: "Each key stands once in a note. What belongs to the second one is left out. " +
		"Put all lines below the first, each with a dash.",
	Bad:  "---\nstage: rear axle\ntime: 2h beam out\ntime: 1h30 cleaning\n---\n",
	Good: "---\nstage: rear axle\ntime:\n  - 2h beam out\n  - 1h30 cleaning\n---\n",
	Say: func(f source.Fault) (string, string) {
		help := "Leave one of the two out."
		if slices.ContainsFunc(slices.Concat(note.Session, note.Card, note.Garage), func(k *note.Kind) bool {
			return k.Key == f.Word && k.Shape != note.One
		}) {
			help = "Put its lines together below the first."
		}
		return "the key " + quote(f.Word) + " stands twice, first at " + place(f.Other), help
	},
}
