package state

import (
	"cmp"
	"maps"
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
	all := sumUp(st.Money)
	c := &fact.Costs{Spent: all.Spent, Credits: all.Credits, Net: all.Net, Categories: all.Categories, SurchargeDue: st.SurchargeDue}
	suppliers := map[string]decimal.Decimal{}
	for _, m := range st.Money {
		if !m.Credit {
			c.ToGarage = c.ToGarage.Add(m.Garage)
			suppliers[m.Supplier()] = suppliers[m.Supplier()].Add(m.Sum.Build)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(suppliers)) {
		if sum := suppliers[name]; name != "" && !sum.IsZero() {
			c.Suppliers = append(c.Suppliers, fact.NamedSum{Name: name, Sum: sum})
		}
	}
	known := func(stage string) string { return pick.Either(st.Build.StageNamed(stage) == nil, "", stage) }
	money := pick.By(st.Money, func(m *journal.Money) string { return known(m.Stage) })
	work := pick.By(st.Work, func(w *journal.Work) string { return known(w.Stage) })
	stage := func(name string) fact.Stage {
		s := sumUp(money[name])
		for _, w := range work[name] {
			s.Minutes += w.Minutes
		}
		c.Minutes += s.Minutes
		return s
	}
	for _, on := range st.Build.Stages {
		s := stage(on.Name)
		s.Name, s.Purchase, s.Budget = on.Name, on.Purchase, on.Budget
		forecastStage(st, &s, money[on.Name], work[on.Name])
		c.Stages = append(c.Stages, s)
	}
	if s := stage(""); !s.Spent.IsZero() || !s.Credits.IsZero() || s.Minutes != 0 {
		s.Name = fact.Unstaged
		c.Stages = append(c.Stages, s)
	}
	c.Account = accountOf(st.Account)
	if st.Sale != nil {
		c.Sold = st.sold(c)
	} else {
		c.Forecast = st.forecast(c)
	}
	return c
}

// sumUp adds up lines of money, of which a stage has these figures. Sums of categories that are zero are left out.
func sumUp(lines []*journal.Money) (s fact.Stage) {
	categories := map[string]decimal.Decimal{}
	for _, m := range lines {
		if m.Credit {
			s.Credits = s.Credits.Add(m.Sum.Build)
		} else {
			s.Spent = s.Spent.Add(m.Sum.Build)
			categories[m.Category] = categories[m.Category].Add(m.Sum.Build)
		}
	}
	s.Net = s.Spent.Sub(s.Credits)
	for _, name := range note.Categories {
		if sum := categories[name]; !sum.IsZero() {
			s.Categories = append(s.Categories, fact.NamedSum{Name: name, Sum: sum})
		}
	}
	return s
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
