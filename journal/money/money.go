// Package money reads amounts as builders type them and works them out.
//
// Money is exact decimal from end to end. Every step of a sum is rounded half
// away from zero to the minor unit of the currency it is then in, so each figure
// can be checked with pen and paper.
package money

import (
	"slices"
	"strings"

	"github.com/shopspring/decimal"
)

// A Currency is one of ISO 4217 with the decimals of its minor unit. The zero Currency is none.
type Currency struct {
	Code   string
	Digits int32
}

// Lookup returns the currency of a code in capitals, such as "GBP".
func Lookup(code string) (Currency, bool) {
	digits, ok := minorDigits[code]
	if !ok {
		return Currency{}, false
	}
	return Currency{Code: code, Digits: digits}, true
}

func IsCode(word string) bool {
	_, ok := minorDigits[word]
	return ok
}

// Round returns d in whole minor units of c, half away from zero.
func Round(d decimal.Decimal, c Currency) decimal.Decimal { return d.Round(c.Digits) }

// Format returns d for machines: "1250.00". It rounds half away from zero.
func Format(d decimal.Decimal, c Currency) string { return Round(d, c).StringFixed(c.Digits) }

// Show returns d for people: "£1,250.00", "-£12.00", "1,250.00 SEK".
func Show(d decimal.Decimal, c Currency) string {
	minus, figure := "", Format(d, c)
	if strings.HasPrefix(figure, "-") {
		minus, figure = "-", figure[1:]
	}
	whole, decimals, point := strings.Cut(figure, ".")
	for at := len(whole) - 3; at > 0; at -= 3 {
		whole = whole[:at] + "," + whole[at:]
	}
	if point {
		whole += "." + decimals
	}
	switch c.Code {
	case "GBP":
		return minus + "£" + whole
	case "EUR":
		return minus + "€" + whole
	}
	return strings.TrimSpace(minus + whole + " " + c.Code)
}

// SplitBy shares whole by weights in whole minor units of c that add up to it: what is left goes to the largest remainders.
func SplitBy(whole decimal.Decimal, weights []decimal.Decimal, c Currency) []decimal.Decimal {
	units, total := Round(whole, c).Shift(c.Digits), decimal.Zero
	for _, w := range weights {
		total = total.Add(w)
	}
	parts, rest := make([]decimal.Decimal, len(weights)), make([]decimal.Decimal, len(weights))
	if total.IsZero() {
		return parts
	}
	order, left := make([]int, len(weights)), units
	for i, w := range weights {
		parts[i], rest[i] = units.Mul(w).QuoRem(total, 0)
		order[i], left = i, left.Sub(parts[i])
	}
	slices.SortStableFunc(order, func(a, b int) int { return rest[b].Abs().Cmp(rest[a].Abs()) })
	for i, at := range order {
		if decimal.NewFromInt(int64(i)).LessThan(left.Abs()) {
			parts[at] = parts[at].Add(decimal.NewFromInt(int64(left.Sign())))
		}
	}
	for i := range parts {
		parts[i] = parts[i].Shift(-c.Digits)
	}
	return parts
}

// Split shares whole among n, the larger parts first; they add up to it exactly. It returns nil for n below 1.
func Split(whole decimal.Decimal, n int, c Currency) []decimal.Decimal {
	if n < 1 {
		return nil
	}
	return SplitBy(whole, slices.Repeat([]decimal.Decimal{one}, n), c)
}
