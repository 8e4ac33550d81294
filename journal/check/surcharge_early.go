package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var surchargeEarly = &Check{
	Name:     journal.SurchargeEarly,
	Severity: problem.Warning,
	Summary:  "a surcharge that comes back before it was charged",
	Explain: "The credit counts, but there is nothing for it to settle. " +
		"Look for a cost that lacks its `surcharge`, for another part's id, or for a wrong date.",
	Bad: `---
stage: rear axle
parts:
  caliper-left: ordered rear caliper, left
cost: 120.00 caliper, exchange; for caliper-left
credit: 40.00 old caliper; as surcharge; for caliper-left
---
`,
	Good: `---
stage: rear axle
parts:
  caliper-left: ordered rear caliper, left
cost: 120.00 caliper, exchange; for caliper-left; surcharge 40.00
credit: 40.00 old caliper; as surcharge; for caliper-left
---
`,
	Say: func(f source.Fault) (string, string) {
		return "a surcharge comes back for " + quote(f.Word) + " before any was charged", "Write \"; surcharge AMOUNT\" on the cost of the part."
	},
}
