package state

import (
	"cmp"
	"slices"
	"sort"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"

	"github.com/shopspring/decimal"
)

// A ToolShare is what one build carries of a tool.
type ToolShare struct {
	Build  *journal.Build
	Amount decimal.Decimal
}

// begunBy are the builds with a session, as it stood on asOf (0: every note counts), by the
// day of the first, ties by path.
func begunBy(g *journal.Garage, asOf measure.Date) []*journal.Build {
	var begun []*journal.Build
	for _, b := range g.Builds {
		if len(b.Sessions) > 0 && (asOf == 0 || b.Sessions[0].Date <= asOf) {
			begun = append(begun, b)
		}
	}
	slices.SortStableFunc(begun, func(x, y *journal.Build) int { return cmp.Compare(x.Sessions[0].Date, y.Sessions[0].Date) })
	return begun
}

// shares spreads a tool over the first of the builds that have begun on or after the day
// it was bought. The shares of builds not yet begun stay in the garage.
func shares(g *journal.Garage, t *journal.Tool, begun []*journal.Build) (shares []ToolShare, unassigned decimal.Decimal) {
	begun = begun[sort.Search(len(begun), func(i int) bool { return begun[i].Sessions[0].Date >= t.On }):]
	unassigned = t.Price
	for i, part := range money.Split(t.Price, t.Over, g.Currency) {
		if i < len(begun) {
			shares = append(shares, ToolShare{begun[i], part})
			unassigned = unassigned.Sub(part)
		}
	}
	return shares, unassigned
}

// GarageCosts are the figures of a garage on one date.
type GarageCosts struct {
	Garage *journal.Garage
	Builds []*Costs // of every build, by path
	Tools  []ToolCosts
	// Totals are over the builds in the garage's currency, each after its shares of
	// the tools. Others says which builds were left out for their currency.
	Totals GarageTotals
	Others []*journal.Build

	carried map[*journal.Build]decimal.Decimal
}

// ToolCosts is one tool that was bought by the date, and who carries it.
type ToolCosts struct {
	Tool       *journal.Tool
	Shares     []ToolShare
	Unassigned decimal.Decimal
}

// GarageTotals are sums over builds.
type GarageTotals struct {
	Spent, Credits, Net decimal.Decimal
	Minutes             measure.Minutes
	Shares              decimal.Decimal // of the tools, for these builds
	Sold                int             // how many are sold
	Earned              decimal.Decimal // profit of the sold ones less their shares
	SoldMinutes         measure.Minutes
	PerHour             *decimal.Decimal // earned by person-hour of the sold ones; nil at no minutes
}

// GarageAt adds up every build of the garage.
func GarageAt(g *journal.Garage, asOf, today measure.Date) *GarageCosts {
	c := &GarageCosts{Garage: g, carried: map[*journal.Build]decimal.Decimal{}}
	begun := begunBy(g, asOf)
	for _, t := range g.Tools {
		if asOf != 0 && t.On > asOf {
			continue
		}
		shares, rest := shares(g, t, begun)
		for _, share := range shares {
			c.carried[share.Build] = c.carried[share.Build].Add(share.Amount)
		}
		c.Tools = append(c.Tools, ToolCosts{t, shares, rest})
	}
	for _, b := range g.Builds {
		costs := At(b, asOf, today).Costs()
		c.Builds = append(c.Builds, costs)
		if b.Card.Currency != g.Currency {
			c.Others = append(c.Others, b)
			continue
		}
		c.Totals.add(costs, c.Carried(b))
	}
	c.Totals.PerHour = perHour(c.Totals.Earned, c.Totals.SoldMinutes, g.Currency.Digits)
	return c
}

func (t *GarageTotals) add(c *Costs, shares decimal.Decimal) {
	t.Spent, t.Credits, t.Net = t.Spent.Add(c.Spent), t.Credits.Add(c.Credits), t.Net.Add(c.Net)
	t.Minutes += c.Minutes
	t.Shares = t.Shares.Add(shares)
	if c.Sold != nil {
		t.Sold++
		t.Earned = t.Earned.Add(c.Sold.Profit).Sub(shares)
		t.SoldMinutes += c.Minutes
	}
}
