package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var worksOutToZero = &Check{
	Name:     journal.WorksOutToZero,
	Severity: problem.Error,
	Summary:  "a line whose money works out to zero",
	Explain:  "After quantity, tax, exchange and rounding nothing is left of it, which is hardly what was paid. Check the quantity and the price.",
	Bad:      "---\nstage: rear axle\ncost: 0.1 x 0.04 split pins\n---\n",
	Good:     "---\nstage: rear axle\ncost: 10 x 0.04 split pins\n---\n",
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " works out to zero", "Check the quantity, the price and the rate."
	},
}
