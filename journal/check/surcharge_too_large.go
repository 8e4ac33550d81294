package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var surchargeTooLarge = &Check{
	Name:     journal.SurchargeTooLarge,
	Severity: problem.Error,
	Summary:  "a surcharge larger than the price it is part of",
	Explain: "The price on the line is everything that was paid, the surcharge included. " +
		"Add the two up if the bill shows them apart.",
	Bad: `---
stage: rear axle
parts:
  caliper-left: ordered rear caliper, left
cost: 80.00 caliper, exchange; surcharge 120.00; for caliper-left
---
`,
	Good: `---
stage: rear axle
parts:
  caliper-left: ordered rear caliper, left
cost: 200.00 caliper, exchange; surcharge 120.00; for caliper-left
---
`,
	Say: func(f source.Fault) (string, string) {
		return quote(f.Span.Text()) + " is more than the price, " + f.Word, "Write the whole price, the surcharge included."
	},
}
