package fact

import (
	"guidecoat/journal/measure"
	"guidecoat/journal/money"

	"github.com/shopspring/decimal"
)

// A Ready is when one person is done who works at the card's pace and is never idle. A date too far off is 0.
type Ready struct {
	Early, Likely, Late measure.Date
	Undated             []string // the parts still to come of which nobody knows when
	Guessed             int      // the snags that say no time and count for an hour
}

// Choices compare finishing with the offers that stand, by what is still to come of each.
type Choices struct {
	Finish Way
	Offers []Offered
	Spent  decimal.Decimal // whatever is chosen
	Pay    *decimal.Decimal
	// Holding is what finishing still costs to keep; nil where nothing is paid.
	Holding *decimal.Decimal
}

// A Way is what one way brings from now on and the hours that it still takes, on average.
type Way struct {
	Money   decimal.Decimal
	Hours   decimal.Decimal
	PerHour *decimal.Decimal // nil where it takes no hours
}

// Minutes are the hours to the minute.
func (w Way) Minutes() measure.Minutes { return inMinutes(w.Hours) }

type Offered struct {
	Name        string
	Until       measure.Date // 0: it stands without end
	Brings      Way
	Gain        decimal.Decimal  // what finishing brings more
	MoreHours   decimal.Decimal  // what finishing takes more; below zero where it takes fewer
	GainPerHour *decimal.Decimal // nil where finishing takes no more hours
	TurnsAt     decimal.Decimal  // from this price on it is better than finishing
}

// MoreMinutes are the hours that finishing takes more, to the minute.
func (o Offered) MoreMinutes() measure.Minutes { return inMinutes(o.MoreHours) }

// Better tells whether the offer is at least as good as finishing.
func (o Offered) Better() bool { return !o.Brings.Money.LessThan(o.TurnsAt) }

// Best is the offer farthest above the price at which the answer turns, or least below it.
func (c *Choices) Best() *Offered {
	var best *Offered
	for i := range c.Offers {
		o := &c.Offers[i]
		if best == nil || o.Brings.Money.Sub(o.TurnsAt).GreaterThan(best.Brings.Money.Sub(best.TurnsAt)) {
			best = o
		}
	}
	return best
}

// inMinutes is a length of time in whole minutes, those of a half rounded up.
func inMinutes(hours decimal.Decimal) measure.Minutes {
	return measure.Minutes(hours.Mul(decimal.NewFromInt(60)).Round(0).IntPart())
}

// A Plan is what to do over the next days, one thing after another at the card's pace.
type Plan struct {
	Days int
	Pace measure.Minutes // by the week, to the minute
	Jobs []Planned       // in the order in which they are done
	More int             // snags that come later, or wait for what nobody knows the day of
	Rest measure.Minutes // that the stages' estimates, at their likely, hold beyond the snags
}

type Planned struct {
	*Snag
	Done measure.Date
}

// An Appointment is a day to be reminded of.
type Appointment struct {
	ID    string // stays the same however often it is put off; unique in the build
	Day   measure.Date
	Words string       // plain
	Noted measure.Date // when it was last written about
	Warn  int          // days before; 0 for none
}

// A Bid is one hammer price with what it would lead to.
type Bid struct {
	Price      decimal.Decimal
	Fees       decimal.Decimal
	Total      decimal.Decimal // price and fees
	ProfitMean decimal.Decimal // unrounded
	Chance     float64         // of the profit asked for
}

// A BidAnswer is the most to pay, from the job card alone. A bid is nil where none leaves what is asked for.
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

// A Matter is what moves the profit, all others at their means, for the highest bid or the one that breaks even.
type Matter struct {
	Name            string
	AtBest, AtWorst decimal.Decimal
}

// Swing is how far it moves the profit.
func (m Matter) Swing() decimal.Decimal { return m.AtBest.Sub(m.AtWorst) }
