package money

import (
	"github.com/shopspring/decimal"

	"guidecoat/journal/measure/number"
	"guidecoat/journal/source"
)

// ParsePlain reads one amount of the build's own money, zero or more, for
// budgets and estimates: "260", "£260", "260.50". No quantity, no other currency.
func ParsePlain(text string, home Currency) (decimal.Decimal, *source.Malformed) {
	w, bad := parse(text)
	if bad != nil {
		return decimal.Decimal{}, bad
	}
	in, bad := w.Currency(home)
	switch {
	case w.HasQuantity:
		return decimal.Decimal{}, malformed(0, len(text), "a quantity has no place here", "write one amount, as in 260")
	case bad != nil:
		return decimal.Decimal{}, bad
	case in != home && home.Code != "": // a currency that could not be read was reported
		return decimal.Decimal{}, malformed(w.UnitStart, w.UnitEnd, "it is not in "+home.Code, "write the amount in the build's own currency")
	}
	return w.Number, nil
}

// ParseThree reads three plain amounts set apart by spaces, best, likely and
// worst, or one that stands for all three. They may be equal but not fall.
func ParseThree(text string, home Currency) ([3]decimal.Decimal, *source.Malformed) {
	return number.Three(text, "260 340 520", func(s string) (decimal.Decimal, *source.Malformed) { return ParsePlain(s, home) }, decimal.Decimal.LessThan)
}

// Apart returns the complaint about sums at the start of text that something else
// than spaces sets apart, nil where there are none.
func Apart(text string) *source.Malformed { return number.Apart(text) }
