package check

import (
	"fmt"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

// What the days of notes and lines tell of slips.

var futureNote = &Check{
	Name: "future-note", Severity: problem.Information,
	Summary: "a session dated later than today",
	Explain: "Its time and money count already. " +
		"That is right for a plan, but mostly the year or the month is a slip.",
	Example: "wrong|-- 2027-04-11.md --\nright|-- 2026-04-11.md --\n---\nstage: rear axle\n---\n",
	Run: func(p *Pass) {
		future(p, func(s *journal.Session) bool { return !isFar(p, s) })
	},
}

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

var dateSlip = &Check{
	Name: "date-slip", Severity: problem.Warning,
	Summary: "a date in a line that does not fit the day of its note",
	Explain: "What is due, or under warranty, ends after the note is written, and what is paid was paid about then. " +
		"A date far from that is mostly a slip in the year, and the line counts in the wrong year or is overdue at once.",
	Example: "---\nstage: body\nwrong|cost: 64.00 filler; on 2062-04-10\nright|cost: 64.00 filler; on 2026-04-10\n---\n",
	Run: func(p *Pass) {
		for _, s := range p.State.Build.Sessions {
			if !p.looks(s) {
				continue
			}
			for _, l := range s.Note.Lines {
				if p.leftOut(l) {
					continue
				}
				for _, c := range l.Clauses {
					if day, ok := c.Value.(measure.Date); ok {
						if why := misfit(l.Kind.Key, c.Word, day, s, p.State.Build.Sessions[:s.Place]); why != "" {
							p.Report(c.Arg.Whole(), quote(c.Arg.S)+" is "+why, "Check the date.")
						}
					}
				}
			}
			for _, it := range s.Note.Items {
				due, ok := note.Arg[note.Due](it.Line, "due")
				if ok && !p.leftOut(it.Line) && due.Date != 0 && due.Date.DaysUntil(s.Date) > halfYear {
					c := it.Clause("due")
					p.Report(c.Arg.Whole(), quote(c.Arg.S)+" is more than half a year before the note, "+s.Date.String(), "Check the date.")
				}
			}
		}
	},
}

// misfit says how a date of a line does not fit its session, "" where it does.
func misfit(key, clause string, day measure.Date, s *journal.Session, before []*journal.Session) string {
	first := s
	if len(before) > 0 {
		first = before[0]
	}
	switch {
	case clause == "due" || clause == "warranty":
		if day < s.Date {
			return "before the note, " + s.Date.String()
		}
	case clause != "on":
	case s.Date.DaysUntil(day) > halfYear:
		return "more than half a year after the note, " + s.Date.String()
	case day.DaysUntil(first.Date) > 2*year:
		return "more than two years before the first note, " + first.Date.String()
	case (key == "sold" || key == "sale") && len(before) > 0:
		if last := before[len(before)-1]; day.DaysUntil(last.Date) > month {
			return "more than a month before the work of " + last.Date.String()
		}
	}
	return ""
}
