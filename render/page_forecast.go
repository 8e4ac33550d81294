package render

import (
	"github.com/shopspring/decimal"

	"guidecoat/journal"
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

func plain1(name, value string) Fact { return Fact{name, []Link{{Text: value}}} }

func (s *site) forecast() []Fact {
	f := s.v.Money.Costs.Forecast
	if f == nil {
		return nil
	}
	list := []Fact{
		plain1("Cost in the end, best · likely · worst", s.three(f.Cost)),
		plain1("Mean", s.sum(f.Mean)),
		plain1("Spread, stages independent", "± "+s.sum(decimal.NewFromFloat(f.SD))),
		plain1("Spread, stages together", "± "+s.sum(decimal.NewFromFloat(f.SDTogether))),
	}
	if f.Resale != nil {
		list = append(list,
			plain1("Resale, low · likely · high", s.three(*f.Resale)),
			plain1("Profit to be expected", minus(s.sum(f.ProfitMean))),
			plain1("Chance of the profit asked for, stages independent", chance(f.Chance)),
			plain1("The same, stages together", chance(f.ChanceShared)))
	}
	return list
}

func (s *site) sale() []Plate {
	r := s.v.Money.Costs.Sold
	if r == nil {
		return nil
	}
	list := []Plate{
		{Label: "Sold for", Value: s.sum(r.Price), Note: "on " + day(r.Date).Text},
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

func budgetBar(net decimal.Decimal, b journal.Three, most decimal.Decimal) *BudgetBar {
	if !most.IsPositive() {
		return nil
	}
	at := func(d decimal.Decimal) float64 { return max(0, d.Div(most).InexactFloat64()*100) }
	return &BudgetBar{Net: number(at(net)), Likely: number(at(b[1])), From: number(at(b[0])), Width: number(at(b[2]) - at(b[0])), Over: net.GreaterThan(b[2])}
}
