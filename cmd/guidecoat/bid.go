package main

import (
	"fmt"
	"math"
	"strconv"

	"guidecoat/journal"
	"guidecoat/journal/export"
	"guidecoat/journal/fact"
	"guidecoat/journal/money"
	"guidecoat/journal/problem"
	"guidecoat/journal/state"

	"github.com/shopspring/decimal"
	"github.com/spf13/cobra"
)

func newBid(w *world) *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "bid [DIR]",
		Short: "Tells the most to pay at the auction.",
		Long: "Works out from the job card alone the highest bid that still leaves the profit asked for with the confidence asked for, " +
			"after the auction's fees and the budgets of the stages; and what the bids around it would earn.\n\n" +
			"It reckons with a normal distribution, and that one hidden fault may spoil every stage at once.",
		Example:           "guidecoat bid halden",
		Args:              oneFolder,
		ValidArgsFunction: completeFolders,
		RunE: func(_ *cobra.Command, args []string) error {
			p, err := w.loadCard(folder(args))
			if err != nil {
				return err
			}
			answer, ok := state.BestBid(p.builds[0].Card)
			switch {
			case asJSON:
				err = export.Write(w.stdout, export.BidOf(answer))
			case ok:
				err = w.showBid(p, answer)
			}
			if err != nil {
				return cannotPrint(err)
			}
			told := w.tell(p)
			if ok || told != nil { // a resale that cannot be read was told of
				return told
			}
			return &exit{exitProblems, "no resale is known from the job card, so there is nothing to bid against",
				"Write for instance \"resale: 4600 5200 5600\" on it: low, likely, high."}
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the answer as JSON")
	return cmd
}

// loadCard reads the job card in a folder and leaves the notes alone.
func (w *world) loadCard(dir string) (*place, error) {
	fsys, err := openFolder(dir)
	if err != nil {
		return nil, err
	}
	if isBuild, err := has(fsys, journal.CardName); err != nil || !isBuild {
		if err != nil {
			return nil, cannotRead(dir, err)
		}
		if journal.IsGarage(fsys) {
			return nil, wrongUsage("Name the folder of one of its builds.", "%s is a garage, and a bid is worked out for one build", dir)
		}
		return nil, fileTrouble("Name the folder of one build, or start one with: guidecoat note --build NAME "+dir, "%s has no job card, build.md", dir)
	}
	b := journal.ReadCard(fsys, ".")
	return &place{dir: dir, builds: []*journal.Build{b}, states: []*state.State{state.At(b, 0, w.today())}, least: problem.Warning}, nil
}

func (w *world) showBid(p *place, a fact.BidAnswer) error {
	s, name := newScreen(w.stdout, w.getenv), p.name(p.views()[0])
	show := func(d decimal.Decimal) string { return money.Show(d, a.Currency) }
	if left := p.leftOut(); left != "" {
		s.say("", left+" Put the card right before you bid.")
		s.gap()
	}
	goal := fmt.Sprintf("%s with a confidence of %s%%", show(a.Profit), a.Confidence)
	if a.Highest == nil {
		s.say("", fmt.Sprintf("%s: no bid leaves a profit of %s.", name, goal))
		return s.flush()
	}
	s.say("", fmt.Sprintf("%s: bid %s at most. With fees of %s that is %s, and leaves a profit of %s.", name,
		show(a.Highest.Price), show(a.Highest.Fees), show(a.Highest.Total), goal))
	s.gap()
	t := table{columns: []column{{head: "bid", right: true}, {head: "fees", right: true}, {head: "in all", right: true},
		{head: "mean profit", right: true}, {head: "chance", right: true}}}
	for _, bid := range a.Table {
		r := row{cells: []string{show(bid.Price), show(bid.Fees), show(bid.Total), show(bid.ProfitMean), tenths(bid.Chance)}}
		if bid.Price.Equal(a.Highest.Price) {
			r.style = bold
		}
		t.rows = append(t.rows, r)
	}
	t.print(s)
	s.gap()
	s.say("", "The chance is that of the profit asked for, or more. It counts resale and all stages but the purchase, by their three-point estimates on the card, and that one hidden fault spoils all stages at once.")
	return s.flush()
}

// tenths writes a chance with one decimal, cut off rather than rounded: a bid must
// never look as sure as what was asked for when it is not.
func tenths(chance float64) string {
	if chance > 0 && chance < 0.001 {
		return "under 0.1%"
	}
	return strconv.FormatFloat(math.Floor(chance*1000)/10, 'f', 1, 64) + "%"
}
