package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var surchargeOver = &Check{
	Name:     journal.SurchargeOver,
	Severity: problem.Warning,
	Summary:  "more surcharge that comes back than was charged",
	Explain: "The credit counts whole. " +
		"If part of it was a refund of the price, write that as a credit of its own.",
	Bad: `---
stage: rear axle
parts:
  caliper-left: ordered rear caliper, left
cost: 120.00 caliper, exchange; for caliper-left; surcharge 40.00
credit: 48.00 old caliper; as surcharge; for caliper-left
---
`,
	Good: `---
stage: rear axle
parts:
  caliper-left: ordered rear caliper, left
cost: 120.00 caliper, exchange; for caliper-left; surcharge 40.00
credit:
  - 40.00 old caliper; as surcharge; for caliper-left
  - 8.00 carriage; for caliper-left
---
`,
	Say: func(f source.Fault) (string, string) {
		return "more surcharge comes back for " + quote(f.Word) + " than was charged", "Write what is no surcharge as a credit of its own."
	},
}
