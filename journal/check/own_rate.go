package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var ownRate = &Check{
	Name:     journal.OwnRate,
	Severity: problem.Error,
	Summary:  "a rate of exchange for the build's own currency",
	Explain: "The build's own currency is not exchanged, so a rate says that another currency was meant. " +
		"Write that currency behind the amount, or leave the rate out.",
	Bad:  "---\nstage: rear axle\ncost: 64.00 brake hoses; rate 0.86\n---\n",
	Good: "---\nstage: rear axle\ncost: 64.00 EUR brake hoses; rate 0.86\n---\n",
	Say: func(f source.Fault) (string, string) {
		return "a rate of exchange for " + quote(f.Word) + ", the build's own currency", "Write the currency that was paid behind the amount, or leave the rate out."
	},
}
