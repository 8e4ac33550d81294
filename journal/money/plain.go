package money

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"guidecoat/journal/measure/number"
	"guidecoat/journal/source"
)

// ParsePlain reads one amount of the build's own money, zero or more, for
// budgets and estimates: "260", "£260", "260.50". No quantity, no other currency.
func ParsePlain(text string, home Currency) (decimal.Decimal, *source.Malformed) {
	w, bad := parse(text, true)
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
	three, bad := parseThree(text, home)
	if bad != nil {
		if better := Apart(text); better != nil {
			bad = better
		}
	}
	return three, bad
}

// Apart returns the complaint about sums at the start of text that something else
// than spaces sets apart, nil where there are none.
func Apart(text string) *source.Malformed { return number.Apart(text) }

func parseThree(text string, home Currency) ([3]decimal.Decimal, *source.Malformed) {
	var three [3]decimal.Decimal
	fields := strings.Fields(text)
	if len(fields) != 1 && len(fields) != 3 {
		return three, malformed(0, len(text), "one number or three are needed",
			"write best, likely and worst, as in 260 340 520, or one number for all three")
	}
	at := 0
	for i, field := range fields {
		at += strings.Index(text[at:], field)
		d, bad := ParsePlain(field, home)
		if bad != nil {
			return [3]decimal.Decimal{}, shifted(bad, at)
		}
		if i > 0 && d.LessThan(three[i-1]) {
			return [3]decimal.Decimal{}, malformed(at, at+len(field),
				fmt.Sprintf("best, likely and worst must rise, but %s is less than %s", field, fields[i-1]), "write the smallest number first")
		}
		three[i] = d
		at += len(field)
	}
	if len(fields) == 1 {
		three[1], three[2] = three[0], three[0]
	}
	return three, nil
}
