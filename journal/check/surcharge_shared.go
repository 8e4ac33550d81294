package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var surchargeShared = &Check{
	Name:     journal.SurchargeShared,
	Severity: problem.Error,
	Summary:  "a surcharge on a price that is shared",
	Explain:  "Whose money comes back cannot be told where the build pays only a part of the price. Write the shared price and the surcharge as two lines.",
	Bad: `---
stage: rear axle
parts:
  caliper-left: ordered rear caliper, left
cost: 120.00 caliper, exchange; surcharge 40.00; for caliper-left; share 1/2
---
`,
	Good: `---
stage: rear axle
parts:
  caliper-left: ordered rear caliper, left
cost: 120.00 caliper, exchange; surcharge 40.00; for caliper-left
---
`,
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " cannot stand with a surcharge", "Write the shared price and the surcharge as two lines."
	},
}
