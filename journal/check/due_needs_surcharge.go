package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var dueNeedsSurcharge = &Check{
	Name:     journal.DueNeedsSurcharge,
	Severity: problem.Error,
	Summary:  "a day to return something by, but no surcharge",
	Explain: "On a cost, `due` is the day by which the old part must be back for its surcharge. " +
		"When a part should arrive stands on the part's own line.",
	Bad:  "---\nstage: rear axle\ncost: 120.00 caliper; due 2026-05-30\n---\n",
	Good: "---\nstage: rear axle\nparts:\n  caliper-left: ordered rear caliper, left; due 2026-05-30\ncost: 120.00 caliper; for caliper-left\n---\n",
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " on a cost without a surcharge", "Write \"; surcharge AMOUNT\", or put the day on the part's line if it is when the part should arrive."
	},
}
