package check

import (
	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

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
