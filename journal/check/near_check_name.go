package check

import (
	"guidecoat/journal/near"
	"guidecoat/journal/problem"
)

var nearCheckName = &Check{
	Name:     "near-check-name",
	Severity: problem.Warning,
	Summary:  "a check whose name is a letter or two from one that falls due or has failed",
	Explain: "A check settles what is due or has failed only under its exact name. " +
		"With a slip in the name that stays outstanding, although the work was done.",
	Bad:  "---\nchecks:\n  wheel-retorqe: done; at 91310 mi\n---\n",
	Good: "---\nchecks:\n  wheel-retorque: done; at 91310 mi\n---\n",
	Run: func(p *Pass) {
		var known, failed near.Index
		due := map[string]bool{}
		for _, r := range p.State.Build.DueRules() {
			known.Add(r.Name)
			due[r.Name] = true
		}
		for _, c := range p.State.Build.Checks {
			other := failed.Nearest(c.Name)
			if due[c.Name] || other == c.Name {
				continue
			}
			like := known.Nearest(c.Name)
			if like == "" && near.IsSlip(other, c.Name) {
				like = other
			}
			if like != "" {
				p.Report(c.Line.NameSpan(), "no check that falls due or has failed is called "+quote(c.Name), "Nearest: "+quote(like)+". Only that name settles what is outstanding.")
			} else if c.Result == "failed" {
				failed.Add(c.Name)
			}
		}
	},
}
