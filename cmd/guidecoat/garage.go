package main

import (
	"cmp"
	"fmt"

	"guidecoat/journal/fact"
	"guidecoat/journal/money"

	"github.com/shopspring/decimal"
)

type garageScreen struct {
	*screen
	c *fact.Garage
}

func showGarage(s *screen, c *fact.Garage) {
	g, others := garageScreen{s, c}, c.Others()
	s.say("", fmt.Sprintf("%s: %s, %s net in %s of person time.", cmp.Or(c.Name, "This garage"), count(len(c.Builds)-len(others), "build"), g.sum(c.Totals.Net), c.Totals.Minutes))
	s.gap()
	g.builds()
	for _, b := range others {
		s.below(b.Title + " is in another currency (" + b.Currency.Code + ") and therefore left out of the sums.")
	}
	g.tools()
	g.earnings()
	g.record()
}

func (g garageScreen) builds() {
	t := table{columns: []column{
		{head: "build", least: 12}, {head: "net", right: true}, {head: "tools", right: true}, {head: "time", right: true},
		{head: "to come", right: true}, {head: "sold for", right: true}, {head: "profit", right: true},
	}}
	for _, b := range g.c.Builds {
		show := func(d decimal.Decimal) string { return money.Show(d, b.Currency) }
		toCome, price, profit := "", "", ""
		if b.Forecast != nil {
			toCome = show(b.Forecast.Cost[1].Sub(b.Net))
		}
		if b.Sold != nil {
			price, profit = show(b.Sold.Price), show(b.Sold.Profit)
		}
		t.add(b.Title, show(b.Net), unlessZero(b.Carried, g.sum), b.Minutes.String(), toCome, price, profit)
	}
	t.print(g.screen)
}

// earnings are what the sold builds have earned after their shares of the tools.
func (g garageScreen) earnings() {
	if g.c.Totals.Sold == 0 {
		return
	}
	t := table{columns: []column{{head: "sold", least: 12}, {head: "profit", right: true}, {head: "tools", right: true},
		{head: "earned", right: true}, {head: "an hour", right: true}}}
	var profit, tools decimal.Decimal
	for _, b := range g.c.Builds {
		if b.Earned != nil {
			profit, tools = profit.Add(b.Sold.Profit), tools.Add(b.Carried)
			t.add(b.Title, g.sum(b.Sold.Profit), unlessZero(b.Carried, g.sum), g.sum(b.Earned.Sum), ifKnown(b.Earned.PerHour, g.sum))
		}
	}
	t.add("all", g.sum(profit), unlessZero(tools, g.sum), g.sum(g.c.Totals.Earned), ifKnown(g.c.Totals.PerHour, g.sum))
	t.rows[len(t.rows)-1].style = bold
	g.gap()
	t.print(g.screen)
}

func (g garageScreen) record() {
	records := g.c.TrackRecord()
	if len(records) == 0 {
		return
	}
	t := table{columns: []column{{head: "first budgets", least: 16}, {head: "sold builds", right: true}, {head: "cost", right: true}}}
	for _, r := range records {
		t.add(r.Stage, fmt.Sprint(r.Builds), times(r))
	}
	g.gap()
	t.print(g.screen)
	g.say("", "What a stage cost by its likely budget, on average over the builds that are sold.")
}

// times is a factor of the likely budget, unless a stage has brought in more than it cost.
func times(r fact.Record) string {
	if r.Ratio.IsNegative() {
		return "more back than spent"
	}
	return "× " + r.Ratio.StringFixed(2)
}

func (g garageScreen) sum(d decimal.Decimal) string { return money.Show(d, g.c.Currency) }

func (g garageScreen) tools() {
	if len(g.c.Tools) == 0 {
		return
	}
	t := table{columns: []column{{head: "tool", least: 20}, {head: "price", right: true}, {head: "builds so far", right: true}, {head: "not yet shared", right: true}}}
	for _, tool := range g.c.Tools {
		t.add(tool.Name, g.sum(tool.Price), fmt.Sprintf("%d of %d", len(tool.Shares), tool.Over), g.sum(tool.Unassigned))
	}
	g.gap()
	t.print(g.screen)
}
