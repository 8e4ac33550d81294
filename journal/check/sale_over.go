package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var saleOver = &Check{
	Name:     journal.SaleOver,
	Severity: problem.Warning,
	Summary:  "more paid for a sale than was agreed, or more kept than was paid",
	Explain: "Deposit, part exchange and what is paid come to the price in the end. " +
		"What goes beyond it is mostly a deposit that was counted again in the rest, or a slip in a figure.",
	Bad:  "---\nsale:\n  - deposit 300.00\n  - agreed 5,150.00\n  - paid 5,150.00\n---\n",
	Good: "---\nsale:\n  - deposit 300.00\n  - agreed 5,150.00\n  - paid 4,850.00\n---\n",
	Say: func(f source.Fault) (string, string) {
		if f.Word == "kept" {
			return "more is kept than the " + f.Why + " that the buyer had paid", "Write what was kept of it."
		}
		return "with this the buyer has paid more than the " + f.Why + " agreed", "Write what was still to pay after the deposit."
	},
}
