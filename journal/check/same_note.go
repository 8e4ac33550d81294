package check

import (
	"bytes"
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var sameNote = &Check{
	Name: "same-note", Severity: problem.Warning,
	Summary: "two notes of one day and the same words",
	Explain: "A copy of a note that was left beside it counts like any other. " +
		"Its time and costs are then counted twice.",
	Example: "-- 2026-04-11.md --\n---\nstage: body\ncost: 64.00 filler\n---\nwrong|-- 2026-04-11 copy.md --\nright|-- 2026-04-11 later.md --\n---\nstage: body\nwrong|cost: 64.00 filler\nright|cost: 12.00 paper\n---\n",
	Run: func(p *Pass) {
		alike, day := map[int][]*journal.Session{}, measure.Date(0) // by their sizes
		for _, s := range p.State.Build.Sessions {
			if s.Date != day { // short notes of two days may well be the same
				day = s.Date
				clear(alike)
			}
			counts := func(l *note.Line) bool { return l.Kind.Shape != note.One }
			if len(s.Note.Items) == 0 && !slices.ContainsFunc(s.Note.Lines, counts) {
				continue
			}
			size := len(s.Note.File.Data)
			same := slices.IndexFunc(alike[size], func(other *journal.Session) bool { return bytes.Equal(other.Note.File.Data, s.Note.File.Data) })
			if same >= 0 {
				p.Report(s.Note.File.Span(0, 0), "the note holds the same as "+quote(alike[size][same].Path)+", to the letter, and counts beside it", "Take one of the two out of the build if it is a copy.")
			} else {
				alike[size] = append(alike[size], s)
			}
		}
	},
}
