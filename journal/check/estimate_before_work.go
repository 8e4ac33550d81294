package check

import (
	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/problem"
)

var estimateBeforeWork = &Check{
	Name: "estimate-before-work", Severity: problem.Information,
	Summary: "what a stage still needs, estimated before its work began",
	Explain: "The newest estimate of what a stage still needs takes the place of its budget. One from before the stage began knows no more " +
		"than the budget did, and all that the stage has cost since is taken off it. If it was meant to say what is still left after the " +
		"work so far, write a fresh one.",
	Example: `-- 2026-04-11.md --
---
stage: rear axle
wrong|remaining:
wrong|  body: 120 180 300
---
-- 2026-05-02.md --
---
stage: body
cost: 64.00 filler
right|remaining:
right|  body: 60 120 240
---
`,
	Run: func(p *Pass) {
		if p.State.Sale != nil || p.State.Build.Left == nil { // nothing more is forecast
			return
		}
		newest := map[string]*journal.Remaining{}
		for _, r := range p.State.Build.Left { // in the order of the sessions
			if p.State.AsOf == 0 || r.Session.Date <= p.State.AsOf {
				newest[r.Stage] = r
			}
		}
		began := p.began()
		for _, r := range p.State.Build.Left {
			if first := began[r.Stage]; newest[r.Stage] == r && !r.Closed && first > r.Session.Date {
				p.Report(r.Line.NameSpan(), "the estimate of "+quote(r.Stage)+" is older than its first work, on "+first.String(),
					"It only takes the place of the budget: write a fresh one where it should say what is left now.")
			}
		}
	},
}

// began are the days on which the stages began: their first money, time or session.
func (p *Pass) began() map[string]measure.Date {
	began := map[string]measure.Date{}
	note := func(stage string, d measure.Date) {
		if first, ok := began[stage]; !ok || d < first {
			began[stage] = d
		}
	}
	for _, s := range p.State.Sessions {
		note(s.Stage, s.Date)
	}
	for _, m := range p.State.Money {
		note(m.Stage, m.Date)
	}
	for _, w := range p.State.Work {
		note(w.Stage, w.Session.Date)
	}
	return began
}
