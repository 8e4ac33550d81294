package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var settlesNothing = &Check{
	Name:     journal.SettlesNothing,
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
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " does not settle what is due: " + f.Why, "Write \"; at DISTANCE\" with what the odometer read, or carry it out again."
	},
}
