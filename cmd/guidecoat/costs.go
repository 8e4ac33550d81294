package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"

	"guidecoat/journal/export"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/pick"
	"guidecoat/journal/state"
	"guidecoat/journal/view"

	"github.com/shopspring/decimal"
	"github.com/spf13/cobra"
)

func newCosts(w *world) *cobra.Command {
	var day measure.Date
	var asJSON, asCSV, stages bool
	cmd := &cobra.Command{
		Use:   "costs [DIR]",
		Short: "Tells what it has cost and will cost.",
		Long: "Tells what the build has cost and will cost: by stage, category and supplier, with what is still to come and " +
			"the chance of the profit asked for, or what the sale has brought and how good the budgets were.\n\nA line with a mistake in it is left out, and the " +
			"answer says how many are.",
		Example: "guidecoat costs halden\nguidecoat costs halden --as-of 2026-06-01 --csv",
		PreRunE: func(cmd *cobra.Command, args []string) error {
			if stages && !asCSV {
				return wrongUsage("Write --csv --stages.", "--stages says what --csv is to print, and --csv is missing")
			}
			return alone("json csv")(cmd, args)
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the figures as JSON")
	cmd.Flags().BoolVar(&asCSV, "csv", false, "print every cost and credit line as CSV")
	cmd.Flags().BoolVar(&stages, "stages", false, "with --csv: print the totals of the stages instead of the lines")
	return w.answering(cmd, &day, func(p *place) error {
		switch {
		case asJSON:
			return export.Write(w.stdout, costsJSON(p, day, w.today()))
		case stages:
			return export.WriteStagesCSV(w.stdout, pick.Gather(p.views(), func(v *view.View) []export.Object { return export.StageTotalsOf(p.name(v), v) }))
		case asCSV:
			return export.WriteCSV(w.stdout, p.views()...)
		}
		return w.showCosts(p, day)
	})
}

func costsJSON(p *place, day, today measure.Date) any {
	if p.garage != nil {
		return export.GarageOf(state.GarageAt(p.garage, day, today))
	}
	return export.CostsOf(p.views()[0])
}

func (w *world) showCosts(p *place, day measure.Date) error {
	s := newScreen(w.stdout, w.getenv)
	if p.garage != nil {
		showGarage(s, state.GarageAt(p.garage, day, w.today()))
	} else {
		v := p.views()[0]
		showBuildCosts(s, p.name(v), v)
	}
	s.incomplete(p)
	return s.flush()
}

func (s costsScreen) headline(name string) string {
	show := s.show
	if r := s.c.Sold; r != nil {
		return fmt.Sprintf("%s cost %s and was sold on %s for %s: %s.", name, show(s.c.Net), r.Date, show(r.Price), s.gain(r.Profit))
	}
	if day := s.v.AsOf; day != 0 {
		name += " on " + day.String()
	}
	f := s.c.Forecast
	text := fmt.Sprintf("%s: %s net; ", name, show(s.c.Net))
	if f.Cost[0].Equal(f.Cost[2]) {
		text += show(f.Cost[1]) + " in the end"
	} else {
		text += fmt.Sprintf("likely %s in the end, between %s and %s", show(f.Cost[1]), show(f.Cost[0]), show(f.Cost[2]))
	}
	if f.Resale == nil {
		return text + "."
	}
	goal := "to clear " + show(f.Goal)
	if f.Goal.IsZero() {
		goal = "to lose nothing"
	}
	text += "; " + chances(f) + " " + goal
	if s.c.LacksVehicle() {
		text += ", before the price of the vehicle, which no note tells"
	}
	return text + "."
}

// ahead says when it is ready and what an hour earns, "" where neither is known.
func (s costsScreen) ahead() string {
	f, r := s.c.Forecast, s.c.Ready
	if f == nil {
		return ""
	}
	hours := f.HoursLeft[1].String() + " of work from now"
	ready, earns := "", ""
	switch {
	case r == nil && s.hoursKnown():
		ready = f.HoursLeft[1].String() + " of work to come; the card names no \"pace\", so nobody can say when it is ready"
	case r == nil:
	case r.Likely == 0:
		ready = "not ready before the year 2200 at this pace, " + hours
	case r.Early == r.Late:
		ready = "ready on " + r.Likely.String() + ", " + hours
	default:
		ready = fmt.Sprintf("ready about %s, between %s and %s, %s", r.Likely, r.Early, cmp.Or(r.Late.String(), "after 2199"), hours)
	}
	if f.PerHour != nil {
		earns = fmt.Sprintf("an hour earns %s in the end, the mean profit by all hours, worked and to come", s.show(*f.PerHour))
	}
	if ready+earns == "" {
		return ""
	}
	return upper(together("; ", ready, earns)) + "."
}

func (s costsScreen) hoursKnown() bool {
	return slices.ContainsFunc(s.c.Stages, func(st fact.Stage) bool { return st.HoursKnown && st.HoursLeft[2] > 0 })
}

// chances puts both chances of a forecast in words that claim no more than they hold.
func chances(f *fact.Forecast) string {
	if f.Certain() {
		return pick.Either(f.Chance == 1, "sure", "no chance")
	}
	tenths := func(p float64) int { return int(math.Round(10 * p)) }
	low, high := tenths(min(f.Chance, f.ChanceShared)), tenths(max(f.Chance, f.ChanceShared))
	in10 := func(n int) string { return count(n, "chance") + " in 10" }
	switch {
	case high == 0:
		return "next to no chance"
	case low == 10:
		return "all but sure"
	case low == high:
		return "about " + in10(low)
	case low == 0:
		return "at most " + in10(high)
	case high == 10:
		return "at least " + in10(low)
	default:
		return fmt.Sprintf("%d to %s", low, in10(high))
	}
}

// percent never says 0 or 100 where that is not certain.
func percent(chance float64) string {
	switch p := chance * 100; {
	case p > 0 && p < 1:
		return "under 1%"
	case p > 99 && p < 100:
		return "over 99%"
	default:
		return strconv.FormatFloat(p, 'f', 0, 64) + "%"
	}
}

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
