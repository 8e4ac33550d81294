package render

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/pick"
)

// What is told of money to whoever may see all of it: budgets, forecast, sale, and what lies ahead.

func hasMoney(s *site) bool {
	m := s.v.Money
	return m != nil && (!m.Costs.Spent.IsZero() || !m.Costs.Credits.IsZero() || m.Costs.Sold != nil || m.Costs.Account != nil || len(m.Lines) > 0)
}

type moneyLeaf struct{ *leaf }

func (s *voice) lastDay(d measure.Date) string { return cmp.Or(s.Day(d), s.Say("no date yet")) }

func hasBudgets(s *site) bool {
	return s.v.Money.Whole && slices.ContainsFunc(s.v.Money.Costs.Stages, func(st fact.Stage) bool { return st.Budget != nil })
}

func (p moneyLeaf) budgets() {
	c := p.v.Money.Costs
	list := pick.Where(c.Stages, func(st fact.Stage) bool { return st.Budget != nil })
	needs := func(st fact.Stage) bool { return c.Sold == nil && !st.Remaining[2].IsZero() }
	some := slices.ContainsFunc(list, needs)
	p.Raw(`<section aria-labelledby="_h-budgets"><h2 id="_h-budgets">{Against the budgets}</h2>
<p class="key">{The bar is the net cost, the pale block reaches from best to worst case, the tick marks likely. Each stage has a scale of its own.}</p>
<div class="scroll" role="region" aria-label="{Table of budgets}" tabindex="0">
<table class="matrix budgets"><thead><tr><th scope="col">{Stage}</th><th scope="col" class="sum">{Net}</th><th scope="col">{Net, against best to worst}</th><th scope="col" class="sum">{Budget: best · likely · worst}</th>`).
		If(some, `<th scope="col" class="sum">{Still needs}</th>`).Raw("<th scope=\"col\" class=\"sum\">{Over worst case}</th></tr></thead><tbody>\n")
	for _, st := range list {
		p.Raw(`<tr><th scope="row">`).Quote("", title(st.Name), "").Raw(`</th><td class="sum net">`).Text(p.sum(st.Net)).Raw(`</td><td class="draw">`)
		p.budgetBar(st.Net, *st.Budget)
		p.Raw(`</td><td class="sum">`).Text(p.three(*st.Budget)).Raw("</td>").If(some, `<td class="sum">`)
		if needs(st) {
			p.Text(p.three(st.Remaining))
		}
		p.If(some, "</td>").Raw(`<td class="sum over">`).Text(p.someSum(&st.Overrun)).Raw("</td></tr>\n")
	}
	p.Raw("</tbody></table></div></section>\n")
}

// budgetBar draws what was spent against best, likely and worst; all in hundredths.
func (p moneyLeaf) budgetBar(net decimal.Decimal, b fact.Three) {
	most := decimal.Max(net, b[2])
	if !most.IsPositive() {
		return
	}
	at := func(d decimal.Decimal) float64 { return max(0, d.Div(most).InexactFloat64()*100) }
	p.Raw(`<svg class="budget`).If(net.GreaterThan(b[2]), " over").Raw(`" viewBox="0 0 100 12" preserveAspectRatio="none" aria-hidden="true"><rect class="band" x="`).Text(number(at(b[0]))).
		Raw(`" width="`).Text(number(at(b[2]) - at(b[0]))).Raw(`" y="0" height="12"/><rect class="net" width="`).Text(number(at(net))).
		Raw(`" y="4" height="4"/><rect class="likely" x="`).Text(number(at(b[1]))).Raw(`" width="0.6" y="0" height="12"/></svg>`)
}

func (p moneyLeaf) forecast() {
	f := p.v.Money.Costs.Forecast
	if f == nil {
		return
	}
	spread := func(sd decimal.Decimal) string { return "±" + nbsp + p.sum(sd) }
	plates := []Plate{{Label: "Final cost, likely", Value: p.sum(f.Cost[1])}, {Label: "Final cost, on average", Value: p.sum(f.Mean), Note: p.Say("best, likely and worst weighed; give or take %s", p.sum(f.SD))}}
	facts := []Fact{
		p.plainFact("Final cost: best · likely · worst", p.three(f.Cost)),
		p.plainFact("Spread if stages are independent", spread(f.SD)),
		p.plainFact("Spread if all go wrong together", spread(f.SDTogether)),
	}
	if f.Resale != nil {
		plates = append(plates,
			Plate{Label: "Profit, on average", Value: p.sum(f.ProfitMean)},
			Plate{Label: "Chance of the profit wanted", Value: p.chance(f.Chance), Note: p.Say("%s if all go wrong together", p.chance(f.ChanceShared))})
		facts = append(facts, p.plainFact("Resale: low · likely · high", p.three(*f.Resale)))
	}
	if f.Holding != nil {
		facts = append(facts, p.plainFact("Holding, still to pay", p.sum(*f.Holding)))
	}
	if f.HoursLeft[2] > 0 {
		facts = append(facts, p.plainFact("Hours to come: best · likely · worst", p.Minutes(f.HoursLeft[0])+" · "+p.Minutes(f.HoursLeft[1])+" · "+p.Minutes(f.HoursLeft[2])))
	}
	p.Raw(`<section aria-labelledby="_h-forecast"><h2 id="_h-forecast">{Forecast}</h2>
`)
	writePlates(p.W, plates).Raw("\n")
	p.facts(facts).Raw("</section>\n")
}

func (p moneyLeaf) sale() {
	var list []Plate
	if r := p.v.Money.Costs.Sold; r != nil {
		list = append(list, Plate{Label: "Sold for", Value: p.sum(r.Price), Note: p.Say("on %s", r.Date)}, Plate{Label: "Profit", Value: p.sum(r.Profit)})
		if r.PerHour != nil {
			list = append(list, Plate{Label: "Profit per hour", Value: p.sum(*r.PerHour)})
		}
		if r.Return != nil {
			list = append(list, Plate{Label: "Return on net cost", Value: p.Percent(r.Return.InexactFloat64())})
		}
	}
	account := accountFacts(p.leaf.site)
	if list == nil && account == nil {
		return
	}
	p.Raw(`<section id="_sale" aria-labelledby="_h-sale"><h2 id="_h-sale">{The sale}</h2>
`)
	writePlates(p.W, list)
	if account != nil {
		p.facts(account)
	}
	p.Raw("</section>\n")
}

// accountFacts are the figures of the sale's account, where more than its price is told.
func accountFacts(s *site) []Fact {
	if s.v.Money == nil || s.v.Money.Costs.Account == nil {
		return nil
	}
	facts := pick.Map(s.v.Money.Costs.Account.Rows(), func(r fact.NamedSum) Fact { return s.plainFact(title(s.Word(r.Name)), s.sum(r.Sum)) })
	if s.v.Money.Costs.Sold != nil && len(facts) == 1 { // the price, which is told already
		return nil
	}
	return facts
}

// aheadPlates lead the front page until it is sold: when it is ready, or what it will have cost.
func aheadPlates(s *site) []Plate {
	v := s.v
	var list []Plate
	if v.TellsPrivate() && v.Money != nil && v.Money.Costs.Forecast != nil {
		f := v.Money.Costs.Forecast
		forecast := pick.Either(hasMoney(s), "money.html#_h-forecast", "")
		between := pick.Either(f.Cost[0].Equal(f.Cost[2]), "", s.Say("between %s and %s", s.sum(f.Cost[0]), s.sum(f.Cost[2])))
		list = append(list, Plate{"Final cost", s.sum(f.Cost[1]), between, forecast})
		if f.PerHour != nil {
			list = append(list, Plate{"Profit per hour", s.sum(*f.PerHour), s.Say("over all hours, worked and to come"), forecast})
		}
	}
	if r := v.Ready; r != nil && r.Likely != 0 {
		note := s.Say("likely")
		if r.Early != 0 && r.Early != r.Late {
			note = s.Say("between %s and %s", r.Early, s.lastDay(r.Late))
		}
		list = append(list, Plate{Label: "Ready", Value: s.Day(r.Likely), Note: note})
	}
	return list
}
