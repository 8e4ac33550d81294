package check

import (
	"fmt"

	"guidecoat/journal/problem"
)

var futureNote = &Check{
	Name:     "future-note",
	Severity: problem.Information,
	Summary:  "a session dated later than today",
	Explain: "Its time and money count already. " +
		"That is right for a plan, but mostly the year or the month is a slip.",
	Bad:  "-- 2126-04-11.md --\n---\nstage: rear axle\n---\n",
	Good: "-- 2026-04-11.md --\n---\nstage: rear axle\n---\n",
	Run: func(p *Pass) {
		if p.State.AsOf != 0 { // later notes do not count then, and nobody need wonder
			return
		}
		for _, s := range p.State.Sessions {
			if s.Date <= p.State.Today {
				continue
			}
			at := s.Note.File.Span(0, 0)
			if l := s.Note.Line("date"); l != nil {
				at = l.HeadSpan
			}
			p.Report(at, fmt.Sprintf("%q is later than today, %s", s.Date, p.State.Today), "Check the date.")
		}
	},
}
