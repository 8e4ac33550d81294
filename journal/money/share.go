package money

import (
	"strings"

	"guidecoat/journal/measure/number"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// A Fraction is a part of a whole: over 0, at most 1, in lowest terms.
type Fraction struct{ Num, Den int64 }

// Of returns that part of d, rounded once, half away from zero, to the minor unit of c.
func (f Fraction) Of(d decimal.Decimal, c Currency) decimal.Decimal {
	return d.Mul(decimal.NewFromInt(f.Num)).DivRound(decimal.NewFromInt(f.Den), c.Digits)
}

const shareHelp = "write a part that is over 0 and at most 1, as in 1/4 or 25%"

// ParseShare reads a part such as "1/4", "25%" or "12.5%".
func ParseShare(text string) (Fraction, *source.Malformed) {
	wrong := func(why string) (Fraction, *source.Malformed) {
		return Fraction{}, malformed(0, len(text), why, shareHelp)
	}
	above, below, slash := strings.Cut(text, "/")
	var f Fraction
	if slash {
		num, bad := figure(above, 0)
		if bad != nil {
			return Fraction{}, bad
		}
		den, bad := figure(below, len(above)+1)
		if bad != nil {
			return Fraction{}, bad
		}
		if num.Places+den.Places > 0 {
			return wrong("a fraction has whole numbers")
		}
		f = Fraction{Num: num.Value.IntPart(), Den: den.Value.IntPart()}
	} else {
		bare, percent := strings.CutSuffix(strings.TrimRight(text, " \t"), "%")
		if !percent {
			return wrong("it is neither a fraction nor a percentage")
		}
		n, bad := figure(bare, 0)
		if bad != nil {
			return Fraction{}, bad
		}
		if n.Value.GreaterThan(hundred) {
			return wrong("it is more than the whole")
		}
		f = Fraction{Num: n.Value.Shift(n.Places).IntPart(), Den: hundred.Shift(n.Places).IntPart()}
	}
	switch {
	case f.Num == 0 || f.Den == 0:
		return wrong("it is zero")
	case f.Num > f.Den:
		return wrong("it is more than the whole")
	}
	a, b := f.Num, f.Den
	for b != 0 {
		a, b = b, a%b
	}
	return Fraction{Num: f.Num / a, Den: f.Den / a}, nil
}

var hundred = decimal.NewFromInt(100)

// ParsePercent reads a percentage over 0 and up to 100; the result is the number before the sign.
func ParsePercent(text string) (decimal.Decimal, *source.Malformed) {
	const help = "write a number over 0, up to 100, and the sign, as in 20%"
	bare, percent := strings.CutSuffix(strings.TrimRight(text, " \t"), "%")
	if !percent {
		return decimal.Decimal{}, malformed(0, len(text), "the sign % is missing", help)
	}
	n, bad := figure(bare, 0)
	switch {
	case bad != nil:
		return decimal.Decimal{}, bad
	case n.Value.IsZero():
		return decimal.Decimal{}, malformed(0, len(text), "it is zero", help)
	case n.Value.GreaterThan(hundred):
		return decimal.Decimal{}, malformed(0, len(text), "it is over 100", help)
	}
	return n.Value, nil
}

// ParseRate reads an exchange rate over zero, in home currency for one unit of the other.
func ParseRate(text string) (decimal.Decimal, *source.Malformed) {
	n, bad := figure(text, 0)
	switch {
	case bad != nil:
		return decimal.Decimal{}, bad
	case n.Value.IsZero():
		return decimal.Decimal{}, malformed(0, len(text), "it is zero", "write what one unit of the other currency costs, as in 0.86")
	}
	return n.Value, nil
}

// figure reads text, which stands at offset in the whole, as one plain number.
func figure(text string, offset int) (number.Number, *source.Malformed) {
	bare := strings.TrimLeft(text, " \t")
	offset += len(text) - len(bare)
	bare = strings.TrimRight(bare, " \t")
	if n, _ := number.Sign(bare); n > 0 {
		return number.Number{}, malformed(offset, offset+len(bare), "it has a sign", "write the number without + or -")
	}
	n, bad := number.Scan(bare)
	if bad != nil {
		return number.Number{}, bad.Shifted(offset)
	}
	if n.End < len(bare) {
		return number.Number{}, malformed(offset+n.End, offset+len(bare), "something follows the number", "leave only the number here")
	}
	return n, nil
}

type Terms struct {
	VAT      *decimal.Decimal // percent to add, nil for none
	Rate     *decimal.Decimal // home currency for one unit of the written one; needed where they differ
	Share    *Fraction        // the build's part, nil for all of it
	ToGarage bool             // a tool: what Share does not give the build stays in the garage
}

// A Sum is a line worked out. Price + Tax was paid; Whole is that in home currency, Build + Garage = Whole.
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
// Without a rate the exchange is one to one, which is right only where in is home.
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
