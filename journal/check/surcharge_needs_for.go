package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var surchargeNeedsFor = &Check{
	Name:     journal.SurchargeNeedsFor,
	Severity: problem.Error,
	Summary:  "a surcharge that does not say for which part",
	Explain: "A surcharge is money that comes back when the old part is returned, so it belongs to a part. " +
		"Name it with `for`, on the cost and on the credit.",
	Bad:  "---\nstage: rear axle\ncost: 120.00 caliper, exchange; surcharge 40.00\n---\n",
	Good: "---\nstage: rear axle\nparts:\n  caliper-left: ordered rear caliper, left\ncost: 120.00 caliper, exchange; surcharge 40.00; for caliper-left\n---\n",
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " does not say for which part", "Write \"; for PART\" on the line."
	},
}
