package fact

import (
	"guidecoat/journal/measure"

	"github.com/shopspring/decimal"
)

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
