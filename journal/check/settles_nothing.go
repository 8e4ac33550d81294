package check

import "guidecoat/journal/problem"

var settlesNothing = &Check{
	Name: "settles-nothing", Severity: problem.Warning,
	Summary: "a check that settles nothing: too soon, or only done after it failed",
	Explain: "Wheel fixings, for one, are torqued again only after some distance, since they settle as they are driven. " +
		"A check before that distance, or one for which nobody can tell, stays outstanding. So does one that failed, until it has passed.",
	Example: `---
stage: rear axle
odometer: 91252 mi
parts:
  rear-beam: refitted rear axle beam
checks:
wrong|  wheel-retorque: done; at 91260 mi
right|  wheel-retorque: done; at 91310 mi
---
`,
	Run: func(p *Pass) {
		for _, c := range p.all().ChecksToTell {
			if !c.Late {
				p.Report(c.At, quote(c.Name)+" settles nothing: "+c.Why, c.Help)
			}
		}
	},
}
