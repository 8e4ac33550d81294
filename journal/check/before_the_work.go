package check

import (
	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/problem"
)

var beforeTheWork = &Check{
	Name: "before-the-work", Severity: problem.Information,
	Summary: "a check that was carried out before the work that makes it due",
	Explain: "A check settles only what was done before it, in its own session or an earlier one. One from before the work says nothing of " +
		"the work: it has to be carried out again. If it was in fact done afterwards, the date of one of the two notes is wrong.",
	Example: `wrong|-- 2026-04-11.md --
wrong|---
wrong|stage: rear axle
wrong|checks:
wrong|  alignment: passed
wrong|---
-- 2026-04-12.md --
---
stage: rear axle
odometer: 91252 mi
parts:
  rear-beam: refitted rear axle beam
---
right|-- 2026-04-13.md --
right|---
right|stage: rear axle
right|checks:
right|  alignment: passed
right|---
`,
	Run: func(p *Pass) {
		last := map[string]*journal.CheckLine{}
		for _, c := range p.State.Build.Checks {
			last[c.Name] = c
		}
		for _, s := range p.State.Snags {
			c := last[s.ID]
			if s.Source == fact.FromDue && s.Open && c != nil && c.Result != "failed" && before(c.Session, s.Session, p.State.Sessions) {
				p.Report(c.Line.HeadSpan(), quote(c.Name)+" was carried out before the work that makes it due, at "+place(s.Span), "It is still due: carry it out again, or correct the date of the note.")
			}
		}
	},
}

// before tells whether session a comes before b among all.
func before(a, b *journal.Session, all []*journal.Session) bool {
	for _, s := range all {
		if s == a || s == b {
			return s == a && a != b
		}
	}
	return false
}
