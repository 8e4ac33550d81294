package main

import (
	"fmt"

	"guidecoat/journal"
	"guidecoat/journal/money"

	"github.com/shopspring/decimal"
)

// showGarage writes the figures of several builds side by side.
func showGarage(s *screen, p *place, c *journal.GarageCosts) {
	g := c.Garage
	sum := c.Totals
	s.say("", fmt.Sprintf("%s: %s, %s spent net in %s of person time.", garageName(g), count(len(c.Builds), "build"), money.Show(sum.Net, g.Currency), sum.Minutes))
	s.gap()
	t := table{columns: []column{
		{head: "build", least: 12}, {head: "net", right: true}, {head: "tools", right: true}, {head: "time", right: true},
		{head: "to come", right: true}, {head: "sold for", right: true}, {head: "profit", right: true},
	}}
	for _, b := range c.Builds {
		show := b.State.Build.ShowMoney
		toCome, price, profit := "", "", ""
		if b.Forecast != nil {
			toCome = show(b.Forecast.Cost[1].Sub(b.Net))
		}
		if b.Sold != nil {
			price, profit = show(b.Sold.Price), show(b.Sold.Profit)
		}
		t.add(p.name(b.State.Build), show(b.Net), toolShares(c, b.State.Build), b.Minutes.String(), toCome, price, profit)
	}
	t.print(s)
	showTools(s, c)
	for _, b := range c.Others {
		s.gap()
		s.say("", p.name(b)+" is in another currency and therefore left out of the sums.")
	}
	if sum.Sold == 0 {
		return
	}
	earned := count(sum.Sold, "build") + " sold, and " + money.Show(sum.Earned, g.Currency) + " earned after shares of the tools"
	if sum.PerHour != nil {
		earned += ", " + money.Show(*sum.PerHour, g.Currency) + " an hour"
	}
	s.gap()
	s.say("", earned+".")
}

func garageName(g *journal.Garage) string {
	if g.Name != "" {
		return g.Name
	}
	return "This garage"
}

// toolShares is what a build carries of all tools, "" for nothing.
func toolShares(c *journal.GarageCosts, b *journal.Build) string {
	var sum decimal.Decimal
	for _, t := range c.Tools {
		for _, share := range t.Shares {
			if share.Build == b {
				sum = sum.Add(share.Amount)
			}
		}
	}
	if sum.IsZero() {
		return ""
	}
	return money.Show(sum, c.Garage.Currency)
}

func showTools(s *screen, c *journal.GarageCosts) {
	if len(c.Tools) == 0 {
		return
	}
	t := table{columns: []column{{head: "tool", least: 20}, {head: "price", right: true}, {head: "builds so far", right: true}, {head: "not yet shared", right: true}}}
	for _, tool := range c.Tools {
		t.add(tool.Tool.Name, money.Show(tool.Tool.Price, c.Garage.Currency),
			fmt.Sprintf("%d of %d", len(tool.Shares), tool.Tool.Over), money.Show(tool.Unassigned, c.Garage.Currency))
	}
	s.gap()
	t.print(s)
}
