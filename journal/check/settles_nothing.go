package check

import (
	"guidecoat/journal/problem"
	"guidecoat/journal/state"
)

var settlesNothing = &Check{
	Name:     "settles-nothing",
	Severity: problem.Warning,
	Summary:  "a check that was carried out too soon, or at an unknown odometer reading",
	Explain: "Wheel fixings, for one, are torqued again only after some distance, since they settle as they are driven. " +
		"A check before that distance, or one for which nobody can tell, stays outstanding.",
	Bad: `---
stage: rear axle
odometer: 91252 mi
parts:
  rear-beam: refitted rear axle beam
checks:
  wheel-retorque: done; at 91260 mi
---
`,
	Good: `---
stage: rear axle
odometer: 91252 mi
parts:
  rear-beam: refitted rear axle beam
checks:
  wheel-retorque: done; at 91310 mi
---
`,
	Run: func(p *Pass) {
		for _, c := range state.ChecksInVain(p.State.Build) {
			p.Report(c.Line.NameSpan(), quote(c.Name)+" does not settle what is due: "+c.Why, "Write \"; at DISTANCE\" with what the odometer read, or carry it out again.")
		}
	},
}
