package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
)

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
