package check

import (
	"regexp"

	"guidecoat/journal/problem"
)

var buyersDeposit = &Check{
	Name: "buyers-deposit", Severity: problem.Warning,
	Summary: "a credit in the words of what a buyer paid for the vehicle",
	Explain: "A credit lowers what the build has cost. A buyer's deposit is part of the price of the vehicle: as a credit it counts twice, " +
		"and the profit comes out too high.",
	Example: "---\nstage: body\ncost: 400.00 respray of the doors\nwrong|credit: 300.00 deposit from the buyer\nright|sale: deposit 300.00; from the buyer\n---\n",
	Run: func(p *Pass) {
		for _, m := range p.State.Build.Money {
			if !m.Credit || m.Part != "" || m.Line.Has("as") {
				continue
			}
			if words := m.Description() + " " + m.Supplier(); ofBuyer.MatchString(words) && !goesBack.MatchString(words) {
				p.Report(m.Line.HeadSpan(), "this is counted as money back, and reads as if a buyer paid it for the vehicle",
					"Write it below \"sale\" as \"deposit\", \"paid\" or \"part exchange\".")
			}
		}
	},
}

var (
	ofBuyer  = regexp.MustCompile(`(?i)^(?:holding )?deposit\b|\b(?:deposit|down[- ]payment) (?:from|by|for|on|paid|towards)\b|\b(?:from|by) (?:the |a |our |my )?(?:buyer|purchaser)\b|^(?:buyer|purchaser)\b|\bbuyer'?s deposit\b|\bpart[- ]exchange\b`)
	goesBack = regexp.MustCompile(`(?i)\b(?:back|return(?:s|ed)?|refund(?:s|ed)?)\b`)
)
