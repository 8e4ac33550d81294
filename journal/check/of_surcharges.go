package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var ofSurcharges = []*Check{
	{
		Name: journal.SurchargeNeedsFor, Severity: problem.Error,
		Summary: "a surcharge that does not say for which part",
		Explain: "A surcharge is money that comes back when the old part is returned, so it belongs to a part. " +
			"Name it with `for`, on the cost and on the credit.",
		Example: "---\nstage: rear axle\nwrong|cost: 120.00 caliper, exchange; surcharge 40.00\nright|parts:\nright|  caliper-left: ordered rear caliper, left\nright|cost: 120.00 caliper, exchange; surcharge 40.00; for caliper-left\n---\n",
		Message: "{word} does not say for which part",
		Help:    "Write \"; for PART\" on the line.",
	},
	{
		Name: journal.SurchargeShared, Severity: problem.Error,
		Summary: "a surcharge on a price that is shared",
		Explain: "Whose money comes back cannot be told where the build pays only a part of the price. Write the shared price and the surcharge as two lines.",
		Example: `---
stage: rear axle
parts:
  caliper-left: ordered rear caliper, left
wrong|cost: 120.00 caliper, exchange; surcharge 40.00; for caliper-left; share 1/2
right|cost: 120.00 caliper, exchange; surcharge 40.00; for caliper-left
---
`,
		Message: "{word} cannot stand with a surcharge",
		Help:    "Write the shared price and the surcharge as two lines.",
	},
	{
		Name: journal.SurchargeTooLarge, Severity: problem.Error,
		Summary: "a surcharge larger than the price it is part of",
		Explain: "The price on the line is everything that was paid, the surcharge included. " +
			"Add the two up if the bill shows them apart.",
		Example: `---
stage: rear axle
parts:
  caliper-left: ordered rear caliper, left
wrong|cost: 80.00 caliper, exchange; surcharge 120.00; for caliper-left
right|cost: 200.00 caliper, exchange; surcharge 120.00; for caliper-left
---
`,
		Say: func(f source.Fault) (string, string) {
			return quote(f.Span.Text()) + " is more than the price, " + f.Word, "Write the whole price, the surcharge included."
		},
	},
	{
		Name: journal.DueNeedsSurcharge, Severity: problem.Error,
		Summary: "a day to return something by, but no surcharge",
		Explain: "On a cost, `due` is the day by which the old part must be back for its surcharge. " +
			"When a part should arrive stands on the part's own line.",
		Example: "---\nstage: rear axle\nwrong|cost: 120.00 caliper; due 2026-05-30\nright|parts:\nright|  caliper-left: ordered rear caliper, left; due 2026-05-30\nright|cost: 120.00 caliper; for caliper-left\n---\n",
		Message: "{word} on a cost without a surcharge",
		Help:    "Write \"; surcharge AMOUNT\", or put the day on the part's line if it is when the part should arrive.",
	},
	{
		Name: journal.SurchargeEarly, Severity: problem.Warning,
		Summary: "a surcharge that comes back before it was charged",
		Explain: "The credit counts, but there is nothing for it to settle. " +
			"Look for a cost that lacks its `surcharge`, for another part's id, or for a wrong date.",
		Example: `---
stage: rear axle
parts:
  caliper-left: ordered rear caliper, left
wrong|cost: 120.00 caliper, exchange; for caliper-left
right|cost: 120.00 caliper, exchange; for caliper-left; surcharge 40.00
credit: 40.00 old caliper; as surcharge; for caliper-left
---
`,
		Message: "a surcharge comes back for {word} before any was charged",
		Help:    "Write \"; surcharge AMOUNT\" on the cost of the part.",
	},
	{
		Name: journal.SurchargeOver, Severity: problem.Warning,
		Summary: "more surcharge that comes back than was charged",
		Explain: "The credit counts whole. " +
			"If part of it was a refund of the price, write that as a credit of its own.",
		Example: `---
stage: rear axle
parts:
  caliper-left: ordered rear caliper, left
cost: 120.00 caliper, exchange; for caliper-left; surcharge 40.00
wrong|credit: 48.00 old caliper; as surcharge; for caliper-left
right|credit:
right|  - 40.00 old caliper; as surcharge; for caliper-left
right|  - 8.00 carriage; for caliper-left
---
`,
		Message: "more surcharge comes back for {word} than was charged",
		Help:    "Write what is no surcharge as a credit of its own.",
	},
	surchargeAsRefund,
}
