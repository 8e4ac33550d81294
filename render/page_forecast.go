package render

import (
	"github.com/shopspring/decimal"

	"guidecoat/journal/state"
)

// What the page of money tells whoever may see all of it: budgets, forecast, sale.

func (s *site) budgets() []BudgetRow {
	var rows []BudgetRow
	most := decimal.Zero
	for _, st := range s.v.Money.Costs.Stages {
		most = decimal.Max(most, st.Net)
		if b := st.Budget(); b != nil {
			most = decimal.Max(most, b[2])
		}
	}
	sold := s.v.Money.Costs.Sold != nil
	for _, st := range s.v.Money.Costs.Stages {
		b := st.Budget()
		if b == nil {
			continue
		}
		row := BudgetRow{Name: title(st.Name), Net: minus(s.sum(st.Net)), Budget: s.three(*b), Bar: budgetBar(st.Net, *b, most)}
		if !sold && !st.Remaining[2].IsZero() {
			row.Left = s.three(st.Remaining)
		}
		if !st.Overrun.IsZero() {
			row.Over = s.sum(st.Overrun)
		}
		rows = append(rows, row)
	}
	return rows
}

func fact(name, value string) Fact { return Fact{Name: name, Value: value} }

// forecast is what the build will have cost, in headlines and in full.
func (s *site) forecast() ([]Plate, []Fact) {
	f := s.v.Money.Costs.Forecast
	if f == nil {
		return nil, nil
	}
	spread := func(sd decimal.Decimal) string { return "±" + nbsp + s.sum(sd) }
	plates := []Plate{{Label: "In the end, likely", Value: s.sum(f.Cost[1])}, {Label: "In the end, on average", Value: s.sum(f.Mean), Note: "give or take " + s.sum(f.SD)}}
	facts := []Fact{
		fact("In the end: best · likely · worst", s.three(f.Cost)),
		fact("Spread where stages are independent", spread(f.SD)),
		fact("Spread where all go wrong together", spread(f.SDTogether)),
	}
	if f.Resale != nil {
		plates = append(plates,
			Plate{Label: "Profit, on average", Value: minus(s.sum(f.ProfitMean))},
			Plate{Label: "Chance of the profit asked for", Value: chance(f.Chance), Note: chance(f.ChanceShared) + " where all go wrong together"})
		facts = append(facts, fact("Resale: low · likely · high", s.three(*f.Resale)))
	}
	return plates, facts
}

func (s *site) sale() []Plate {
	r := s.v.Money.Costs.Sold
	if r == nil {
		return nil
	}
	list := []Plate{
		{Label: "Sold for", Value: s.sum(r.Price), Note: "on " + day(r.Date)},
		{Label: "Profit", Value: minus(s.sum(r.Profit))},
	}
	if r.PerHour != nil {
		list = append(list, Plate{Label: "Profit by the hour", Value: minus(s.sum(*r.PerHour))})
	}
	if r.Return != nil {
		list = append(list, Plate{Label: "Return on what was spent", Value: percent(r.Return.InexactFloat64())})
	}
	return list
}

// A BudgetBar draws what was spent against best, likely and worst; all in hundredths.
type BudgetBar struct {
	Net, Likely string
	From, Width string // of the band from best to worst
	Over        bool
}

func budgetBar(net decimal.Decimal, b state.Three, most decimal.Decimal) *BudgetBar {
	if !most.IsPositive() {
		return nil
	}
	at := func(d decimal.Decimal) float64 { return max(0, d.Div(most).InexactFloat64()*100) }
	return &BudgetBar{Net: number(at(net)), Likely: number(at(b[1])), From: number(at(b[0])), Width: number(at(b[2]) - at(b[0])), Over: net.GreaterThan(b[2])}
}
