package check

import (
	"fmt"

	"guidecoat/journal"
	"guidecoat/journal/problem"
)

var farFutureNote = &Check{
	Name: "far-future-note", Severity: problem.Warning,
	Summary: "a session dated more than a year later than today",
	Explain: "Nobody plans a day's work that far ahead, so the year is a slip. " +
		"The session stands after all others and its time and money count already.",
	Example: "wrong|-- 2126-04-11.md --\nright|-- 2026-04-11.md --\n---\nstage: rear axle\n---\n",
	Run: func(p *Pass) {
		future(p, func(s *journal.Session) bool { return isFar(p, s) })
	},
}

func isFar(p *Pass, s *journal.Session) bool { return s.Date > p.State.Today.AddDays(366) }

// future reports the sessions later than today of which that holds.
func future(p *Pass, holds func(*journal.Session) bool) {
	if p.State.AsOf != 0 { // later notes do not count then, and nobody need wonder
		return
	}
	for _, s := range p.State.Sessions {
		if s.Date <= p.State.Today || !holds(s) {
			continue
		}
		at := s.Note.File.Span(0, 0)
		if l := s.Note.Line("date"); l != nil {
			at = l.HeadSpan()
		}
		p.Report(at, fmt.Sprintf("%q is later than today, %s", s.Date, p.State.Today), "Check the date.")
	}
}
