package fact

import (
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

// A BidAnswer is the most to pay, worked out from the job card alone.
type BidAnswer struct {
	Currency   money.Currency
	Highest    *Bid  // nil where no bid leaves the profit with the confidence asked for
	Table      []Bid // the highest with the five increments on each side of it
	Confidence decimal.Decimal
	Profit     decimal.Decimal
}
