package check

import (
	"fmt"

	"guidecoat/journal"
	"guidecoat/journal/problem"
)

var yearSlip = &Check{
	Name: "year-slip", Severity: problem.Warning,
	Summary: "a session years from all others, or one that a year later would follow one of them",
	Explain: "In January the old year is easily written on. " +
		"The session then stands before the work it belongs to, and what it clears was not open yet.",
	Example: "-- 2026-01-03.md --\n---\nstage: body\n---\n-- 2026-01-05.md --\n---\nstage: body\n---\nwrong|-- 2025-01-09.md --\nright|-- 2026-01-09.md --\n---\nstage: body\n---\n",
	Run: func(p *Pass) {
		sessions := p.State.Build.Sessions // in the order of their dates
		if len(sessions) < 3 {
			return
		}
		for i, s := range sessions {
			if i > 0 && apart(sessions[i-1], s) <= halfYear || i+1 < len(sessions) && apart(s, sessions[i+1]) <= halfYear {
				continue
			}
			at := s.Note.File.Span(0, 0)
			if l := s.Note.Line("date"); l != nil {
				at = l.HeadSpan()
			}
			if (i == 0 || apart(sessions[i-1], s) > 2*year) && (i+1 == len(sessions) || apart(s, sessions[i+1]) > 2*year) {
				if s.Date <= p.State.Today { // else it is told as one of the future
					p.Report(at, fmt.Sprintf("%q is more than two years from all other sessions", s.Date), "Check the year.")
				}
			} else if o := yearLater(s, sessions[i+1:]); o != nil {
				p.Report(at, fmt.Sprintf("%q is far from all other sessions, but a year later it would follow %q", s.Date, o.Date), "Check the year.")
			}
		}
	},
}

const month, halfYear, year = 31, 180, 365 // in days

func apart(a, b *journal.Session) int { return a.Date.DaysUntil(b.Date) }

// yearLater is the session of those after it that it would follow closely, or nil.
func yearLater(s *journal.Session, after []*journal.Session) (last *journal.Session) {
	for _, o := range after {
		days := apart(s, o)
		if days > year {
			break
		}
		if days >= year-month {
			last = o
		}
	}
	return last
}
