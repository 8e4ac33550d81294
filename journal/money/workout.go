package money

import "github.com/shopspring/decimal"

// Terms are what a money line says besides its amount.
type Terms struct {
	VAT      *decimal.Decimal // percent to add, nil for none
	Rate     *decimal.Decimal // home currency for one unit of the written one; needed where they differ
	Share    *Fraction        // the build's part, nil for all of it
	ToGarage bool             // a tool: what Share does not give the build stays in the garage
}

// A Sum is a money line worked out. Price + Tax is what was paid; Whole is that
// in the home currency, and Build + Garage = Whole exactly.
type Sum struct {
	Price, Tax           decimal.Decimal // in the written currency
	Whole, Build, Garage decimal.Decimal // in the home currency
}

// WorkOut works a line out in four steps, each rounded half away from zero to
// the minor unit of the currency it is then in:
//  1. quantity × price;
//  2. the tax on that;
//  3. exchange into the home currency;
//  4. the build's share; the whole less that part goes to the garage.
//
// The amount w is in the currency in. Without a rate the exchange is one to one,
// which is right only where in is home: the caller sees to it.
func WorkOut(w Written, in, home Currency, t Terms) Sum {
	var s Sum
	s.Price = w.Number
	if w.HasQuantity {
		s.Price = w.Quantity.Mul(w.Number)
	}
	s.Price = Round(s.Price, in)
	s.Whole = s.Price
	if t.VAT != nil {
		s.Tax = Round(s.Price.Mul(*t.VAT).Shift(-2), in)
		s.Whole = s.Price.Add(s.Tax)
	}
	if t.Rate != nil {
		s.Whole = s.Whole.Mul(*t.Rate)
	}
	s.Whole = Round(s.Whole, home)
	switch {
	case t.Share != nil:
		s.Build = t.Share.Of(s.Whole, home)
		s.Garage = s.Whole.Sub(s.Build)
	case t.ToGarage:
		s.Garage = s.Whole
	default:
		s.Build = s.Whole
	}
	return s
}
