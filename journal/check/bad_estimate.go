package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var badEstimate = &Check{
	Name:     note.BadEstimate,
	Severity: problem.Error,
	Summary:  "an estimate that is not one number or three that rise",
	Explain: "An estimate is best, likely and worst, in that order, set apart by spaces; one number stands for all three. " +
		"Three that do not rise would give a forecast that means nothing.",
	Bad:  "---\nstage: rear axle\nremaining:\n  rear axle: 180 120 300\n---\n",
	Good: "---\nstage: rear axle\nremaining:\n  rear axle: 120 180 300\n---\n",
	Say:  cannotRead("estimate"),
}
