package state

import (
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/money"
	"guidecoat/journal/note"

	"github.com/shopspring/decimal"
)

// A Bid is one hammer price with what it would lead to.
type Bid struct {
	Price      decimal.Decimal
	Fees       decimal.Decimal
	Total      decimal.Decimal // price and fees
	ProfitMean decimal.Decimal // unrounded
	Chance     float64         // of the profit asked for
}

// A BidAnswer is the most to pay, worked out from the job card alone.
type BidAnswer struct {
	Highest    *Bid  // nil where no bid leaves the profit with the confidence asked for
	Table      []Bid // the highest with the five increments on each side of it
	Confidence decimal.Decimal
	Profit     decimal.Decimal
}

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
func BestBid(c *journal.Card) (answer BidAnswer, ok bool) {
	answer = BidAnswer{Confidence: c.Confidence, Profit: c.Profit}
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
func (b *bidder) at(step int64) Bid {
	bid := Bid{Price: b.card.Increment.Mul(decimal.NewFromInt(step))}
	bid.Fees = FeesAt(b.card, bid.Price)
	bid.Total = bid.Price.Add(bid.Fees)
	sixfold := b.left.Sub(bid.Total.Mul(six))
	bid.ProfitMean = sixth(sixfold)
	bid.Chance = Chance(sixfold.Sub(b.card.Profit.Mul(six)), b.sd)
	return bid
}

func (b *bidder) enough(step int64) bool { return b.at(step).Chance >= b.needed }

// highest returns the largest number of increments that is enough, 0 for none.
// Within a stretch where every fee stays in its band, price and fees only rise
// together, so the last that is enough is found by halving; a band's edge can make
// a higher price cheaper, so each stretch is looked at, the highest first.
func (b *bidder) highest(steps int64) int64 {
	edges := []int64{steps}
	for _, f := range b.card.Fees {
		for _, band := range f.Bands {
			if edge := band.UpTo.Div(b.card.Increment).Floor().IntPart(); !band.Open && edge > 0 && edge < steps {
				edges = append(edges, edge)
			}
		}
	}
	slices.Sort(edges)
	edges = slices.Compact(edges)
	for i := len(edges) - 1; i >= 0; i-- {
		first := int64(1)
		if i > 0 {
			first = edges[i-1] + 1
		}
		if last := b.lastEnough(first, edges[i]); last >= first {
			return last
		}
	}
	return 0
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

// feeAt is the fee of the first band that reaches the price.
func feeAt(bands []note.Band, price decimal.Decimal) decimal.Decimal {
	for _, b := range bands {
		if b.Open || !price.GreaterThan(b.UpTo) {
			if !b.Percent.IsZero() {
				return price.Mul(b.Percent).Shift(-2)
			}
			return b.Fixed
		}
	}
	return decimal.Zero
}
