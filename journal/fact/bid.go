package fact

import (
	"guidecoat/journal/measure"
	"guidecoat/journal/money"

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

// A BidAnswer is the most to pay, worked out from the job card alone. A bid is nil where
// none leaves what is asked for.
type BidAnswer struct {
	Currency   money.Currency
	Highest    *Bid  // leaves the profit with the confidence asked for
	Hourly     *Bid  // pays every hour what is asked for, on average; nil also where no hours or no pay are named
	BreakEven  *Bid  // loses nothing, on average
	Table      []Bid // the highest with the five increments on each side of it
	Matters    []Matter
	Confidence decimal.Decimal
	Profit     decimal.Decimal
	Pay        *decimal.Decimal // what an hour should earn; nil where none is asked for
	Hours      decimal.Decimal  // of work, on average
	Weeks      *decimal.Decimal // until it is sold, on average; nil where the card tells neither weeks nor pace
	Holding    *decimal.Decimal // over those weeks; nil where nothing is paid
}

// Minutes are the hours of work to the minute.
func (a BidAnswer) Minutes() measure.Minutes { return inMinutes(a.Hours) }

// A Matter is what moves the profit: what it is at that one's best and at its worst, all
// others at their means, for the highest bid, else the one that breaks even.
type Matter struct {
	Name            string
	AtBest, AtWorst decimal.Decimal
}

// Swing is how far it moves the profit.
func (m Matter) Swing() decimal.Decimal { return m.AtBest.Sub(m.AtWorst) }
