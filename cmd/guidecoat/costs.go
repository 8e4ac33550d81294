package main

import (
	"fmt"
	"strconv"

	"guidecoat/journal"
	"guidecoat/journal/export"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"

	"github.com/shopspring/decimal"
	"github.com/spf13/cobra"
)

func newCosts(w *world) *cobra.Command {
	var day measure.Date
	var asJSON, asCSV bool
	cmd := &cobra.Command{
		Use:   "costs [DIR]",
		Short: "Tells what it has cost and will cost.",
		Long: "Tells what the build has cost and will cost: by stage, category and supplier, with what is still to come and " +
			"the chance of the profit asked for, or what the sale has brought.\n\nLines with a mistake in them are left out; how " +
			"many is said.",
		Example:           "guidecoat costs halden\nguidecoat costs halden --as-of 2026-06-01 --csv",
		Args:              oneFolder,
		ValidArgsFunction: completeFolders,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := alone(cmd, "json", "csv"); err != nil {
				return err
			}
			p, err := w.load(folder(args), day)
			if err != nil {
				return err
			}
			switch {
			case asJSON:
				err = export.Write(w.stdout, costsJSON(p, day, w.today()))
			case asCSV:
				err = export.WriteCSV(w.stdout, costLines(p))
			default:
				err = w.showCosts(p, day)
			}
			if err != nil {
				return cannotPrint(err)
			}
			return w.tell(p)
		},
	}
	asOf(cmd, &day, "count only what is dated on or before `DATE`")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the figures as JSON")
	cmd.Flags().BoolVar(&asCSV, "csv", false, "print every cost and credit line as CSV")
	return cmd
}

func costsJSON(p *place, day, today measure.Date) any {
	if p.garage != nil {
		return export.GarageOf(p.garage.Costs(day, today), day)
	}
	return export.CostsOf(export.HeadOf(p.states[0]), p.states[0].Costs())
}

func costLines(p *place) []export.Line {
	var lines []export.Line
	for _, st := range p.states {
		lines = append(lines, export.LinesOf(st)...)
	}
	return lines
}

func (w *world) showCosts(p *place, day measure.Date) error {
	s := newScreen(w.stdout, w.getenv)
	if p.garage != nil {
		showGarage(s, p, p.garage.Costs(day, w.today()))
	} else {
		showBuildCosts(s, p.name(p.builds[0]), p.states[0].Costs())
	}
	if left := p.leftOut(); left != "" {
		s.gap()
		s.say("", left+" The figures are short of them.")
	}
	return s.flush()
}

// costsScreen writes the figures of one build.
type costsScreen struct {
	*screen
	c     *journal.Costs
	build *journal.Build
}

func showBuildCosts(s *screen, name string, c *journal.Costs) {
	cs := costsScreen{s, c, c.State.Build}
	s.say("", cs.headline(name))
	s.gap()
	cs.stages()
	cs.sums("category", c.Categories)
	cs.sums("supplier", c.Suppliers)
	s.gap()
	s.list(cs.facts())
}

// headline is the answer in a sentence.
func (s costsScreen) headline(name string) string {
	show := s.build.ShowMoney
	if r := s.c.Sold; r != nil {
		return fmt.Sprintf("%s cost %s and was sold on %s for %s: %s.", name, show(s.c.Net), r.Date, show(r.Price), s.gain(r.Profit))
	}
	spent, next := " has cost "+show(s.c.Net)+" so far", " and likely needs "
	if day := s.c.State.AsOf; day != 0 {
		spent, next = " had cost "+show(s.c.Net)+" by "+day.String(), " and likely needed "
	}
	return name + spent + next + show(s.c.Forecast.Cost[1].Sub(s.c.Net)) + " more."
}

func (s costsScreen) gain(d decimal.Decimal) string {
	if d.IsNegative() {
		return "a loss of " + s.build.ShowMoney(d.Neg())
	}
	return "a profit of " + s.build.ShowMoney(d)
}

// figure shows a sum without its currency, for columns of them.
func (s costsScreen) figure(d decimal.Decimal) string {
	return money.Show(d, money.Currency{Digits: s.build.Card.Currency.Digits})
}

// unlessZero is a figure where there is one to show.
func (s costsScreen) unlessZero(d decimal.Decimal) string {
	if d.IsZero() {
		return ""
	}
	return s.figure(d)
}

func (s costsScreen) stages() {
	t := table{columns: []column{
		{head: "stage", least: 10}, {head: "spent", right: true}, {head: "credits", right: true}, {head: "net", right: true},
		{head: "budget", right: true}, {head: "to come", right: true}, {head: "over", right: true},
	}}
	toCome := func(d decimal.Decimal) string {
		if s.c.Sold != nil {
			return ""
		}
		return s.figure(d)
	}
	for _, st := range s.c.Stages {
		budget := ""
		if b := st.Budget(); b != nil {
			budget = s.figure(b[1])
		}
		t.add(st.Name, s.figure(st.Spent), s.unlessZero(st.Credits), s.figure(st.Net), budget, toCome(st.Remaining[1]), s.unlessZero(st.Overrun))
	}
	last := decimal.Zero
	if s.c.Forecast != nil {
		last = s.c.Forecast.Cost[1].Sub(s.c.Net)
	}
	t.add("all", s.figure(s.c.Spent), s.unlessZero(s.c.Credits), s.figure(s.c.Net), "", toCome(last), "")
	t.rows[len(t.rows)-1].style = bold
	t.print(s.screen)
}

func (s costsScreen) sums(head string, sums []journal.NamedSum) {
	if len(sums) == 0 {
		return
	}
	t := table{columns: []column{{head: head, least: 20}, {head: "spent", right: true}}}
	for _, sum := range sums {
		t.add(sum.Name, s.figure(sum.Sum))
	}
	s.gap()
	t.print(s.screen)
}

// facts are the figures that stand alone.
func (s costsScreen) facts() [][2]string {
	show, c := s.build.ShowMoney, s.c
	rows := [][2]string{{"time", c.Minutes.String() + " of person time"}}
	add := func(name, text string) { rows = append(rows, [2]string{name, text}) }
	if !c.ToGarage.IsZero() {
		add("to the garage", show(c.ToGarage))
	}
	if !c.SurchargeDue.IsZero() {
		add("surcharge to come", show(c.SurchargeDue))
	}
	if f := c.Forecast; f != nil {
		add("in the end", fmt.Sprintf("likely %s, best %s, worst %s", show(f.Cost[1]), show(f.Cost[0]), show(f.Cost[2])))
		if f.Resale != nil {
			add("resale", fmt.Sprintf("likely %s, low %s, high %s", show(f.Resale[1]), show(f.Resale[0]), show(f.Resale[2])))
			add("profit", s.gain(f.ProfitMean)+" on average")
			add("chance", fmt.Sprintf("%s of earning %s; %s if all stages go wrong together",
				percent(f.Chance), show(s.build.Card.Profit), percent(f.ChanceShared)))
		}
	}
	if r := c.Sold; r != nil && r.PerHour != nil {
		add("earned", show(*r.PerHour)+" an hour")
	}
	return rows
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
