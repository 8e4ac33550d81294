package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var notSold = &Check{
	Name:     journal.NotSold,
	Severity: problem.Error,
	Summary:  "a vehicle that comes back without having been sold",
	Explain:  "`returned` ends the sale that stands, so one must have been agreed before it. A part that goes back stands below `parts`.",
	Bad:      "---\nsale:\n  - deposit 300.00\n  - returned\n---\n",
	Good:     "---\nsale:\n  - deposit 300.00\n  - kept 300.00\n---\n",
	Say: func(source.Fault) (string, string) {
		return "the vehicle comes back, but no sale of it stands", "Write \"agreed\" and the price above it, or \"kept\" for a deposit of a sale that fell through."
	},
}
