package measure

import (
	"fmt"
	"strings"

	"guidecoat/journal/measure/number"
	"guidecoat/journal/near"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// A Quantity is a measured value, with the decimals it was written with.
type Quantity struct {
	Value decimal.Decimal
	Unit  Unit
}

// String returns the value as written and the unit's symbol: "8.70 mm", "-0.5°".
func (q Quantity) String() string {
	value := q.Value.StringFixed(max(0, -q.Value.Exponent()))
	return pick.Either(q.Unit.Kind == Angle || q.Unit == (Unit{}), value+q.Unit.Symbol, value+" "+q.Unit.Symbol)
}

// Comparable reports whether both are of one known kind.
func (q Quantity) Comparable(o Quantity) bool {
	if q.Unit.Kind != o.Unit.Kind {
		return false
	}
	_, known := scales[q.Unit]
	_, other := scales[o.Unit]
	return known && other
}

// Compare returns -1, 0 or 1, exactly, also across units; 0 where they are not Comparable.
func (q Quantity) Compare(o Quantity) int {
	if !q.Comparable(o) {
		return 0
	}
	if q.Unit == o.Unit {
		return q.Value.Cmp(o.Value)
	}
	a, b := scales[q.Unit], scales[o.Unit]
	left := q.Value.Add(a.offset).Mul(a.num).Mul(b.den)
	right := o.Value.Add(b.offset).Mul(b.num).Mul(a.den)
	return left.Cmp(right)
}

// In returns the value in another unit of the kind, rounded half away from zero to 12 decimals.
func (q Quantity) In(u Unit) decimal.Decimal {
	if q.Unit == u || !q.Comparable(Quantity{Unit: u}) {
		return q.Value
	}
	return Quantity{q.Value.Add(scales[q.Unit].offset), q.Unit}.difference(u).Sub(scales[u].offset)
}

// difference is In for a difference of two values: the offset of a temperature scale plays no part.
func (q Quantity) difference(u Unit) decimal.Decimal {
	if q.Unit == u {
		return q.Value
	}
	from, to := scales[q.Unit], scales[u]
	return q.Value.Mul(from.num).Mul(to.den).DivRound(from.den.Mul(to.num), number.MaxDigits)
}

const quantityHelp = "write a number and its unit, as in 8.7 mm"

// ScanQuantity reads the value at the start of text and returns where it ends: "8.7 mm", "12.6V", "-0.5 °".
func ScanQuantity(text string) (Quantity, int, *source.Malformed) { return scanQuantity(text, Unit{}) }

// ParseQuantity reads text that is a value and its unit and nothing else.
func ParseQuantity(text string) (Quantity, *source.Malformed) { return ParseQuantityLike(text, Unit{}) }

// ParseQuantityLike is [ParseQuantity] for a value of like's kind, in like where it has no unit.
func ParseQuantityLike(text string, like Unit) (Quantity, *source.Malformed) {
	lead := number.Spaces(text, 0)
	return whole(text, "value", func(rest string) (Quantity, int, *source.Malformed) {
		q, end, bad := scanQuantity(rest, like)
		if bad == nil && like != (Unit{}) && q.Unit.Kind != like.Kind {
			bad = malformed(0, len(strings.TrimRight(text[lead:], " \t")),
				fmt.Sprintf("it measures %s, not %s", q.Unit.Kind, like.Kind), "write it in "+like.Symbol)
		}
		return q, end, bad
	})
}

// scanQuantity reads a value; if nothing follows the number, its unit is like.
func scanQuantity(text string, like Unit) (Quantity, int, *source.Malformed) {
	sign, minus := number.Sign(text)
	n, bad := number.Scan(text[sign:])
	if bad != nil {
		bad = widened(bad.Shifted(sign), text, number.WordEnd(text, 0))
		if !number.Begins(text[sign:]) && !strings.HasPrefix(text[sign:], ".") {
			bad.Help = quantityHelp
		}
		return Quantity{}, 0, bad
	}
	q := Quantity{Value: n.Value, Unit: like}
	if minus {
		q.Value = n.Value.Neg()
	}
	end := sign + n.End
	start := number.Spaces(text, end)
	if start == len(text) && like != (Unit{}) {
		return q, end, nil
	}
	q.Unit, end, bad = scanUnit(text, start)
	if bad != nil {
		return Quantity{}, 0, bad
	}
	return q, end, nil
}

// scanUnit tries two words first, so that "lb ft" is a torque and not a mass.
func scanUnit(text string, start int) (Unit, int, *source.Malformed) {
	first := number.WordEnd(text, start)
	if second := number.WordEnd(text, number.Spaces(text, first)); second > first {
		if u, ok := LookupUnit(text[start:first] + " " + text[number.Spaces(text, first):second]); ok {
			return u, second, nil
		}
	}
	name := text[start:first]
	if u, ok := LookupUnit(name); ok {
		return u, first, nil
	}
	bare := strings.TrimRight(name, ",.:;()")
	bad := malformed(start, first, fmt.Sprintf("%.40q is not a unit guidecoat knows", name), quantityHelp)
	switch n := near.Nearest(bare, unitNames); {
	case strings.EqualFold(bare, "C"), strings.EqualFold(bare, "F"): // near are others, but none that is meant
		bad.Instead = "°" + strings.ToUpper(bare)
		bad.Help = "write the degree sign, " + bad.Instead
	case name == "":
		return Unit{}, 0, malformed(0, start, "the number has no unit", quantityHelp)
	case strings.HasPrefix(name, "gal"):
		return Unit{}, 0, malformed(start, first, "there are two gallons, the American and the larger imperial one", "write US gal or imp gal")
	case name == "qt" || strings.HasPrefix(name, "quart"):
		return Unit{}, 0, malformed(start, first, "there are two quarts, the American and the larger imperial one", "write US qt or imp qt")
	case n == bare:
		return Unit{}, 0, malformed(start+len(bare), first, "the unit runs straight into other words", "write a space after the unit")
	case n != "":
		bad.Instead = n + name[len(bare):]
		bad.Help = fmt.Sprintf("the nearest unit is %q", n)
	}
	return Unit{}, 0, bad
}

const distanceHelp = "write a distance, as in 91252 mi or 146,000 km"

// scanDistance reads the distance at the start of text and returns where it ends: "91252 mi", "146,000 km".
func scanDistance(text string) (Quantity, int, *source.Malformed) {
	q, end, bad := ScanQuantity(text)
	switch {
	case bad != nil && bad.Help == quantityHelp:
		return Quantity{}, 0, malformed(bad.Start, bad.End, bad.Why, distanceHelp)
	case bad != nil:
		return Quantity{}, 0, bad
	case q.Unit.Kind != Distance:
		return Quantity{}, 0, malformed(0, end, "it is not in km or mi", distanceHelp)
	case q.Value.IsNegative():
		return Quantity{}, 0, malformed(0, end, "it is negative", "write the distance without the minus")
	}
	return q, end, nil
}

// ParseDistance reads text that is a distance and nothing else, but for spaces around it.
func ParseDistance(text string) (Quantity, *source.Malformed) {
	return whole(text, "distance", scanDistance)
}

// AddDistance returns a + b in a's unit: exactly, or from another unit rounded half up to a whole number.
func AddDistance(a, b Quantity) Quantity {
	sum := Quantity{Value: a.Value.Add(b.In(a.Unit)), Unit: a.Unit}
	if a.Unit != b.Unit {
		sum.Value = sum.Value.Round(0)
	}
	return sum
}

// ParseWithin reads limits "A..B" of like's kind. A unit at one of them holds for both.
func ParseWithin(text string, like Unit) (lo, hi Quantity, bad *source.Malformed) {
	lower, upper, found := strings.Cut(text, "..")
	if !found || strings.Contains(upper, "..") {
		return Quantity{}, Quantity{}, malformed(0, len(text), "it is not two limits", "write both with two points between them, as in 8.0..10.5 mm")
	}
	lo, hi, bad = parsePair(lower, upper, len(lower)+len(".."), like)
	if bad != nil {
		return Quantity{}, Quantity{}, bad
	}
	if lo.Compare(hi) > 0 {
		return Quantity{}, Quantity{}, malformed(0, len(text), "the first limit is over the second", "write the lower limit first")
	}
	return lo, hi, nil
}

// tolerances are the ways to write ±, longest first.
var tolerances = []string{"±", "+/-", "+-"}

// ParseSpec reads "V ±T" of like's kind and returns V - T and V + T in V's unit, rounded to 12 decimals. T may be a percentage.
func ParseSpec(text string, like Unit) (lo, hi Quantity, _ *source.Malformed) {
	var value, tolerance, sign string
	for _, sign = range tolerances {
		var found bool
		if value, tolerance, found = strings.Cut(text, sign); found {
			break
		}
	}
	from := len(value) + len(sign)
	if from > len(text) {
		return Quantity{}, Quantity{}, malformed(0, len(text), "it has no tolerance", "write the value and ±, as in 110 ±5 N·m or 12.6 ±2%")
	}
	if n, _ := number.Sign(strings.TrimLeft(tolerance, " \t")); n > 0 {
		return Quantity{}, Quantity{}, malformed(from, len(text), "the tolerance has a sign", "write it after ± without one")
	}
	read := pick.Either(strings.HasSuffix(strings.TrimRight(tolerance, " \t"), "%"), parsePercentOf, parsePair)
	v, t, bad := read(value, tolerance, from, like)
	if bad != nil {
		return Quantity{}, Quantity{}, bad
	}
	width := t.difference(v.Unit)
	return Quantity{v.Value.Sub(width), v.Unit}, Quantity{v.Value.Add(width), v.Unit}, nil
}

// parsePercentOf reads a value and a percentage, and returns the tolerance in the value's unit.
func parsePercentOf(value, percentage string, offset int, like Unit) (v, t Quantity, bad *source.Malformed) {
	if v, bad = ParseQuantityLike(value, like); bad != nil {
		return v, t, bad
	}
	if t, bad = ParseQuantityLike(percentage, percent); bad != nil {
		return v, t, bad.Shifted(offset)
	}
	if v.Unit != percent {
		t = Quantity{v.Value.Abs().Mul(t.Value).Shift(-2), v.Unit}
	}
	return v, t, nil
}

// parsePair reads two values of one kind. If only one has a unit, it is that of both.
func parsePair(first, second string, offset int, like Unit) (a, b Quantity, bad *source.Malformed) {
	readSecond := func(like Unit) (Quantity, *source.Malformed) {
		q, bad := ParseQuantityLike(second, like)
		if bad != nil {
			bad = bad.Shifted(offset)
		}
		return q, bad
	}
	if hasUnit(second) && !hasUnit(first) {
		if b, bad = readSecond(like); bad == nil {
			a, bad = ParseQuantityLike(first, b.Unit)
		}
		return a, b, bad
	}
	if a, bad = ParseQuantityLike(first, like); bad == nil {
		b, bad = readSecond(a.Unit)
	}
	return a, b, bad
}

// hasUnit reports whether anything but a number stands in text.
func hasUnit(text string) bool { return strings.Trim(text, "0123456789.,+-\u2212\u2013 \t") != "" }
