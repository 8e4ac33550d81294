package main

import (
	"fmt"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
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
	if more := cs.ahead(); more != "" {
		s.say("", more)
	}
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

func (s costsScreen) unlessZero(d decimal.Decimal) string {
	if d.IsZero() {
		return ""
	}
	return s.figure(d)
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
	show := func(d decimal.Decimal) string {
		if whole {
			return money.Show(d, money.Currency{})
		}
		return s.figure(d)
	}
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
		t.add(st.Name, s.figure(st.Spent), s.unlessZero(st.Credits), net, toCome, end, budget, off, s.unlessZero(st.Overrun))
	}
	if f := s.c.Forecast; f != nil && f.Holding != nil {
		rest = rest.Add(*f.Holding)
		t.add("holding", "", "", "", s.figure(*f.Holding), s.figure(*f.Holding), "", "", "")
	}
	all := []string{"all", s.figure(s.c.Spent), s.unlessZero(s.c.Credits), "", "", "", "", "", ""}
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
	if hours, any := s.hoursToCome(); any {
		add("hours to come", fmt.Sprintf("likely %s, best %s, worst %s", hours[1], hours[0], hours[2]))
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
		add("in the end", fmt.Sprintf("likely %s, best %s, worst %s", show(f.Cost[1]), show(f.Cost[0]), show(f.Cost[2])))
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

func idList(ids []string) string {
	const few = 6
	text := strings.Join(ids[:min(len(ids), few)], ", ")
	if more := len(ids) - few; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return text
}

// hoursToCome are those of estimates and open snags; any is false where there are none.
func (s costsScreen) hoursToCome() (hours [3]measure.Minutes, any bool) {
	if s.c.Forecast == nil || s.c.Forecast.HoursLeft[2] == 0 {
		return hours, false
	}
	return s.c.Forecast.HoursLeft, true
}

// guessed says how many snags count for an hour, since they say no time.
func (s costsScreen) guessed() []string {
	n := 0
	for _, sn := range s.v.Snags {
		if time, said := sn.Time(); sn.Open && !said && time > 0 {
			n++
		}
	}
	switch n {
	case 0:
		return nil
	case 1:
		return []string{"1 snag says no time and counts for an hour."}
	}
	return []string{fmt.Sprintf("%d snags say no time and count for an hour each.", n)}
}

// footnote says what the table and the figures assume, or how good the first budgets were.
func (s costsScreen) footnote() string {
	said := s.overWords()
	f := s.c.Forecast
	if f == nil {
		return strings.Join(append(said, s.budgetWords()...), " ")
	}
	for _, st := range s.c.Stages {
		if st.Budget != nil {
			said = append([]string{"A budget is shown from best to worst."}, said...)
			break
		}
	}
	switch {
	case f.Resale == nil:
		said = append(said, "No resale is known from the job card, so no chance of a profit is claimed.")
	case f.Certain():
		said = append(said, "No estimate has any spread, so the chance is 0% or 100%.")
	default:
		said = append(said, "The chances assume a normal distribution about three-point estimates; the first that stages vary each on its own, the second that one hidden fault spoils all of them.")
		if f.ChanceShared > f.Chance {
			said = append(said, "The second is the better here, since on average less is earned than that: only luck helps, and it has more room for luck.")
		}
	}
	if s.c.Ready != nil || s.hoursKnown() {
		said = append(said, s.guessed()...)
	}
	return strings.Join(said, " ")
}

func (s costsScreen) overWords() []string {
	for _, st := range s.c.Stages {
		if !st.Overrun.IsZero() {
			return []string{`"over" is the net cost beyond the worst budget.`}
		}
	}
	return nil
}

func (s costsScreen) budgetWords() []string {
	budget, off, any := s.budgets()
	if !any {
		return nil
	}
	words := fmt.Sprintf("The stages with a budget were to cost %s and cost %s: ", s.show(budget), s.show(budget.Add(off)))
	switch {
	case off.IsZero():
		words += "just what their likely budgets said."
	case off.IsPositive():
		words += s.show(off) + " more than their likely budgets."
	default:
		words += s.show(off.Neg()) + " less than their likely budgets."
	}
	return []string{words}
}
