package state

import (
	"cmp"
	"math/big"
	"slices"
	"sort"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/money"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"

	"github.com/shopspring/decimal"
)

// What to decide by: the most to bid, the cheapest quote, and whether to finish or to take an offer.

// tableSide is how many increments the table shows on each side of the highest bid.
const tableSide = 5

type bidder struct {
	card    *journal.Card
	left    *big.Rat // mean resale less what the work and holding cost on average
	sd      float64  // of resale and the rest, the rest together
	hours   *big.Rat
	weeks   *big.Rat
	matters []matter
}

// A matter has a spread: how much better than its mean it is at its best, and how much worse at its worst.
type matter struct {
	name                string
	better, worse, wide *big.Rat
}

// BestBid finds the largest bids that leave what is asked for. Ok is false where the card names no resale.
func BestBid(c *journal.Card) (answer fact.BidAnswer, ok bool) {
	answer = fact.BidAnswer{Currency: c.Currency, Confidence: c.Confidence, Profit: c.Profit, Pay: c.Hourly}
	if c.Resale == nil {
		return answer, false
	}
	b := newBidder(c)
	answer.Hours = rounded(b.hours)
	if b.weeks != nil {
		answer.Weeks = new(rounded(b.weeks))
	}
	if c.Holding != nil {
		answer.Holding = new(rounded(times(c.Holding, b.weeks)))
	}
	confidence := c.Confidence.InexactFloat64() / 100
	best := b.highest(func(profit *big.Rat) bool { return b.chance(profit) >= confidence })
	even := b.highest(func(profit *big.Rat) bool { return profit.Sign() >= 0 })
	answer.Highest, answer.BreakEven = b.bid(best), b.bid(even)
	if c.Hourly != nil && b.hours.Sign() > 0 {
		pay := times(c.Hourly.Rat(), b.hours)
		answer.Hourly = b.bid(b.highest(func(profit *big.Rat) bool { return profit.Cmp(pay) >= 0 }))
	}
	if best > 0 {
		for i := max(best-tableSide, 1); i <= best+tableSide; i++ {
			answer.Table = append(answer.Table, *b.bid(i))
		}
	}
	if at := cmp.Or(best, even); at > 0 {
		answer.Matters = b.swings(b.profit(at))
	}
	return answer, true
}

func newBidder(c *journal.Card) *bidder {
	b := &bidder{card: c, left: new(big.Rat), hours: new(big.Rat)}
	together := new(big.Rat)
	costs := func(name string, t fact.Three, by *big.Rat) {
		r := read(c, t)
		b.left, together = minus(b.left, times(r.mean, by)), plus(together, times(r.deviation(), by))
		b.matter(name, minus(r.mean, t[0].Rat()), minus(t[2].Rat(), r.mean), by)
	}
	for _, s := range c.Stages {
		if !s.Purchase && s.Budget != nil {
			costs(s.Name, *s.Budget, one)
		}
		if !s.Purchase && s.Hours != nil {
			b.hours = plus(b.hours, over(meanMinutes(c, *s.Hours), sixty))
		}
	}
	resale := read(c, *c.Resale)
	b.left = plus(b.left, resale.mean)
	b.matter("resale", minus(c.Resale[2].Rat(), resale.mean), minus(resale.mean, c.Resale[0].Rat()), one)
	switch {
	case c.Weeks != nil:
		b.weeks = read(c, *c.Weeks).mean
		costs("weeks", *c.Weeks, holding(c))
	case c.Pace != nil:
		b.weeks = over(times(b.hours, sixty), c.Pace)
		b.left = minus(b.left, times(holding(c), b.weeks))
	}
	b.sd = spread(rounded(together), rounded(resale.deviation()))
	return b
}

func holding(c *journal.Card) *big.Rat { return cmp.Or(c.Holding, new(big.Rat)) }

func (b *bidder) matter(name string, better, worse, by *big.Rat) {
	if better.Sign() != 0 || worse.Sign() != 0 {
		m := matter{name: name, better: times(better, by), worse: times(worse, by)}
		m.wide = plus(m.better, m.worse)
		b.matters = append(b.matters, m)
	}
}

// swings are what moves a profit, the widest first.
func (b *bidder) swings(profit *big.Rat) []fact.Matter {
	slices.SortStableFunc(b.matters, func(x, y matter) int { return y.wide.Cmp(x.wide) })
	return pick.Map(b.matters, func(m matter) fact.Matter {
		return fact.Matter{Name: m.name, AtBest: rounded(plus(profit, m.better)), AtWorst: rounded(minus(profit, m.worse))}
	})
}

func (b *bidder) bid(step int64) *fact.Bid {
	if step == 0 {
		return nil
	}
	price := b.price(step)
	fees, profit := FeesAt(b.card, price), b.profit(step)
	return &fact.Bid{Price: price, Fees: fees, Total: price.Add(fees), ProfitMean: rounded(profit), Chance: b.chance(profit)}
}

func (b *bidder) profit(step int64) *big.Rat {
	price := b.price(step)
	return minus(b.left, price.Add(FeesAt(b.card, price)).Rat())
}

// chance is that of the profit asked for where that one is the mean.
func (b *bidder) chance(profit *big.Rat) float64 {
	return Chance(minus(profit, b.card.Profit.Rat()), b.sd)
}

type edge struct {
	step int64
	fee  *journal.Fee
	band int
}

// highest returns the most increments whose mean profit is enough, or 0. Within a stretch where every fee stays in its band
// the last that is enough is found by halving; a band's edge can make a higher price cheaper, so each stretch is looked at.
func (b *bidder) highest(enough func(profit *big.Rat) bool) int64 {
	steps := b.card.Resale[2].Div(b.card.Increment).Floor().IntPart()
	var edges []edge
	fixed, share := decimal.Zero, decimal.Zero // fees at least, and the percents of the price besides
	count := func(f *journal.Fee, band int, sign int64) {
		sum, percent := least(b.card, f, f.Bands[band])
		fixed, share = fixed.Add(sum.Mul(decimal.NewFromInt(sign))), share.Add(percent.Mul(decimal.NewFromInt(sign)))
	}
	for i := range b.card.Fees {
		f := &b.card.Fees[i]
		top := bandAt(f.Bands, b.price(steps))
		count(f, top, 1)
		for band := range f.Bands[:top] {
			edges = append(edges, edge{f.Bands[band].UpTo.Div(b.card.Increment).Floor().IntPart(), f, band})
		}
	}
	slices.SortFunc(edges, func(x, y edge) int { return -cmp.Or(cmp.Compare(x.step, y.step), cmp.Compare(x.band, y.band)) })
	for last := steps; last > 0; {
		first := int64(1)
		if len(edges) > 0 {
			first = edges[0].step + 1
		}
		total := b.price(first).Add(fixed).Add(b.price(first).Mul(share).Shift(-2))
		if first <= last && enough(minus(b.left, total.Rat())) {
			if step := b.lastEnough(first, last, enough); step >= first {
				return step
			}
		}
		for last = first - 1; len(edges) > 0 && edges[0].step == last; edges = edges[1:] {
			count(edges[0].fee, edges[0].band+1, -1)
			count(edges[0].fee, edges[0].band, 1)
		}
	}
	return 0
}

func (b *bidder) price(step int64) decimal.Decimal {
	return b.card.Increment.Mul(decimal.NewFromInt(step))
}

// lastEnough returns the last step that is enough, below first for none. It counts in 64 bits on every machine.
func (b *bidder) lastEnough(first, last int64, enough func(profit *big.Rat) bool) int64 {
	low, high := first-1, last
	for low < high {
		middle := high - (high-low)/2
		if enough(b.profit(middle)) {
			low = middle
		} else {
			high = middle - 1
		}
	}
	return low
}

// FeesAt is what the auction adds to a hammer price: each line rounded, then its tax on it, rounded.
func FeesAt(c *journal.Card, price decimal.Decimal) decimal.Decimal {
	sum := decimal.Zero
	for _, f := range c.Fees {
		fee := money.Round(feeAt(f.Bands, price), c.Currency)
		if f.VAT != nil {
			fee = fee.Add(money.Round(fee.Mul(*f.VAT).Shift(-2), c.Currency))
		}
		sum = sum.Add(fee)
	}
	return sum
}

// least is what a fee comes to with its tax in a band: a sum, and percents of the price, less what rounding may take.
func least(c *journal.Card, f *journal.Fee, band note.Band) (sum, percent decimal.Decimal) {
	tax := decimal.NewFromInt(1)
	if f.VAT != nil {
		tax = tax.Add(f.VAT.Shift(-2))
	}
	return band.Fixed.Sub(decimal.New(1, -c.Currency.Digits)).Mul(tax), band.Percent.Mul(tax)
}

// bandAt is the first band that reaches the price; the last reaches any.
func bandAt(bands []note.Band, price decimal.Decimal) int {
	return sort.Search(len(bands)-1, func(i int) bool { return !price.GreaterThan(bands[i].UpTo) })
}

func feeAt(bands []note.Band, price decimal.Decimal) decimal.Decimal {
	b := bands[bandAt(bands, price)]
	if !b.Percent.IsZero() {
		return price.Mul(b.Percent).Shift(-2)
	}
	return b.Fixed
}

// Quotes are for parts still to be bought: for each the cheapest first, a supplier's newest alone, expired ones last.
func (st *State) Quotes() []fact.Quote {
	var list []fact.Quote
	for _, p := range st.Parts {
		if p.State != "needed" || p.PaidInRound {
			continue
		}
		var of []*journal.Quote
		for _, q := range st.Build.Quotes {
			if q.Part != p.ID || !st.Counts(q.Session.Date) {
				continue
			}
			of = slices.DeleteFunc(of, func(o *journal.Quote) bool { return o.From == q.From && q.From != "" && o.Session != q.Session })
			of = append(of, q)
		}
		first := len(list)
		list = append(list, pick.Map(of, st.quote)...)
		quotes := list[first:]
		slices.SortStableFunc(quotes, func(a, b fact.Quote) int {
			return cmp.Or(pick.Either(a.Expired, 1, 0)-pick.Either(b.Expired, 1, 0), a.Together().Cmp(b.Together()))
		})
		if len(quotes) > 0 {
			quotes[0].Best = !quotes[0].Expired
		}
	}
	return list
}

func (st *State) quote(q *journal.Quote) fact.Quote {
	out := fact.Quote{Part: q.Part, From: q.From, Words: q.Line.Words().S, Price: q.Price, Freight: q.Freight, Duty: q.Duty, Tax: q.Tax,
		Clearance: q.Clearance, Landed: q.Landed, Wait: q.Wait, Until: q.Until, Expired: q.Until != 0 && q.Until < st.Today}
	if weekly := st.Build.Card.Holding; weekly != nil && q.Wait != nil {
		out.Holding = new(rounded(times(weekly, big.NewRat(int64(*q.Wait), 7))))
	}
	return out
}

// Choices weigh finishing against the offers that stand; nil once sold, and without a resale.
func (st *State) Choices() *fact.Choices {
	card := st.Build.Card
	if st.Sale != nil || card.Resale == nil {
		return nil
	}
	c := st.Costs()
	o := outlookOf(st, c)
	brings := minus(read(card, *card.Resale).mean, o.money)
	out := &fact.Choices{Finish: wayOf(brings, o.hours), Spent: c.Net, Pay: card.Hourly, Holding: c.Forecast.Holding}
	for _, offer := range card.Offers {
		if offer.Until != 0 && offer.Until < st.Today {
			continue
		}
		money, hours := read(card, offer.Money).mean, over(meanMinutes(card, offer.Hours), sixty)
		gain, more := minus(brings, money), minus(o.hours, hours)
		pay := new(big.Rat)
		if card.Hourly != nil {
			pay = times(card.Hourly.Rat(), more)
		}
		out.Offers = append(out.Offers, fact.Offered{Name: offer.Name, Until: offer.Until, Brings: wayOf(money, hours), Gain: rounded(gain), MoreHours: rounded(more),
			GainPerHour: wayOf(gain, more).PerHour, TurnsAt: rounded(minus(brings, pay))})
	}
	return out
}

func wayOf(money, hours *big.Rat) fact.Way {
	w := fact.Way{Money: rounded(money), Hours: rounded(hours)}
	if hours.Sign() > 0 {
		w.PerHour = new(rounded(over(money, hours)))
	}
	return w
}
