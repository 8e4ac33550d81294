package fact

import (
	"guidecoat/journal/measure"

	"github.com/shopspring/decimal"
)

// A Part is a part as it stood.
type Part struct {
	ID          string
	Description string
	State       string
	Since       measure.Date // of its state
	Stage       string       // "" where it belongs to none
	System      string       // its own, else its stage's, else one of where it was fitted
	Systems     []string     // all that it touches, that one first
	Condition   string
	Origin      string
	Estimate    *Three
	Supplier    string
	Number      string
	Donor       string
	Worth       *decimal.Decimal // by which it bears a share of its donor's price; nil where it has none
	Due         measure.Date
	Warranty    measure.Date
	Free        bool
	// Paid is the build's part of its costs less its refunds; nil where that is not shown.
	Paid *decimal.Decimal
	// PaidInRound says that a cost is dated in the round it is in. Its estimate is
	// then used up.
	PaidInRound bool
	Late        bool // due before the day it stood on, and not here yet
}

// rank orders the states that go forward only. Refitted stands beside fitted.
var rank = map[string]int{"needed": 1, "ordered": 2, "arrived": 3, "fitted": 4, "refitted": 4}

// EndsRound tells whether a part is gone in that state.
func EndsRound(state string) bool { return rank[state] == 0 }

// Reached tells whether a part in that state is as far as the other or farther.
func Reached(state, other string) bool { return rank[state] >= rank[other] }

// Waited tells whether the part is still to come: needed or ordered.
func (p *Part) Waited() bool { return p.State == "needed" || p.State == "ordered" }

// InHand tells whether the part is here or on the vehicle.
func (p *Part) InHand() bool { return Reached(p.State, "arrived") }

// Fitted tells whether the part is on the vehicle.
func (p *Part) Fitted() bool { return Reached(p.State, "fitted") }

// A Donor is a vehicle that parts were taken from, as it stood. What is nil is not shown.
type Donor struct {
	Name, Category string
	Words          string
	On             measure.Date     // when it was bought; 0 where it is not said
	Price          *decimal.Decimal // with what was paid for it since, less what came back
	Parts          int              // that this build took
	Spread         *decimal.Decimal // over the parts of all builds
	Left           *decimal.Decimal // what stays in the garage
	Holds          *decimal.Decimal // what is still in it is worth
}

// A Quote is what somebody asks for a part that is still to come, brought into the yard.
type Quote struct {
	Part, From, Words                            string
	Price, Freight, Duty, Tax, Clearance, Landed decimal.Decimal
	Wait                                         *int             // days; nil where it is not said
	Holding                                      *decimal.Decimal // what keeping the vehicle costs meanwhile; nil where no wait or no holding is known
	Until                                        measure.Date
	Expired                                      bool
	Best                                         bool // landed and holding together are the least
}

// Together is what it costs with what keeping the vehicle costs meanwhile.
func (q *Quote) Together() decimal.Decimal {
	if q.Holding == nil {
		return q.Landed
	}
	return q.Landed.Add(*q.Holding)
}
