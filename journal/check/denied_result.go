package check

import "guidecoat/journal/problem"

var deniedResult = &Check{
	Name:     "denied-result",
	Severity: problem.Warning,
	Summary:  "a check that is passed or done, and whose next words take that back",
	Explain: "Words such as `no`, `tomorrow`, `result pending` and `on one side only`, right behind the result, take it back: the check settles nothing. " +
		"A check that found a fault has failed, even where it was carried out.",
	Bad:  "---\nchecks:\n  leak-check: done, weeps at the left union\n---\n",
	Good: "---\nchecks:\n  leak-check: failed, weeps at the left union\n---\n",
	Run: func(p *Pass) {
		for _, c := range p.State.Build.Checks {
			if words := c.Denial(); words.S != "" {
				p.Report(words.Whole(), quote(c.Name)+" settles nothing: these words take back that it was "+c.Result,
					"Write \"failed\" if it did not pass, the line when it is done, or \"; sure\" at the end if it counts as it stands.")
			}
		}
	},
}
