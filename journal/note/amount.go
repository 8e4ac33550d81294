package note

import (
	"fmt"
	"regexp"

	"guidecoat/journal/money"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// readAmount reads what a line of money begins with, and a quantity that stands
// beside it in words.
func readAmount(c context, s string) (any, int, *source.Malformed) {
	w, bad := money.Scan(s)
	if bad == nil && !w.HasQuantity {
		bad = countInWords(&w, s)
	}
	if bad != nil {
		return nil, 0, bad
	}
	if c.home.Code == "" && w.Code == "" {
		return Amount{Written: w}, w.End, nil
	}
	cur, bad := w.Currency(c.home)
	return Amount{Written: w, Currency: cur}, w.End, bad
}

var (
	// a price of one with its count: 6.49 each, 2 off
	eachCounted = regexp.MustCompile(`^,? ?(?:each|ea\.?|apiece),? \(?(?:x ?([1-9][0-9]{0,3})|([1-9][0-9]{0,3}) off)\)?(?:[ ,]|$)|^ \(?x ?([1-9][0-9]{0,3})\)? each(?:[ ,]|$)`)
	// a count with the price of one behind its words: 4 bolts at 3.00 each
	countedEach = regexp.MustCompile(`^ [^0-9£€$]+? (?:at |@ ?)?([£€$]? ?[0-9]+(?:\.[0-9]{2})?) (?:each|ea\.?|apiece)[.)]?$`)
	// a price of one, or of all: 6.49 each; 6.49 bolts (x2); 6.49 bolts, 2 off
	countUnclear = regexp.MustCompile(`^,? ?(each|ea|apiece)(?:[,.)]|$| for | [0-9]| \pL+s\b)| (each|apiece)[.)]?$|\((x ?[1-9][0-9]*)\)|[^0-9 ] (x ?[1-9][0-9]*)$|[ (,]([1-9][0-9]? off)\)?$`)
)

// countInWords takes in how many the price is of, where that can be meant in one way
// only; where it may be the price of one or of all, it asks.
func countInWords(w *money.Written, s string) *source.Malformed {
	rest := s[w.End:]
	if m := eachCounted.FindStringSubmatchIndex(rest); m != nil {
		from, to := group(m)
		w.Quantity, w.HasQuantity = decimal.RequireFromString(rest[from:to]), true
		w.End += m[1]
		return nil
	}
	if m := countedEach.FindStringSubmatchIndex(rest); m != nil && w.Places == 0 && w.UnitStart == w.UnitEnd {
		price, bad := money.Scan(rest[m[2]:m[3]])
		if bad != nil {
			return nil
		}
		price.Quantity, price.HasQuantity, price.End = w.Number, true, w.End
		*w = price
		return nil
	}
	if m := countUnclear.FindStringSubmatchIndex(rest); m != nil {
		from, to := group(m)
		price, words := s[w.NumberStart:w.NumberEnd], rest[from:to]
		return &source.Malformed{Start: w.End + from, End: w.End + to, Why: fmt.Sprintf("%s may be the price of one, or of all", price),
			Help: fmt.Sprintf("Write QUANTITY x PRICE, such as 2 x %s, if it is the price of one, and leave out %q if it is for all.", price, words)}
	}
	return nil
}

// group returns the first group of a match that took part.
func group(match []int) (from, to int) {
	for i := 2; i < len(match); i += 2 {
		if match[i] >= 0 {
			return match[i], match[i+1]
		}
	}
	return match[0], match[1]
}
