package fact

import (
	"guidecoat/journal/measure"

	"github.com/shopspring/decimal"
)

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
