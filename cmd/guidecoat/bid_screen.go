package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"guidecoat/journal/fact"
	"guidecoat/journal/money"
)

func (w *world) showBids(p *place, bids []bidAnswer) error {
	s, a := newScreen(w.stdout, w.getenv), bids[0]
	s.say("", strings.TrimSpace(p.name(p.views()[0])+": "+a.advice()))
	if !a.known && len(a.wrong) == 0 && len(bids) == 1 { // a card without a resale is told of where the run ends
		return nil
	}
	if a.known {
		s.say("", a.more())
	}
	if len(bids) > 1 {
		besides(s, a, bids[1])
	}
	if !a.known {
		return s.flush()
	}
	matters(s, a.Currency.Digits, a.Matters)
	if len(a.Table) > 0 {
		s.gap()
		a.table().print(s)
	}
	s.below(a.footnote())
	return s.flush()
}

func (a bidAnswer) show(d decimal.Decimal) string { return money.Show(d, a.Currency) }

// advice is the answer.
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

// more says what the hours earn and where the money ends.
func (a bidAnswer) more() string {
	hours := a.Minutes()
	var said []string
	switch pay := a.Pay; {
	case pay != nil && a.Hours.IsZero():
		said = append(said, fmt.Sprintf("No stage says its hours, so no bid is known that pays %s an hour", a.show(*pay)))
	case pay != nil && a.Hourly == nil:
		said = append(said, fmt.Sprintf("No bid pays %s an hour for the card's %s", a.show(*pay), hours))
	case pay != nil:
		said = append(said, fmt.Sprintf("To earn %s an hour on average, for the card's %s, bid %s", a.show(*pay), hours, a.show(a.Hourly.Price)))
	case a.Hours.IsPositive() && a.Highest != nil:
		said = append(said, fmt.Sprintf("At that price an hour earns %s, the mean profit by the card's %s", a.show(a.Highest.ProfitMean.Div(a.Hours)), hours))
	}
	switch {
	case a.BreakEven == nil:
		said = append(said, "any bid loses money on average")
	case said == nil:
		said = append(said, fmt.Sprintf("To lose nothing on average bid %s", a.show(a.BreakEven.Price)))
	default:
		said = append(said, fmt.Sprintf("to lose nothing on average, %s", a.show(a.BreakEven.Price)))
	}
	return upper(strings.Join(said, "; ")) + "."
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

// onAverage explains the mean of three numbers.
const onAverage = "On average means best, likely and worst weighed together, the likely most."

func (a bidAnswer) footnote() string {
	text := onAverage
	if len(a.Table) > 0 {
		text += " The chance is that of the profit asked for, or more. It counts resale and all stages but the purchase, by their three-point estimates on the card, and that one hidden fault spoils all stages at once."
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
	line := func(name string, of func(a bidAnswer) *decimal.Decimal) {
		if of(card) != nil || of(other) != nil {
			t.add(name, priceOr(card, of), priceOr(other, of))
		}
	}
	price := func(b *fact.Bid) *decimal.Decimal {
		if b == nil {
			return nil
		}
		return &b.Price
	}
	line("bid at most", func(a bidAnswer) *decimal.Decimal { return price(a.Highest) })
	line("to earn what an hour should", func(a bidAnswer) *decimal.Decimal { return price(a.Hourly) })
	line("to lose nothing on average", func(a bidAnswer) *decimal.Decimal { return price(a.BreakEven) })
	line("mean profit at the first", func(a bidAnswer) *decimal.Decimal {
		if a.Highest == nil {
			return nil
		}
		return &a.Highest.ProfitMean
	})
	if len(t.rows) > 0 {
		s.gap()
		t.print(s)
	}
	if !other.known {
		s.say("", "With --if: "+other.advice())
	}
}

func priceOr(a bidAnswer, of func(a bidAnswer) *decimal.Decimal) string {
	if d := of(a); d != nil {
		return a.show(*d)
	}
	return "none"
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

// tenths writes a chance with one decimal, cut off rather than rounded: a bid must
// never look as sure as what was asked for when it is not.
func tenths(chance float64) string {
	if chance > 0 && chance < 0.001 {
		return "under 0.1%"
	}
	return strconv.FormatFloat(math.Floor(chance*1000)/10, 'f', 1, 64) + "%"
}
