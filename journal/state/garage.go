package state

import (
	"cmp"
	"slices"
	"sort"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/pick"

	"github.com/shopspring/decimal"
)

// What is shared by the builds of a garage: its tools, and the donors.

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

// spread is how a donor's price stood: what it came to, what each part taken bears, and what stays in the garage.
func (st *State) spread(d *journal.Donor) (price decimal.Decimal, taken []journal.Taking, shares []decimal.Decimal, left decimal.Decimal) {
	price = d.Price
	for _, m := range d.Money {
		switch {
		case !st.Counts(m.Date):
		case m.Credit:
			price = price.Sub(m.Whole)
		default:
			price = price.Add(m.Whole)
		}
	}
	price = atLeastZero(price) // a donor that has earned more than it cost gives its parts for nothing
	var weights []decimal.Decimal
	for _, t := range d.Taken {
		if st.Counts(t.Line.Session.Date) {
			taken, weights = append(taken, t), append(weights, t.Worth)
		}
	}
	shares = money.SplitBy(price, append(weights, d.Holds), st.Build.Card.Currency)
	left = price
	for _, s := range shares[:len(taken)] {
		left = left.Sub(s)
	}
	return price, taken, shares, left
}

func (st *State) donorShares() []*journal.Money {
	var list []*journal.Money
	for _, d := range st.Build.Donors {
		_, taken, shares, _ := st.spread(d)
		for i, t := range taken {
			if t.Build == st.Build && !shares[i].IsZero() {
				list = append(list, &journal.Money{Session: t.Line.Session, Line: t.Line.Line, Private: t.Line.Private, Date: t.Line.Session.Date,
					Stage: st.Build.StageOfPart(t.Line), Category: "parts", Part: t.Line.ID, Donor: d.Name,
					Sum: money.Sum{Price: shares[i], Whole: shares[i], Build: shares[i]}})
			}
		}
	}
	return list
}

// Donors are those of the build's card, and those of the garage that it took parts from.
func (st *State) Donors() []fact.Donor {
	var list []fact.Donor
	for _, d := range st.Build.Donors {
		price, taken, _, left := st.spread(d)
		out := fact.Donor{Name: d.Name, Category: d.Category, Words: d.Line.Words().S, On: d.On, Price: &price, Left: &left, Spread: new(price.Sub(left)), Holds: &d.Holds}
		for _, t := range taken {
			if t.Build == st.Build {
				out.Parts++
			}
		}
		own := d.Line.Text.Whole().File == st.Build.Card.Note.File
		if !d.Lost && (out.Parts > 0 || own && (d.On == 0 || st.Counts(d.On))) {
			list = append(list, out)
		}
	}
	return list
}
