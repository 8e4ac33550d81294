package main

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/check"
	"guidecoat/journal/export"
	"guidecoat/journal/fact"
	"guidecoat/journal/money"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/state"

	"github.com/shopspring/decimal"
	"github.com/spf13/cobra"
)

func newBid(w *world) *cobra.Command {
	var asJSON bool
	var instead []string
	cmd := &cobra.Command{
		Use:   "bid [DIR]",
		Short: "Tells the most to pay at the auction.",
		Long: "Works out from the job card alone the highest bid that still leaves the profit asked for with the confidence asked for, " +
			"the one that pays your hours, and the one that loses nothing; what matters most; and what the bids around the first would earn.\n\n" +
			"It reckons with a normal distribution, and that one hidden fault may spoil every stage at once.",
		Example: "guidecoat bid halden\nguidecoat bid halden --if \"stages: paint: budget 100\"",
	}
	cmd.Flags().StringArrayVar(&instead, "if", nil, "give the answer for a card with this `LINE` beside it, such as \"resale: 4000 4600 5000\"; several are one alternative")
	completeNothing(cmd, "if")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the answer as JSON")
	return onFolder(cmd, func(_ *cobra.Command, dir string) error {
		p, err := w.loadCard(dir)
		if err != nil {
			return err
		}
		bids := []bidAnswer{answerBid(p)}
		if len(instead) > 0 {
			other, err := w.cardWith(p, instead)
			if err != nil {
				return err
			}
			bids = append(bids, answerBid(other))
		}
		answers := pick.Map(bids, func(b bidAnswer) fact.BidAnswer { return b.BidAnswer })
		if err := w.print(asJSON, export.BidsOf(answers[0], answers[1:]...), func(s *screen) { showBids(s, p, bids) }); err != nil {
			return err
		}
		if err := w.tell(p); err != nil || p.builds[0].Card.Resale != nil {
			return err
		}
		return noResale("there is nothing to bid against")
	})
}

func noResale(so string) error {
	return &exit{exitProblems, "no resale is known from the job card, so " + so, "Write for instance \"resale: 4600 5200 5600\" on it: low, likely, high."}
}

// A bidAnswer has no figures where a mistake on the card counts or it names no resale.
type bidAnswer struct {
	fact.BidAnswer
	known bool
	wrong []problem.Problem // the mistakes that count
}

func answerBid(p *place) bidAnswer {
	card := p.builds[0].Card
	if wrong := wrongForBid(p); len(wrong) > 0 {
		return bidAnswer{BidAnswer: fact.BidAnswer{Currency: card.Currency, Confidence: card.Confidence, Profit: card.Profit}, wrong: wrong}
	}
	answer, known := state.BestBid(card)
	return bidAnswer{answer, known, nil}
}

func wrongForBid(p *place) []problem.Problem {
	return pick.Where(p.problems(), func(pr problem.Problem) bool {
		return pr.Severity == problem.Error && pr.Check != string(journal.MissingName) && p.builds[0].Card.CountsForBid(pr.Span)
	})
}

// loadCard reads the job card in a folder and leaves the notes alone.
func (w *world) loadCard(dir string) (*place, error) {
	fsys, isBuild, err := openPlace(dir, nil)
	switch {
	case err != nil:
		return nil, err
	case isBuild:
		return w.cardPlace(dir, journal.ReadCard(fsys, ".")), nil
	case journal.IsGarage(fsys):
		return nil, noBuildAlone(dir, "a bid is worked out for one build")
	}
	return nil, noBuild(dir, "%s has no job card, build.md", dir)
}

func (w *world) cardPlace(dir string, b *journal.Build) *place {
	return &place{dir: dir, builds: []*journal.Build{b}, states: []*state.State{state.At(b, 0, w.today())}, least: problem.Warning}
}

// cardWith reads the card with other lines on it. A mistake that they bring is one of the command line.
func (w *world) cardWith(p *place, lines []string) (*place, error) {
	fsys, err := openFolder(p.dir)
	if err != nil {
		return nil, err
	}
	before := map[string]bool{}
	for _, pr := range p.problems() {
		before[pr.Message] = true
	}
	for _, line := range lines {
		card, added, bad := p.builds[0].CardWith(fsys, line)
		if bad != nil {
			return nil, wrongUsage(check.Nearest(bad.Word, bad.From, "Write what may stand on the card, such as \"resale: 4000 4600 5000\"."), "--if %q: %s", line, bad.Why)
		}
		if added {
			w.say("The card has no such line, so the alternative adds it: %s", line)
		}
		p = w.cardPlace(p.dir, card)
	}
	for _, pr := range wrongForBid(p) {
		if !before[pr.Message] {
			return nil, wrongUsage(pr.Help, "--if %s: %s", strings.Join(lines, "; "), pr.Message)
		}
	}
	return p, nil
}

func showBids(s *screen, p *place, bids []bidAnswer) {
	a := bids[0]
	if !a.known && len(a.wrong) == 0 && len(bids) == 1 { // a card without a resale is told of where the run ends
		return
	}
	s.say("", p.name(p.views()[0])+": "+a.advice())
	if a.known {
		s.say("", a.more())
	}
	if len(bids) > 1 {
		besides(s, a, bids[1])
	}
	if !a.known {
		return
	}
	matters(s, a.Currency.Digits, a.Matters)
	if len(a.Table) > 0 {
		s.gap()
		a.table().print(s)
	}
	s.below(a.footnote())
}

func (a bidAnswer) show(d decimal.Decimal) string { return money.Show(d, a.Currency) }

func (a bidAnswer) advice() string {
	switch {
	case len(a.wrong) > 0:
		return fmt.Sprintf("no bid, since the card holds %s that it depends on. Put the card right before you bid.", count(len(a.wrong), "mistake"))
	case !a.known:
		return "the card names no resale, so there is nothing to bid against."
	case a.Highest == nil:
		return fmt.Sprintf("no bid leaves a profit of %s with a confidence of %s%%.", a.show(a.Profit), a.Confidence)
	}
	with, leave := "", "lose nothing"
	if !a.Highest.Fees.IsZero() {
		with = fmt.Sprintf("With fees %s, and ", a.show(a.Highest.Total))
	}
	if !a.Profit.IsZero() {
		leave = "leave " + a.show(a.Profit)
	}
	return fmt.Sprintf("bid %s at most. %s%s%% sure to %s.", a.show(a.Highest.Price), with, a.Confidence, leave)
}

func (a bidAnswer) more() string {
	hours := a.Minutes()
	said := ""
	switch pay := a.Pay; {
	case pay != nil && a.Hours.IsZero():
		said = fmt.Sprintf("No stage says its hours, so no bid is known that pays %s an hour", a.show(*pay))
	case pay != nil && a.Hourly == nil:
		said = fmt.Sprintf("No bid pays %s an hour for the card's %s", a.show(*pay), hours)
	case pay != nil:
		said = fmt.Sprintf("To earn %s an hour on average, for the card's %s, bid %s", a.show(*pay), hours, a.show(a.Hourly.Price))
	case a.Hours.IsPositive() && a.Highest != nil:
		said = fmt.Sprintf("At that price an hour earns %s, the mean profit by the card's %s", a.show(a.Highest.ProfitMean.Div(a.Hours)), hours)
	}
	loses := "any bid loses money on average"
	if a.BreakEven != nil {
		loses = "to lose nothing on average" + pick.Either(said == "", " bid ", ", ") + a.show(a.BreakEven.Price)
	}
	return upper(together("; ", said, loses)) + "."
}

func (a bidAnswer) table() *table {
	t := &table{columns: []column{{head: "bid", right: true}, {head: "fees", right: true}, {head: "in all", right: true},
		{head: "mean profit", right: true}, {head: "chance", right: true}}}
	for _, bid := range a.Table {
		r := row{cells: []string{a.show(bid.Price), a.show(bid.Fees), a.show(bid.Total), a.show(bid.ProfitMean), tenths(bid.Chance)}}
		if bid.Price.Equal(a.Highest.Price) {
			r.style = bold
		}
		t.rows = append(t.rows, r)
	}
	return t
}

const onAverage = "On average means best, likely and worst weighed together, the likely most."

func (a bidAnswer) footnote() string {
	text := onAverage
	if len(a.Table) > 0 {
		text += " The chance is that of the profit asked for, or more. It counts resale and all stages but the purchase, by their three-point estimates on the card, and that one hidden fault spoils all stages at once."
	}
	if len(a.Table) > 0 && !slices.ContainsFunc(a.Table, func(b fact.Bid) bool { return !b.Fees.IsZero() }) {
		text += " The card lists no fees of the auction, so none are counted."
	}
	switch {
	case a.Holding != nil && a.Weeks.IsZero():
		text += " No stage says its hours and the card no weeks, so what it costs to keep counts for no time at all."
	case a.Holding != nil:
		text += fmt.Sprintf(" To keep it for %s weeks costs %s, which is counted.", a.Weeks.Round(1), a.show(*a.Holding))
	}
	return text
}

// besides puts what two cards answer side by side.
func besides(s *screen, card, other bidAnswer) {
	t := table{columns: []column{{head: ""}, {head: "the card", right: true}, {head: "with --if", right: true}}}
	shown := func(a bidAnswer, b *fact.Bid, of func(*fact.Bid) decimal.Decimal) string {
		if b == nil {
			return "none"
		}
		return a.show(of(b))
	}
	line := func(name string, one, two *fact.Bid, of func(*fact.Bid) decimal.Decimal) {
		if one != nil || two != nil {
			t.add(name, shown(card, one, of), shown(other, two, of))
		}
	}
	price := func(b *fact.Bid) decimal.Decimal { return b.Price }
	line("bid at most", card.Highest, other.Highest, price)
	line("to earn what an hour should", card.Hourly, other.Hourly, price)
	line("to lose nothing on average", card.BreakEven, other.BreakEven, price)
	line("mean profit at the first", card.Highest, other.Highest, func(b *fact.Bid) decimal.Decimal { return b.ProfitMean })
	if len(t.rows) > 0 {
		s.gap()
		t.print(s)
	}
	if !other.known {
		s.say("", "With --if: "+other.advice())
	}
}

// barWidth is how many columns the bars of what matters may take.
const barWidth = 36

// matters draws how far each thing moves the profit, on one scale.
func matters(s *screen, digits int32, list []fact.Matter) {
	if len(list) == 0 || list[0].Swing().IsZero() {
		return
	}
	low, high := list[0].AtWorst, list[0].AtBest
	for _, m := range list {
		low, high = decimal.Min(low, m.AtWorst), decimal.Max(high, m.AtBest)
	}
	at := func(d decimal.Decimal) int {
		return int(d.Sub(low).Div(high.Sub(low)).Mul(decimal.NewFromInt(barWidth - 1)).Round(0).IntPart())
	}
	figure := func(d decimal.Decimal) string { return money.Show(d, money.Currency{Digits: digits}) }
	t := table{columns: []column{{head: "what matters most", least: 10}, {head: "at worst", right: true}, {head: ""}, {head: "at best", right: true}}}
	for _, m := range list {
		if m.Swing().IsZero() {
			continue
		}
		from, to := at(m.AtWorst), at(m.AtBest)
		t.add(m.Name, figure(m.AtWorst), strings.Repeat(" ", from)+strings.Repeat("█", to-from+1)+strings.Repeat(" ", barWidth-1-to), figure(m.AtBest))
	}
	s.gap()
	t.print(s)
	s.say("", "The mean profit at the card's bid where one thing comes out worst or best and all others as expected.")
}

// tenths cuts off rather than rounds: a bid must never look surer than it is.
func tenths(chance float64) string {
	if chance > 0 && chance < 0.001 {
		return "under 0.1%"
	}
	return strconv.FormatFloat(math.Floor(chance*1000)/10, 'f', 1, 64) + "%"
}
