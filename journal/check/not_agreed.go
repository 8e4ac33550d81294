package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var notAgreed = &Check{
	Name:     journal.NotAgreed,
	Severity: problem.Error,
	Summary:  "money of a sale whose price nobody wrote down",
	Explain: "What is still owed, and what the sale has earned, is worked out from the price that was agreed. " +
		"A deposit may come before it; what is paid, taken in part exchange or claimed may not go without it.",
	Bad:  "---\nsale: paid 5,150.00\n---\n",
	Good: "---\nsale:\n  - agreed 5,150.00\n  - paid 5,150.00\n---\n",
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " belongs to a sale without an agreed price", "Write \"agreed\" and the price, below \"sale\" as well."
	},
}
