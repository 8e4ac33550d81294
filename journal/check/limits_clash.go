package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var limitsClash = &Check{
	Name:     journal.LimitsClash,
	Severity: problem.Error,
	Summary:  "limits of a reading that contradict each other",
	Explain: "A reading has one least and one most value, and the least is not above the most. " +
		"Limits come from the maker's data; look them up again.",
	Bad:  "---\nstage: rear axle\nreadings:\n  disc-left: 8.7 mm; min 9.0 mm; max 8.0 mm\n---\n",
	Good: "---\nstage: rear axle\nreadings:\n  disc-left: 8.7 mm; min 8.0 mm; max 9.4 mm\n---\n",
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " clashes with another limit: " + f.Why, "Leave one of the two out, or correct it."
	},
}
