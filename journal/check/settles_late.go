package check

import "guidecoat/journal/problem"

var settlesLate = &Check{
	Name: "settles-late", Severity: problem.Information,
	Summary: "a check that settles what was due, but after more distance than it should",
	Explain: "Some checks are to be carried out between two distances: sooner they tell nothing, and later the vehicle was driven on what nobody " +
		"had looked at. A late one counts; the record tells that it was late.",
	Example: `---
stage: rear axle
odometer: 91252 mi
parts:
  rear-beam: refitted rear axle beam
checks:
wrong|  wheel-retorque: done; at 91400 mi
right|  wheel-retorque: done; at 91300 mi
---
`,
	Run: func(p *Pass) {
		for _, c := range p.all().ChecksToTell {
			if c.Late {
				p.Report(c.At, quote(c.Name)+" was carried out "+c.Why, "It counts, and the record tells that it was late.")
			}
		}
	},
}
