package state

import (
	"cmp"
	"slices"

	"guidecoat/journal/fact"
	"guidecoat/journal/note"

	"github.com/shopspring/decimal"
)

func (st *State) Costs() *fact.Costs {
	c := &fact.Costs{SurchargeDue: st.SurchargeDue}
	stages := map[string]*fact.Stage{}
	for _, s := range st.Build.Stages {
		stages[s.Name] = &fact.Stage{Name: s.Name, Purchase: s.Purchase, Budget: s.Budget}
	}
	unstaged := &fact.Stage{Name: fact.Unstaged}
	of := func(name string) *fact.Stage {
		if s := stages[name]; s != nil {
			return s
		}
		return unstaged
	}
	categories, suppliers := map[string]decimal.Decimal{}, map[string]decimal.Decimal{}
	byStage := map[*fact.Stage]map[string]decimal.Decimal{}
	for _, m := range st.Money {
		s := of(m.Stage)
		if m.Credit {
			c.Credits = c.Credits.Add(m.Sum.Build)
			s.Credits = s.Credits.Add(m.Sum.Build)
			continue
		}
		c.Spent = c.Spent.Add(m.Sum.Build)
		c.ToGarage = c.ToGarage.Add(m.Garage)
		s.Spent = s.Spent.Add(m.Sum.Build)
		categories[m.Category] = categories[m.Category].Add(m.Sum.Build)
		if byStage[s] == nil {
			byStage[s] = map[string]decimal.Decimal{}
		}
		byStage[s][m.Category] = byStage[s][m.Category].Add(m.Sum.Build)
		if m.Supplier() != "" {
			suppliers[m.Supplier()] = suppliers[m.Supplier()].Add(m.Sum.Build)
		}
	}
	for _, w := range st.Work {
		c.Minutes += w.Minutes
		of(w.Stage).Minutes += w.Minutes
	}
	c.Net = c.Spent.Sub(c.Credits)
	for _, s := range st.Build.Stages {
		c.Stages = append(c.Stages, *stages[s.Name])
	}
	if !unstaged.Spent.IsZero() || !unstaged.Credits.IsZero() || unstaged.Minutes != 0 {
		c.Stages = append(c.Stages, *unstaged)
	}
	lines := linesByStage(st)
	for i := range c.Stages {
		s := &c.Stages[i]
		s.Net = s.Spent.Sub(s.Credits)
		s.Categories = inOrder(byStage[of(s.Name)])
		if i < len(st.Build.Stages) {
			forecastStage(st, s, lines)
		}
	}
	c.Categories = inOrder(categories)
	for name, sum := range suppliers {
		if !sum.IsZero() {
			c.Suppliers = append(c.Suppliers, fact.NamedSum{Name: name, Sum: sum})
		}
	}
	slices.SortFunc(c.Suppliers, func(a, b fact.NamedSum) int { return cmp.Compare(a.Name, b.Name) })
	c.Account = accountOf(st.Account)
	if st.Sale != nil {
		c.Sold = st.sold(c)
	} else {
		c.Forecast = st.forecast(c)
	}
	return c
}

// inOrder lists the sums that are not zero in the order of the categories.
func inOrder(sums map[string]decimal.Decimal) []fact.NamedSum {
	var list []fact.NamedSum
	for _, name := range note.Categories {
		if sum := sums[name]; !sum.IsZero() {
			list = append(list, fact.NamedSum{Name: name, Sum: sum})
		}
	}
	return list
}

func (st *State) sold(c *fact.Costs) *fact.Sold {
	r := &fact.Sold{Price: st.Sale.Price, Date: st.Sale.Date, Profit: st.Account.Profit(c.Net)}
	r.PerHour = perHour(r.Profit, c.Minutes, st.Build.Card.Currency.Digits)
	if c.Net.IsPositive() {
		r.Return = new(r.Profit.DivRound(c.Net, 8))
	}
	return r
}
