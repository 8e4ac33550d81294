package money

import (
	"fmt"
	"strings"

	"guidecoat/journal/measure/number"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// Written is an amount as it was typed. Offsets are bytes in the scanned text;
// UnitStart == UnitEnd where no currency was written.
type Written struct {
	Quantity    decimal.Decimal // the N of "N x"; 1 without
	HasQuantity bool
	Number      decimal.Decimal // the price, over zero
	Places      int32           // decimals typed in Number
	Code        string          // ISO 4217 code typed before or after the number, else ""
	Symbol      string          // £, €, $, ¥ or kr typed before the number, else ""

	NumberStart, NumberEnd int
	UnitStart, UnitEnd     int // the code, else the symbol
	End                    int // where the amount ends; a description may follow
}

// one is the quantity of most amounts, which share it.
var one = decimal.NewFromInt(1)

// Scan reads the amount at the start of text: [CODE or symbol] NUMBER [CODE], also after "N x". What follows stands apart.
func Scan(text string) (Written, *source.Malformed) {
	s := scanner{text: text, w: Written{Quantity: one}}
	if bad := s.amount(); bad != nil {
		return Written{}, bad
	}
	return s.w, nil
}

// parse reads text that is an amount and nothing else. It may be zero.
func parse(text string) (Written, *source.Malformed) {
	s := scanner{text: text, free: true, w: Written{Quantity: one}}
	s.at = s.spaces(0)
	if bad := s.amount(); bad != nil {
		return Written{}, bad
	}
	if rest := s.spaces(s.at); rest < len(text) {
		return Written{}, malformed(rest, len(text), "something follows the amount", "leave only the amount here")
	}
	return s.w, nil
}

// Currency returns that of the code or symbol, or home. $, ¥ and kr are taken only where home uses them.
func (w Written) Currency(home Currency) (Currency, *source.Malformed) {
	in := home
	switch {
	case w.Code != "":
		in, _ = Lookup(w.Code)
	case w.Symbol != "":
		s := symbolNamed(w.Symbol)
		if code := s.only(); code != "" {
			in, _ = Lookup(code)
		} else if !s.uses(home.Code) {
			return Currency{}, malformed(w.UnitStart, w.UnitEnd,
				fmt.Sprintf("%s stands for several currencies, and %s is not one of them", w.Symbol, home.Code),
				"write the code of the currency instead, such as "+strings.Fields(s.codes)[0])
		}
	}
	if w.Places > in.Digits && !w.HasQuantity && in != (Currency{}) {
		help := "round it; only the price behind a quantity, as in 12 x 0.125, may have more"
		if w.Places == 3 && w.Number.LessThan(decimal.NewFromInt(1000)) {
			help = fmt.Sprintf("write %s if these are thousands; else round it", strings.Replace(w.Number.StringFixed(w.Places), ".", ",", 1))
		}
		digits := pick.Either(in.Digits == 0, "none", fmt.Sprint(in.Digits))
		return Currency{}, malformed(w.NumberStart, w.NumberEnd, fmt.Sprintf("it has more decimals than %s, which has %s", in.Code, digits), help)
	}
	return in, nil
}

func malformed(start, end int, why, help string) *source.Malformed {
	return &source.Malformed{Start: start, End: end, Why: why, Help: help}
}

// ParsePlain reads one amount of the build's own money, zero or more: "260", "£260".
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

// ParseThree reads best, likely and worst, or one for all. They may be equal but not fall.
func ParseThree(text string, home Currency) ([3]decimal.Decimal, *source.Malformed) {
	return number.Three(text, "260 340 520", func(s string) (decimal.Decimal, *source.Malformed) { return ParsePlain(s, home) }, decimal.Decimal.LessThan)
}

// Apart returns the complaint about sums that something else than spaces sets apart, or nil.
func Apart(text string) *source.Malformed { return number.Apart(text) }
