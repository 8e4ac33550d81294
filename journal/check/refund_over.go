package check

import (
	"guidecoat/journal"
	"guidecoat/journal/money"
	"guidecoat/journal/problem"

	"github.com/shopspring/decimal"
)

var refundOver = &Check{
	Name: "refund-over", Severity: problem.Warning,
	Summary: "more refunded for a part, or in a stage, than was paid",
	Explain: "A refund is money that comes back of what was paid. Beyond that, a cost is missing, the part or the stage is another one, " +
		"or the money is for something sold: `as spares` or `as scrap`.",
	Example: `---
stage: rear axle
parts:
  rear-beam: returned rear axle beam
wrong|cost: 38.00 rear axle beam; for rear-beam
right|cost: 138.00 rear axle beam; for rear-beam
credit: 138.00 beam sent back; for rear-beam
---
`,
	Run: func(p *Pass) {
		if len(p.errors) > 0 { // a line that was left out may have held the cost
			return
		}
		parts, stages := map[string]*paid{}, map[string]*paid{}
		for _, m := range p.State.Money {
			if m.Credit && m.Category == "refund" {
				parts[m.Part], stages[m.Stage] = &paid{}, &paid{}
			}
		}
		for _, m := range p.State.Money {
			parts[m.Part].take(m)
			stages[m.Stage].take(m)
		}
		told := map[*journal.Money]bool{}
		report := func(name string, s *paid) {
			if s.net.IsNegative() && !told[s.refund] {
				told[s.refund] = true
				p.Report(s.refund.Line.HeadSpan(), money.Show(s.net.Neg(), p.State.Build.Card.Currency)+" more is refunded "+name+" than was paid",
					"Look for a cost that is missing, or write \"; as spares\" or \"; as scrap\" if something was sold.")
			}
		}
		for _, part := range p.State.Parts {
			if s := parts[part.ID]; s != nil {
				report("for "+quote(part.ID), s)
			}
		}
		for _, stage := range p.State.Build.Stages {
			if s := stages[stage.Name]; s != nil {
				report("in the stage "+quote(stage.Name), s)
			}
		}
	},
}

// A paid is what costs less what came back of them come to, and the newest refund of them.
type paid struct {
	net    decimal.Decimal
	refund *journal.Money
}

func (s *paid) take(m *journal.Money) {
	switch {
	case s == nil: // nothing was refunded
	case !m.Credit:
		s.net = s.net.Add(m.Whole)
	case m.Category == "refund" || m.Category == "surcharge":
		s.net = s.net.Sub(m.Whole)
		if m.Category == "refund" && (s.refund == nil || m.Date >= s.refund.Date) {
			s.refund = m
		}
	}
}
