package main

import (
	"fmt"
	"slices"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"

	"github.com/shopspring/decimal"
)

type costsScreen struct {
	*screen
	v *view.View
	c *fact.Costs
}

func showBuildCosts(s *screen, name string, v *view.View) {
	c := v.Money.Costs
	cs := costsScreen{s, v, c}
	s.say("", cs.headline(name))
	s.sayIf(cs.ahead())
	s.gap()
	cs.stages()
	cs.sums("category", c.Categories)
	cs.sums("supplier", c.Suppliers)
	s.gap()
	s.list(cs.facts())
	s.below(cs.footnote())
}

func (s costsScreen) show(d decimal.Decimal) string { return money.Show(d, s.v.Currency) }

func (s costsScreen) gain(d decimal.Decimal) string {
	if d.IsNegative() {
		return "a loss of " + s.show(d.Neg())
	}
	return "a profit of " + s.show(d)
}

// figure shows a sum without its currency, for columns of them.
func (s costsScreen) figure(d decimal.Decimal) string {
	return money.Show(d, money.Currency{Digits: s.v.Currency.Digits})
}

// unlessZero is a sum as it is shown, where there is one.
func unlessZero(d decimal.Decimal, show func(decimal.Decimal) string) string {
	return pick.Either(d.IsZero(), "", show(d))
}

// ifKnown is a sum as it is shown, where it is known.
func ifKnown(d *decimal.Decimal, show func(decimal.Decimal) string) string {
	if d == nil {
		return ""
	}
	return show(*d)
}

func (s costsScreen) signed(d decimal.Decimal) string {
	if d.IsPositive() {
		return "+" + s.figure(d)
	}
	return s.figure(d)
}

// ends are the best and the worst. Whole ones go without decimals, which leaves the table room.
func (s costsScreen) ends(t fact.Three) string {
	whole := t[0].IsInteger() && t[2].IsInteger()
	show := pick.Either(whole, func(d decimal.Decimal) string { return money.Show(d, money.Currency{}) }, s.figure)
	if t[0].Equal(t[2]) {
		return show(t[0])
	}
	return show(t[0]) + "–" + show(t[2])
}

// stages shows what is still to come, or once sold how good the first budget was.
func (s costsScreen) stages() {
	t := table{columns: []column{
		{head: "stage", least: 10}, {head: "paid", right: true}, {head: "money back", right: true}, {head: "net", right: true},
		{head: "to come", right: true}, {head: "in the end", right: true},
		{head: "budget", right: true}, {head: "off by", right: true}, {head: "over", right: true},
	}}
	sold := s.c.Sold != nil
	var rest decimal.Decimal
	for _, st := range s.c.Stages {
		net, toCome, end, budget, off := "", "", "", "", ""
		if sold {
			net = s.figure(st.Net)
		} else {
			rest = rest.Add(st.Remaining[1])
			toCome, end = s.figure(st.Remaining[1]), s.figure(st.Net.Add(st.Remaining[1]))
		}
		if b := st.Budget; b != nil && sold {
			budget, off = s.figure(b[1]), s.signed(*st.OffBudget())
		} else if b != nil {
			budget = s.ends(*b)
		}
		t.add(st.Name, s.figure(st.Spent), unlessZero(st.Credits, s.figure), net, toCome, end, budget, off, unlessZero(st.Overrun, s.figure))
	}
	if f := s.c.Forecast; f != nil && f.Holding != nil {
		rest = rest.Add(*f.Holding)
		t.add("holding", "", "", "", s.figure(*f.Holding), s.figure(*f.Holding), "", "", "")
	}
	all := []string{"all", s.figure(s.c.Spent), unlessZero(s.c.Credits, s.figure), "", "", "", "", "", ""}
	if sold {
		all[3] = s.figure(s.c.Net)
		if budget, off, any := s.budgets(); any {
			all[6], all[7] = s.figure(budget), s.signed(off)
		}
	} else {
		all[4], all[5] = s.figure(rest), s.figure(s.c.Forecast.Cost[1])
	}
	t.add(all...)
	t.rows[len(t.rows)-1].style = bold
	t.print(s.screen)
}

// budgets adds up the likely budgets and what the stages that have one cost beyond them.
func (s costsScreen) budgets() (budget, off decimal.Decimal, any bool) {
	for _, st := range s.c.Stages {
		if b := st.Budget; b != nil {
			budget, off, any = budget.Add(b[1]), off.Add(*st.OffBudget()), true
		}
	}
	return budget, off, any
}

func (s costsScreen) sums(head string, sums []fact.NamedSum) {
	if len(sums) == 0 {
		return
	}
	t := table{columns: []column{{head: head, least: 20}, {head: "paid", right: true}}}
	for _, sum := range sums {
		t.add(sum.Name, s.figure(sum.Sum))
	}
	s.gap()
	t.print(s.screen)
}

func (s costsScreen) facts() [][2]string {
	show, c := s.show, s.c
	rows := [][2]string{{"time", c.Minutes.String() + " of person time"}}
	add := func(name, text string) { rows = append(rows, [2]string{name, text}) }
	if f := c.Forecast; f != nil && f.HoursLeft[2] != 0 {
		add("hours to come", spread(f.HoursLeft, measure.Minutes.String))
	}
	if r := c.Ready; r != nil && len(r.Undated) > 0 {
		add("without a day", "nobody knows when they come: "+idList(r.Undated))
	}
	if !c.ToGarage.IsZero() {
		add("to the garage", show(c.ToGarage))
	}
	if !c.SurchargeDue.IsZero() {
		add("surcharge to come", show(c.SurchargeDue))
	}
	if f := c.Forecast; f != nil {
		add("in the end", spread(f.Cost, show))
		if f.SDTogether.IsPositive() {
			add("on average", fmt.Sprintf("%s (best, likely and worst weighed), give or take %s; %s if all stages go wrong together",
				show(f.Mean), show(f.SD), show(f.SDTogether)))
		}
		if f.Resale != nil {
			add("resale", fmt.Sprintf("likely %s, low %s, high %s", show(f.Resale[1]), show(f.Resale[0]), show(f.Resale[2])))
			add("profit", s.gain(f.ProfitMean)+" on average")
			add("chance", fmt.Sprintf("%s of earning %s; %s if all stages go wrong together",
				percent(f.Chance), show(f.Goal), percent(f.ChanceShared)))
		}
	}
	if c.Account != nil {
		for _, r := range c.Account.Rows() {
			add(r.Name, show(r.Sum))
		}
	}
	if r := c.Sold; r != nil {
		add("profit", s.gain(r.Profit))
		if r.Return != nil {
			add("return on cost", r.Return.Shift(2).StringFixed(1)+"%")
		}
		if r.PerHour != nil {
			add("earned", show(*r.PerHour)+" an hour")
		}
	}
	return rows
}

// spread says three estimates, and one where they are alike.
func spread[T any](of [3]T, show func(T) string) string {
	best, likely, worst := show(of[0]), show(of[1]), show(of[2])
	if best == worst {
		return likely
	}
	return fmt.Sprintf("likely %s, best %s, worst %s", likely, best, worst)
}

func idList(ids []string) string {
	const few = 6
	return strings.Join(ids[:min(len(ids), few)], ", ") + some(len(ids)-few, " and %d more")
}

// guessed says how many snags count for an hour, since they say no time.
func (s costsScreen) guessed() string {
	n := pick.Count(s.v.Snags, func(sn *view.SnagView) bool {
		time, said := sn.Time()
		return sn.Open && !said && time > 0
	})
	return sentence(n, "1 snag says no time and counts for an hour.", "%d snags say no time and count for an hour each.")
}

// footnote says what the table and the figures assume, or how good the first budgets were.
func (s costsScreen) footnote() string {
	over := s.where(func(st fact.Stage) bool { return !st.Overrun.IsZero() }, `"over" is the net cost beyond the worst budget.`)
	f := s.c.Forecast
	if f == nil {
		return together(" ", over, s.budgetWords())
	}
	chance, better := "", ""
	switch {
	case f.Resale == nil:
		chance = "No resale is known from the job card, so no chance of a profit is claimed."
	case f.Certain():
		chance = "No estimate has any spread, so the chance is 0% or 100%."
	default:
		chance = "The chances assume a normal distribution about three-point estimates; the first that stages vary each on its own, the second that one hidden fault spoils all of them."
		if f.ChanceShared > f.Chance {
			better = "The second is the better here, since on average less is earned than that: only luck helps, and it has more room for luck."
		}
	}
	ends := s.where(func(st fact.Stage) bool { return st.Budget != nil }, "A budget is shown from best to worst.")
	if ends == "" && f.Resale != nil {
		ends = "No stage has a budget, so only parts with an estimate count as still to come."
	}
	return together(" ", ends, over, chance, better, s.unpriced(), pick.Either(f.HoursLeft[2] > 0, s.guessed(), ""))
}

// unpriced says how many parts to come count nothing: they have no estimate, and their stage no budget.
func (s costsScreen) unpriced() string {
	budgeted := func(p *view.PartView) bool {
		return slices.ContainsFunc(s.c.Stages, func(st fact.Stage) bool { return st.Name == p.Stage && st.Budget != nil })
	}
	n := pick.Count(s.v.Parts, func(p *view.PartView) bool {
		return p.Waited() && !p.PaidInRound && !p.Free && p.Estimate == nil && !budgeted(p)
	})
	return sentence(n, "1 part to come has no estimate, and counts for nothing in the end.", "%d parts to come have no estimate, and count for nothing in the end.")
}

// where is what is said where a stage is such a one.
func (s costsScreen) where(such func(fact.Stage) bool, text string) string {
	return pick.Either(slices.ContainsFunc(s.c.Stages, such), text, "")
}

func (s costsScreen) budgetWords() string {
	budget, off, any := s.budgets()
	if !any {
		return ""
	}
	how := "just what their likely budgets said."
	switch {
	case off.IsPositive():
		how = s.show(off) + " more than their likely budgets."
	case off.IsNegative():
		how = s.show(off.Neg()) + " less than their likely budgets."
	}
	return fmt.Sprintf("The stages with a budget were to cost %s and cost %s: %s", s.show(budget), s.show(budget.Add(off)), how)
}
