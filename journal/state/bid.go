package state

import (
	"cmp"
	"slices"
	"sort"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/money"
	"guidecoat/journal/note"

	"github.com/shopspring/decimal"
)

// tableSide is how many increments the table shows on each side of the highest bid.
const tableSide = 5

// bidder holds what does not depend on the price.
type bidder struct {
	card   *journal.Card
	left   decimal.Decimal // six times: mean resale less mean of the work
	sd     float64         // of resale and work, the stages together
	needed float64         // confidence as a fraction
}

// BestBid finds the largest multiple of the card's increment that leaves at least the
// profit with at least the confidence. Ok is false where the card names no resale,
// without which there is nothing to say.
func BestBid(c *journal.Card) (answer fact.BidAnswer, ok bool) {
	answer = fact.BidAnswer{Currency: c.Currency, Confidence: c.Confidence, Profit: c.Profit}
	if c.Resale == nil {
		return answer, false
	}
	b := newBidder(c)
	steps := c.Resale[2].Div(c.Increment).Floor().IntPart()
	best := b.highest(steps)
	if best == 0 {
		return answer, true
	}
	highest := b.at(best)
	answer.Highest = &highest
	for i := max(best-tableSide, 1); i <= best+tableSide; i++ {
		answer.Table = append(answer.Table, b.at(i))
	}
	return answer, true
}

func newBidder(c *journal.Card) *bidder {
	b := &bidder{card: c, left: sixfoldMean(*c.Resale), needed: c.Confidence.InexactFloat64() / 100}
	together := decimal.Zero
	for _, s := range c.Stages {
		if !s.Purchase && s.Budget != nil {
			b.left = b.left.Sub(sixfoldMean(*s.Budget))
			together = together.Add(sixfoldDeviation(*s.Budget))
		}
	}
	b.sd = spread(sixth(together), sixth(sixfoldDeviation(*c.Resale)))
	return b
}

// at works out the bid of that many increments.
func (b *bidder) at(step int64) fact.Bid {
	bid := fact.Bid{Price: b.price(step)}
	bid.Fees = FeesAt(b.card, bid.Price)
	bid.Total = bid.Price.Add(bid.Fees)
	sixfold := b.sixfold(bid.Total)
	bid.ProfitMean = sixth(sixfold)
	bid.Chance = b.chance(sixfold)
	return bid
}

func (b *bidder) sixfold(total decimal.Decimal) decimal.Decimal { return b.left.Sub(total.Mul(six)) }

func (b *bidder) chance(sixfold decimal.Decimal) float64 {
	return Chance(sixfold.Sub(b.card.Profit.Mul(six)), b.sd)
}

func (b *bidder) enough(step int64) bool { return b.at(step).Chance >= b.needed }

// An edge is the last number of increments that a band of a fee holds for.
type edge struct {
	step int64
	fee  *journal.Fee
	band int
}

// highest returns the largest number of increments that is enough, 0 for none.
// Within a stretch where every fee stays in its band, price and fees only rise
// together, so the last that is enough is found by halving; a band's edge can make
// a higher price cheaper, so each stretch is looked at, the highest first. Thousands
// of fees are not worked out for each: what they come to at least is kept up to date.
func (b *bidder) highest(steps int64) int64 {
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
		if first <= last && b.chance(b.sixfold(total)) >= b.needed {
			if step := b.lastEnough(first, last); step >= first {
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

// lastEnough returns the last step from first to last that is enough, where all that
// are come before all that are not; below first for none. It counts in 64 bits, which
// sort.Search does only on some machines.
func (b *bidder) lastEnough(first, last int64) int64 {
	low, high := first-1, last
	for low < high {
		middle := high - (high-low)/2
		if b.enough(middle) {
			low = middle
		} else {
			high = middle - 1
		}
	}
	return low
}

// FeesAt is what the auction adds to a hammer price: each line rounded, then its
// tax on it, rounded.
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

// least is what a fee comes to with its tax in one of its bands: a sum, and percents of
// the price besides, less a minor unit or two for what rounding may take.
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

// feeAt is the fee of the band that reaches the price.
func feeAt(bands []note.Band, price decimal.Decimal) decimal.Decimal {
	b := bands[bandAt(bands, price)]
	if !b.Percent.IsZero() {
		return price.Mul(b.Percent).Shift(-2)
	}
	return b.Fixed
}
