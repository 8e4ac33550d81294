package view

import (
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/pick"

	"github.com/shopspring/decimal"
)

func (v *viewer) money() *MoneyView {
	if !v.work {
		return nil
	}
	seen := *v.st
	seen.Money = pick.Where(v.st.Money, v.moneySeen)
	seen.Work = pick.Where(v.st.Work, func(x *journal.Work) bool { return !v.ofPurchase(x.Stage) })
	if !v.whole {
		seen.SurchargeDue = decimal.Zero
	}
	if v.shown != nil { // it is only asked which lines are shown
		for _, m := range seen.Money {
			v.line(m)
		}
		return &MoneyView{Costs: &fact.Costs{}}
	}
	costs := seen.Costs()
	costs.Stages = slices.DeleteFunc(costs.Stages, func(s fact.Stage) bool { return v.ofPurchase(s.Name) })
	hideHours(v, costs)
	named := map[string]bool{} // by a line that is shown where lines are
	for _, m := range seen.Money {
		named[m.Supplier()] = named[m.Supplier()] || v.private || !m.Private
	}
	costs.Suppliers = slices.DeleteFunc(costs.Suppliers, func(n fact.NamedSum) bool { return !v.suppliers || !named[n.Name] })
	if !v.saleSeen() {
		costs.Sold = nil
	}
	if !v.whole {
		costs.Forecast, costs.Sold = nil, nil
		for i := range costs.Stages {
			s := &costs.Stages[i]
			s.Budget, s.Remaining, s.Overrun, s.HoursLeft = nil, fact.Three{}, decimal.Zero, nil
		}
	}
	if costs.Ready = v.ready(); costs.Forecast != nil && !v.business {
		costs.Forecast.Holding = nil
	}
	if costs.Forecast != nil && !v.private {
		costs.Forecast.Goal = decimal.Zero
	}
	costs.Account = account(v, costs.Account)
	out := &MoneyView{Whole: v.whole, Costs: costs, LinesShown: v.lines}
	if v.lines {
		for _, m := range seen.Money {
			if l := v.line(m); l != nil {
				out.Lines = append(out.Lines, l)
			}
		}
	}
	return out
}

func account(v *viewer, a *fact.Account) *fact.Account {
	if a == nil || v.business {
		return a
	}
	lines := append(slices.Clone(v.st.Account.Lines), v.st.Account.Asked)
	if !v.sale || slices.ContainsFunc(lines, func(s *journal.Sale) bool { return s != nil && s.Private }) {
		return nil
	}
	seen := *a
	seen.Floor, seen.Claims, seen.Kept = nil, nil, nil
	if len(seen.Rows()) == 0 {
		return nil // only of what is hidden
	}
	return &seen
}

// ready is when it will be done; all but the likely day are for the workshop.
func (v *viewer) ready() *fact.Ready {
	r := v.st.Ready()
	if r != nil && !v.business {
		return &fact.Ready{Likely: r.Likely}
	}
	return r
}

// hideHours leaves out everything that tells of time, where time is not shown.
func hideHours(v *viewer, c *fact.Costs) {
	if v.hours {
		return
	}
	c.Minutes = 0
	for i := range c.Stages {
		c.Stages[i].Minutes, c.Stages[i].HoursLeft = 0, nil
	}
	if c.Forecast != nil {
		c.Forecast.HoursLeft, c.Forecast.PerHour = [3]measure.Minutes{}, nil
	}
	if c.Sold != nil {
		c.Sold.PerHour = nil
	}
}

func (v *viewer) line(m *journal.Money) *MoneyLine {
	if !v.lines || !v.moneySeen(m) || m.Private && !v.private {
		return nil
	}
	l := &MoneyLine{Credit: m.Credit, Date: m.Date, Session: v.names[m.Session], Note: m.Session.Path,
		Line: m.Line.HeadSpan().Begin().Line, Stage: m.Stage, Category: m.Category, Description: m.Description(), Part: m.Part,
		Amount: m.Sum.Build, Whole: m.Whole, Garage: m.Garage, Tax: m.Tax, Written: m.Line.HeadSpan().Text(), Surcharge: m.Surcharge, Private: m.Private}
	if m.IsShare() {
		l.Written = v.st.Build.ShowMoney(m.Whole)
	}
	if v.hidden[m.Part] {
		l.Part = ""
	}
	v.shows(m.Line, m.Line.Words())
	if v.suppliers {
		l.Supplier = m.Supplier()
	}
	if v.receipts {
		l.Receipt = m.Receipt()
		v.use(m.Receipt(), dirOf(m.Session.Path))
	}
	return l
}
