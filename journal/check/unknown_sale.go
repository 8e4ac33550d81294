package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var unknownSale = &Check{
	Name:     note.UnknownSale,
	Severity: problem.Error,
	Summary:  "a line of the sale that does not say what became of the money",
	Explain: "Each line of `sale` begins with what happened, then the sum: asked, floor, deposit, kept, agreed, part exchange, paid, claim or returned. " +
		"`returned`, the vehicle that came back, needs no sum.",
	Bad:  "---\nsale: depositt 300.00\n---\n",
	Good: "---\nsale: deposit 300.00\n---\n",
	Say:  unknown("step of a sale"),
}
