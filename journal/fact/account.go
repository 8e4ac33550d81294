package fact

import "github.com/shopspring/decimal"

// An Account is how a sale stands, in figures. What is nil is not there, or not shown.
type Account struct {
	Asked, Floor, Agreed        *decimal.Decimal
	Deposit, PartExchange, Paid *decimal.Decimal // of the sale that stands
	Owed                        *decimal.Decimal // nil while nothing is agreed
	Claims, Kept                *decimal.Decimal // of all sales there were
	// Told says that more than the price is written of it, so that what is owed means something.
	Told bool
}

// Rows names the figures there are, but for sums of nothing.
func (a *Account) Rows() []NamedSum {
	var list []NamedSum
	add := func(name string, sum *decimal.Decimal) {
		if sum != nil && !sum.IsZero() {
			list = append(list, NamedSum{name, *sum})
		}
	}
	add("asked", a.Asked)
	add("floor", a.Floor)
	add("agreed", a.Agreed)
	add("deposit", a.Deposit)
	add("part exchange", a.PartExchange)
	add("paid", a.Paid)
	switch owed := a.Owed; {
	case owed == nil || !a.Told:
	case owed.IsNegative():
		list = append(list, NamedSum{"paid too much", owed.Neg()})
	default:
		list = append(list, NamedSum{"still owed", *owed})
	}
	add("claims", a.Claims)
	add("kept", a.Kept)
	return list
}
