package check

import (
	"regexp"
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// Money that counts in another place than it seems.

var boughtElsewhere = &Check{
	Name: "bought-elsewhere", Severity: problem.Warning,
	Summary: "the price of the vehicle, or what came on top of it, in a stage of the work",
	Explain: "The forecast adds to what is spent what each stage's budget has left. A price that stands in a stage of the work leaves the budget of buying as it was, so the vehicle counts twice. " +
		"The same holds for fees and transport in the note of the price, and for a fee called as one of the card's `fees`.",
	Example: "---\nstage: body\nwrong|cost: 1400.00 hammer price; as vehicle\nright|cost: 1400.00 hammer price; as vehicle; stage buying\n---\n",
	Run: func(p *Pass) {
		b := p.State.Build
		buying := pick.First(b.Stages, func(st *journal.Stage) bool { return st.Purchase })
		if buying == nil {
			return
		}
		name := buying.Name
		priced := map[*journal.Session]bool{}
		for _, m := range b.Money {
			priced[m.Session] = priced[m.Session] || !m.Credit && m.Category == "vehicle"
		}
		for _, m := range b.Money {
			called := slices.ContainsFunc(b.Card.Fees, func(f journal.Fee) bool {
				return strings.HasPrefix(strings.ToLower(m.Description()), strings.ToLower(f.Name))
			})
			own := m.Line.Clause("stage")
			onTop := own == nil && (m.Category == "fees" && called || (m.Category == "fees" || m.Category == "transport") && priced[m.Session])
			if st := b.StageNamed(m.Stage); m.Credit || st == nil || st.Purchase || m.Category != "vehicle" && !onTop {
				continue
			}
			end := m.Line.Text.Whole()
			end.Start = end.End
			fix := &source.Fix{Span: end, Text: "; stage " + name}
			if own != nil {
				fix = &source.Fix{Span: own.Arg.Whole(), Text: name}
			}
			p.ReportFix(m.Line.HeadSpan(), "this was paid for the vehicle, but counts in "+quote(m.Stage)+", not in "+quote(name),
				"Write \"; stage "+name+"\" on the line.", fix)
		}
	},
}

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

var fittedUnpaid = &Check{
	Name: "fitted-unpaid", Severity: problem.Warning,
	Summary: "a part that is fitted, with nothing paid for it",
	Explain: "A part on the vehicle mostly cost something, and a cost that is missing makes the build look cheaper than it was. " +
		"Write the cost with `for` and the part's id, or `free` on the part's line if it cost nothing. " +
		"A part that was taken off and put back is `refitted`.",
	Example: "---\nstage: rear axle\nparts:\n  rear-beam: fitted rear axle beam; new\nright|cost: 138.00 rear axle beam; for rear-beam\n---\n",
	Run: func(p *Pass) {
		for _, part := range p.State.Parts {
			if part.State == "fitted" && !part.Free && !part.Paid.IsPositive() && !p.doubt()[part.ID] {
				p.Report(lastIn(part, "fitted").Line.HeadSpan(), quote(part.ID)+" is fitted, but nothing is paid for it",
					"Write \"; for "+part.ID+"\" on its cost, or \"; free\" here if it cost nothing.")
			}
		}
	},
}

var surchargeAsRefund = &Check{
	Name: "surcharge-as-refund", Severity: problem.Warning,
	Summary: "a credit in the words of a surcharge that is still open, counted as a refund",
	Explain: "A credit without `as` is a refund of the price, and leaves the surcharge of the part outstanding. " +
		"`as surcharge` settles it.",
	Example: ofCaliper("cost: 120.00 caliper, exchange; for caliper-left; surcharge 40.00\nwrong|credit: 40.00 surcharge back; for caliper-left\n" +
		"right|credit: 40.00 surcharge back; as surcharge; for caliper-left\n"),
	Run: func(p *Pass) {
		open := map[string]bool{}
		for _, s := range p.State.Snags {
			if s.Source == fact.FromSurcharge && s.Open {
				open[s.ID] = true
			}
		}
		for _, m := range p.State.Money {
			if m.Credit && !m.Line.Has("as") && open[journal.SurchargeID(m.Part)] && ofSurcharge.MatchString(m.Description()) {
				p.Report(m.Line.HeadSpan(), "this is counted as a refund, and the surcharge of "+quote(m.Part)+" stays open",
					"Write \"; as surcharge\" if it is the surcharge that came back.")
			}
		}
	},
}

// ofSurcharge are words for a surcharge or for the old part that it is paid back for.
var ofSurcharge = regexp.MustCompile(`(?i)\b(?:surcharge|exchange|core|old)\b`)

var estimateBeforeWork = &Check{
	Name: "estimate-before-work", Severity: problem.Information,
	Summary: "what a stage still needs, estimated before its work began",
	Explain: "The newest estimate of what a stage still needs takes the place of its budget. One from before the stage began knows no more " +
		"than the budget did, and all that the stage has cost since is taken off it. If it was meant to say what is still left after the " +
		"work so far, write a fresh one.",
	Example: `-- 2026-04-11.md --
---
stage: rear axle
wrong|remaining:
wrong|  body: 120 180 300
---
-- 2026-05-02.md --
---
stage: body
cost: 64.00 filler
right|remaining:
right|  body: 60 120 240
---
`,
	Run: func(p *Pass) {
		if p.State.Sale != nil || p.State.Build.Left == nil { // nothing more is forecast
			return
		}
		newest := map[string]*journal.Remaining{}
		for _, r := range p.State.Build.Left { // in the order of the sessions
			if p.State.AsOf == 0 || r.Session.Date <= p.State.AsOf {
				newest[r.Stage] = r
			}
		}
		began := p.began()
		for _, r := range p.State.Build.Left {
			if first := began[r.Stage]; newest[r.Stage] == r && !r.Closed && first > r.Session.Date {
				p.Report(r.Line.NameSpan(), "the estimate of "+quote(r.Stage)+" is older than its first work, on "+first.String(),
					"It only takes the place of the budget: write a fresh one where it should say what is left now.")
			}
		}
	},
}

// began are the days on which the stages began: their first money, time or session.
func (p *Pass) began() map[string]measure.Date {
	began := map[string]measure.Date{}
	note := func(stage string, d measure.Date) {
		if first, ok := began[stage]; !ok || d < first {
			began[stage] = d
		}
	}
	for _, s := range p.State.Sessions {
		note(s.Stage, s.Date)
	}
	for _, m := range p.State.Money {
		note(m.Stage, m.Date)
	}
	for _, w := range p.State.Work {
		note(w.Stage, w.Session.Date)
	}
	return began
}
