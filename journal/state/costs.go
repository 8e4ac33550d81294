package state

import (
	"cmp"
	"slices"
	"sort"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"

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

// begunBy are the builds with a session, as it stood on asOf (0: all), by the day of the first, ties by path.
func begunBy(g *journal.Garage, asOf measure.Date) []*journal.Build {
	begun := pick.Where(g.Builds, func(b *journal.Build) bool { return len(b.Sessions) > 0 && (asOf == 0 || b.Sessions[0].Date <= asOf) })
	slices.SortStableFunc(begun, func(x, y *journal.Build) int { return cmp.Compare(x.Sessions[0].Date, y.Sessions[0].Date) })
	return begun
}

type share struct {
	build  *journal.Build
	amount decimal.Decimal
}

// shares spreads a tool over the first builds begun since it was bought. Other shares stay in the garage.
func shares(g *journal.Garage, t *journal.Tool, begun []*journal.Build) (list []share, unassigned decimal.Decimal) {
	begun = begun[sort.Search(len(begun), func(i int) bool { return begun[i].Sessions[0].Date >= t.On }):]
	unassigned = t.Price
	for i, part := range money.Split(t.Price, t.Over, g.Currency) {
		if i < len(begun) {
			list = append(list, share{begun[i], part})
			unassigned = unassigned.Sub(part)
		}
	}
	return list, unassigned
}

func GarageAt(g *journal.Garage, asOf, today measure.Date) *fact.Garage {
	out := &fact.Garage{Name: g.Name, Currency: g.Currency, AsOf: asOf, LinesLeftOut: g.LinesLeftOut}
	begun, carried := begunBy(g, asOf), map[*journal.Build]decimal.Decimal{}
	for _, t := range g.Tools {
		if asOf != 0 && t.On > asOf {
			continue
		}
		tool := fact.Tool{Name: t.Name, Price: t.Price, Over: t.Over}
		var list []share
		list, tool.Unassigned = shares(g, t, begun)
		for _, s := range list {
			carried[s.build] = carried[s.build].Add(s.amount)
			tool.Shares = append(tool.Shares, fact.Share{Name: s.build.Card.Name, Path: s.build.Path, Amount: s.amount})
		}
		out.Tools = append(out.Tools, tool)
	}
	for _, b := range g.Builds {
		h := fact.Housed{Name: b.Card.Name, Path: b.Path, Title: b.Title(), Currency: b.Card.Currency, LinesLeftOut: b.LinesLeftOut,
			Costs: At(b, asOf, today).Costs(), Carried: carried[b]}
		if h.Currency == g.Currency { // else it carries tools in one currency and was sold in another
			h.Earned = earned(&h)
			addTotals(&out.Totals, &h)
		}
		out.Builds = append(out.Builds, h)
	}
	out.Totals.PerHour = perHour(out.Totals.Earned, out.Totals.SoldMinutes, g.Currency.Digits)
	return out
}

func addTotals(t *fact.GarageTotals, b *fact.Housed) {
	t.Spent, t.Credits, t.Net = t.Spent.Add(b.Spent), t.Credits.Add(b.Credits), t.Net.Add(b.Net)
	t.Minutes += b.Minutes
	t.Carried = t.Carried.Add(b.Carried)
	if b.Earned != nil {
		t.Sold++
		t.Earned = t.Earned.Add(b.Earned.Sum)
		t.SoldMinutes += b.Minutes
	}
}

// earned is what a build has earned after its shares of the tools; nil while it is not sold.
func earned(b *fact.Housed) *fact.Earned {
	if b.Sold == nil {
		return nil
	}
	sum := b.Sold.Profit.Sub(b.Carried)
	return &fact.Earned{Sum: sum, PerHour: perHour(sum, b.Minutes, b.Currency.Digits)}
}

// perHour is a sum by the hour, in minor units; nil where no time is noted.
func perHour(sum decimal.Decimal, time measure.Minutes, digits int32) *decimal.Decimal {
	if time <= 0 {
		return nil
	}
	return new(sum.Mul(decimal.NewFromInt(60)).DivRound(decimal.NewFromInt(int64(time)), digits))
}
