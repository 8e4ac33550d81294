package measure

import (
	"strings"

	"guidecoat/journal/measure/number"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"
)

// ParseWithin reads limits "A..B" of like's kind. A unit written at one of them
// holds for both; without one they are in like.
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

// ParseSpec reads "V ±T" of like's kind and returns V - T and V + T in V's unit.
// T has a unit of the kind, or V's without one, or is a percentage of V; a
// percentage of a percentage is so many points. A T converted from another unit
// is rounded to 12 decimals.
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

// parsePercentOf reads a value and a percentage, standing at offset, and returns
// the tolerance in the value's unit.
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

// parsePair reads two values of one kind, the second standing at offset. If
// only one has a unit, it is that of both.
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
