package check

import "guidecoat/journal/problem"

var nothingHere = &Check{
	Name: "nothing-here", Severity: problem.Information,
	Summary: "a job card without any session note",
	Explain: "The build has begun on paper only: there is no dated note yet. " +
		"`guidecoat note` starts one for today.",
	Example: `wrong|-- build.md --
---
wrong|build: Example estate
wrong|currency: GBP
wrong|vat: 20%
wrong|rates:
wrong|  EUR: 0.86
wrong|stages:
wrong|  buying: budget 1500; purchase
wrong|  rear axle: budget 260 340 520; system suspension
wrong|  body: budget 400
right|stage: rear axle
---
`,
	Run: func(p *Pass) {
		b := p.State.Build
		if !b.Card.Exists || len(b.Sessions) > 0 {
			return
		}
		for _, f := range p.errors { // a note that was left out is no missing note
			if f.Span.File != b.Card.Note.File {
				return
			}
		}
		p.Report(b.Card.Note.File.Span(0, 0), "the build "+quote(b.Card.Name)+" has no session note yet", "`guidecoat note` starts one.")
	},
}
