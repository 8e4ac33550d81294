package state

import (
	"cmp"
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"

	"github.com/shopspring/decimal"
)

// Three is best, likely and worst, or low, likely and high.
type Three = [3]decimal.Decimal

// Costs are the figures of a build on one date. Every sum is exact in the build's
// currency and already in whole minor units, except where it says unrounded.
type Costs struct {
	State        *State
	Spent        decimal.Decimal // before credits
	Credits      decimal.Decimal
	Net          decimal.Decimal
	ToGarage     decimal.Decimal
	SurchargeDue decimal.Decimal
	Minutes      measure.Minutes
	Stages       []StageCosts // all of the card, in order; then what belongs to none, unless it is nothing
	Categories   []NamedSum   // those that are not zero, in the order of note.Categories
	Suppliers    []NamedSum   // those that are not zero, by name
	Forecast     *Forecast    // nil once sold
	Sold         *Result      // nil while it is not sold
}

// StageCosts are the figures of one stage.
type StageCosts struct {
	Name      string         // Unstaged for what belongs to none
	Stage     *journal.Stage // nil for Unstaged
	Spent     decimal.Decimal
	Credits   decimal.Decimal
	Net       decimal.Decimal
	Minutes   measure.Minutes
	Remaining Three           // what it still needs
	Overrun   decimal.Decimal // spent above the worst budget
	// HoursLeft is what the newest `remaining` line says in hours, less the person time
	// noted since; nil where it says none.
	HoursLeft *[3]measure.Minutes
	// Categories are the stage's costs by category, in the order of note.Categories.
	Categories []NamedSum
}

// Budget is the stage's budget, or nil.
func (s StageCosts) Budget() *Three {
	if s.Stage == nil {
		return nil
	}
	return s.Stage.Budget
}

// OffBudget is what the stage cost net beyond its likely budget, below zero where it
// cost less; nil where it has no budget. Once the stage is done it tells how good the
// first budget was.
func (s StageCosts) OffBudget() *decimal.Decimal {
	b := s.Budget()
	if b == nil {
		return nil
	}
	return new(s.Net.Sub(b[1]))
}

// Category is what the stage has cost in a category, before credits.
func (s StageCosts) Category(name string) decimal.Decimal {
	for _, c := range s.Categories {
		if c.Name == name {
			return c.Sum
		}
	}
	return decimal.Zero
}

// A NamedSum is a sum under a name.
type NamedSum struct {
	Name string
	Sum  decimal.Decimal
}

// Result is what the sale has brought.
type Result struct {
	Price  decimal.Decimal
	Date   measure.Date
	Profit decimal.Decimal
	// PerHour is the profit by person-hour, in minor units; nil where no time is noted.
	PerHour *decimal.Decimal
	// Return is the profit by what was spent net, as a fraction, unrounded; nil where nothing was.
	Return *decimal.Decimal
}

// Costs adds everything up.
func (st *State) Costs() *Costs {
	c := &Costs{State: st, SurchargeDue: st.SurchargeDue}
	stages := map[string]*StageCosts{}
	for _, s := range st.Build.Stages {
		stages[s.Name] = &StageCosts{Name: s.Name, Stage: s}
	}
	unstaged := &StageCosts{Name: journal.Unstaged}
	of := func(name string) *StageCosts {
		if s := stages[name]; s != nil {
			return s
		}
		return unstaged
	}
	categories, suppliers := map[string]decimal.Decimal{}, map[string]decimal.Decimal{}
	byStage := map[*StageCosts]map[string]decimal.Decimal{}
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
	lines := st.byStage()
	for i := range c.Stages {
		s := &c.Stages[i]
		s.Net = s.Spent.Sub(s.Credits)
		s.Categories = inOrder(byStage[of(s.Name)])
		st.forecastStage(s, lines)
	}
	c.Categories = inOrder(categories)
	for name, sum := range suppliers {
		if !sum.IsZero() {
			c.Suppliers = append(c.Suppliers, NamedSum{name, sum})
		}
	}
	slices.SortFunc(c.Suppliers, func(a, b NamedSum) int { return cmp.Compare(a.Name, b.Name) })
	if st.Sale != nil {
		c.Sold = c.result()
	} else {
		c.Forecast = c.forecast()
	}
	return c
}

// inOrder lists the sums that are not zero in the order of the categories.
func inOrder(sums map[string]decimal.Decimal) []NamedSum {
	var list []NamedSum
	for _, name := range note.Categories {
		if sum := sums[name]; !sum.IsZero() {
			list = append(list, NamedSum{name, sum})
		}
	}
	return list
}

func (c *Costs) result() *Result {
	r := &Result{Price: c.State.Sale.Price, Date: c.State.Sale.Date, Profit: c.State.Sale.Price.Sub(c.Net)}
	r.PerHour = perHour(r.Profit, c.Minutes, c.State.Build.Card.Currency.Digits)
	if c.Net.IsPositive() {
		ratio := r.Profit.DivRound(c.Net, 8)
		r.Return = &ratio
	}
	return r
}
