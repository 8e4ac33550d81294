// Package fact holds plain values of a build on a day, which refer to no notes.
package fact

import (
	"slices"

	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/pick"

	"github.com/shopspring/decimal"
)

// Three is best, likely and worst, or low, likely and high.
type Three = [3]decimal.Decimal

// Unstaged is the name under which figures show what belongs to no stage.
const Unstaged = "unstaged"

// Costs are the figures of a build on one date, in whole minor units except where it says unrounded.
type Costs struct {
	Spent        decimal.Decimal // before credits
	Credits      decimal.Decimal
	Net          decimal.Decimal
	ToGarage     decimal.Decimal
	SurchargeDue decimal.Decimal
	Minutes      measure.Minutes
	Stages       []Stage    // all of the card, in order; then what belongs to none, unless it is nothing
	Categories   []NamedSum // those that are not zero, in the order of note.Categories
	Suppliers    []NamedSum // those that are not zero, by name
	Forecast     *Forecast  // nil once sold
	Sold         *Sold      // nil while it is not sold
	Account      *Account   // of the sale; nil where no line tells of one
	Ready        *Ready     // nil once sold, and where the card names no pace
}

// LacksVehicle tells whether nothing says what the vehicle cost, so that every profit is too high.
func (c *Costs) LacksVehicle() bool {
	return !slices.ContainsFunc(c.Categories, func(s NamedSum) bool { return s.Name == "vehicle" }) &&
		!slices.ContainsFunc(c.Stages, func(s Stage) bool { return s.Purchase && s.Remaining[1].IsPositive() })
}

// A Stage is the money and time of one stage.
type Stage struct {
	Name      string // Unstaged for what belongs to none
	Purchase  bool   // what was paid for the vehicle itself
	Spent     decimal.Decimal
	Credits   decimal.Decimal
	Net       decimal.Decimal
	Minutes   measure.Minutes
	Budget    *Three          // nil where it has none
	Remaining Three           // what it still needs
	Overrun   decimal.Decimal // spent above the worst budget
	// HoursLeft are the hours to come; nil where nothing tells of any.
	HoursLeft  *[3]measure.Minutes
	HoursKnown bool // an estimate says hours, not only the snags
	// Categories are the stage's costs by category, in the order of note.Categories.
	Categories []NamedSum
}

// OffBudget is what the stage cost beyond its likely budget, negative for less; nil without one.
func (s Stage) OffBudget() *decimal.Decimal {
	if s.Budget == nil {
		return nil
	}
	return new(s.Net.Sub(s.Budget[1]))
}

// Category is what the stage has cost in a category, before credits.
func (s Stage) Category(name string) decimal.Decimal {
	for _, c := range s.Categories {
		if c.Name == name {
			return c.Sum
		}
	}
	return decimal.Zero
}

type NamedSum struct {
	Name string
	Sum  decimal.Decimal
}

// A Forecast is what it will have cost in the end, by three-point estimates, unrounded.
type Forecast struct {
	Cost         Three // spent net, and best, likely and worst of what remains, with what holding costs
	Mean         decimal.Decimal
	Holding      *decimal.Decimal // what it still costs to keep, on average; nil where nothing is paid
	SD           decimal.Decimal  // stages vary independently: variances add
	SDTogether   decimal.Decimal  // one hidden fault spoils every stage: deviations add
	HoursLeft    [3]measure.Minutes
	Resale       *Three // nil where the card names none; then there is no chance to give
	ResaleMean   decimal.Decimal
	ResaleSD     decimal.Decimal
	ProfitMean   decimal.Decimal
	Goal         decimal.Decimal // the profit asked for
	Chance       float64         // of that profit, stages independent
	ChanceShared float64         // the same, stages together
	// PerHour is the mean profit by the hours worked and to come; nil where no estimate says hours.
	PerHour *decimal.Decimal
}

// Certain tells whether neither cost nor resale has any spread: the chance is then 0 or 1.
func (f *Forecast) Certain() bool { return f.SDTogether.IsZero() && f.ResaleSD.IsZero() }

// Sold is what the sale has brought.
type Sold struct {
	Price  decimal.Decimal
	Date   measure.Date
	Profit decimal.Decimal
	// PerHour is the profit by person-hour, in minor units; nil where no time is noted.
	PerHour *decimal.Decimal
	// Return is the profit by what was spent net, as a fraction, unrounded; nil where nothing was.
	Return *decimal.Decimal
}

// An Account is how a sale stands, in figures. What is nil is not there, or not shown.
type Account struct {
	Asked, Floor, Agreed        *decimal.Decimal
	Deposit, PartExchange, Paid *decimal.Decimal // of the sale that stands
	Owed                        *decimal.Decimal // nil while nothing is agreed
	Claims, Kept                *decimal.Decimal // of all sales there were
	// Told says that more than the price is written of it, so that what is owed means something.
	Told bool
}

// Rows names the figures there are, but for sums of nothing.
func (a *Account) Rows() []NamedSum {
	var list []NamedSum
	add := func(name string, sum *decimal.Decimal) {
		if sum != nil && !sum.IsZero() {
			list = append(list, NamedSum{name, *sum})
		}
	}
	add("asked", a.Asked)
	add("floor", a.Floor)
	add("agreed", a.Agreed)
	add("deposit", a.Deposit)
	add("part exchange", a.PartExchange)
	add("paid", a.Paid)
	switch owed := a.Owed; {
	case owed == nil || !a.Told:
	case owed.IsNegative():
		list = append(list, NamedSum{"paid too much", owed.Neg()})
	default:
		list = append(list, NamedSum{"still owed", *owed})
	}
	add("claims", a.Claims)
	add("kept", a.Kept)
	return list
}

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
	var budgeted []Stage
	for _, b := range g.Builds {
		if b.Sold != nil {
			budgeted = append(budgeted, pick.Where(b.Stages, func(s Stage) bool { return s.Budget != nil && !s.Budget[1].IsZero() })...)
		}
	}
	return pick.Map(pick.Groups(budgeted, func(s Stage) string { return s.Name }), func(of []Stage) Record {
		sum := decimal.Zero
		for _, s := range of {
			sum = sum.Add(s.Net.DivRound(s.Budget[1], 2*ratioPlaces))
		}
		return Record{Stage: of[0].Name, Builds: len(of), Ratio: sum.DivRound(decimal.NewFromInt(int64(len(of))), ratioPlaces)}
	})
}
