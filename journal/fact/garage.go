package fact

import (
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/pick"

	"github.com/shopspring/decimal"
)

// A Garage is the figures of a garage on one date.
type Garage struct {
	Name         string
	Currency     money.Currency
	AsOf         measure.Date // 0 where every note counts
	LinesLeftOut int          // of garage.md; each build has its own
	Builds       []Housed     // every build, by path
	Tools        []Tool
	// Totals are over the builds in the garage's currency, after their shares of tools.
	Totals GarageTotals
}

// Housed is one build of a garage.
type Housed struct {
	Name, Path   string
	Title        string // its name, else that of its folder
	Currency     money.Currency
	LinesLeftOut int
	*Costs
	Carried decimal.Decimal // of all tools, in the garage's currency
	Earned  *Earned         // nil where it is not sold, or in another currency than that it carries tools in
}

// Others are the builds that are left out of the totals for their currency.
func (g *Garage) Others() []Housed {
	return pick.Where(g.Builds, func(b Housed) bool { return b.Currency != g.Currency })
}

// Earned is what a sold build has earned after its shares of the tools.
type Earned struct {
	Sum     decimal.Decimal
	PerHour *decimal.Decimal // nil at no minutes
}

// A Tool is one tool that was bought by the date, and who carries it.
type Tool struct {
	Name       string
	Price      decimal.Decimal
	Over       int // builds
	Shares     []Share
	Unassigned decimal.Decimal
}

// A Share is what one build carries of a tool.
type Share struct {
	Name, Path string // of the build
	Amount     decimal.Decimal
}

type GarageTotals struct {
	Spent, Credits, Net decimal.Decimal
	Minutes             measure.Minutes
	Carried             decimal.Decimal // of the tools, by these builds
	Sold                int             // how many are sold
	Earned              decimal.Decimal // profit of the sold ones less their shares
	SoldMinutes         measure.Minutes
	PerHour             *decimal.Decimal // earned by person-hour of the sold ones; nil at no minutes
}

// A Record is how first budgets have fared in the stages of one name.
type Record struct {
	Stage  string
	Builds int // that are sold and had a budget for it
	// Ratio is the mean of net cost by likely budget: over 1 where the budgets were too small.
	Ratio decimal.Decimal
}

// ratioPlaces is how far a ratio is worked out; it is shown with two.
const ratioPlaces = 8

// TrackRecord compares first budgets of sold builds, whatever their currency, with what the stages came to.
func (g *Garage) TrackRecord() []Record {
	var list []Record
	at := map[string]int{}
	for _, b := range g.Builds {
		if b.Sold == nil {
			continue
		}
		for _, s := range b.Stages {
			if s.Budget == nil || s.Budget[1].IsZero() {
				continue
			}
			i, ok := at[s.Name]
			if !ok {
				i = len(list)
				at[s.Name], list = i, append(list, Record{Stage: s.Name})
			}
			list[i].Builds++
			list[i].Ratio = list[i].Ratio.Add(s.Net.DivRound(s.Budget[1], 2*ratioPlaces))
		}
	}
	for i := range list {
		list[i].Ratio = list[i].Ratio.DivRound(decimal.NewFromInt(int64(list[i].Builds)), ratioPlaces)
	}
	return list
}
