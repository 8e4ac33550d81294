package check

import (
	"slices"

	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var sameNote = &Check{
	Name:     "same-note",
	Severity: problem.Warning,
	Summary:  "two notes of the same words",
	Explain: "A copy of a note that was left beside it counts like any other. " +
		"Its time and costs are then counted twice.",
	Bad:  "-- 2026-04-11.md --\n---\nstage: body\ncost: 64.00 filler\n---\n-- 2026-04-11 copy.md --\n---\nstage: body\ncost: 64.00 filler\n---\n",
	Good: "-- 2026-04-11.md --\n---\nstage: body\ncost: 64.00 filler\n---\n-- 2026-04-12.md --\n---\nstage: body\ncost: 12.00 paper\n---\n",
	Run: func(p *Pass) {
		first := map[string]string{}
		for _, s := range p.State.Build.Sessions {
			counts := func(l *note.Line) bool { return l.Kind.Shape != note.One }
			if len(s.Note.Items) == 0 && !slices.ContainsFunc(s.Note.Lines, counts) {
				continue
			}
			words := string(s.Note.File.Data)
			if other, ok := first[words]; ok {
				p.Report(s.Note.File.Span(0, 0), "the note holds the same as "+quote(other)+", to the letter, and counts beside it", "Take one of the two out of the build if it is a copy.")
			} else {
				first[words] = s.Path
			}
		}
	},
}
