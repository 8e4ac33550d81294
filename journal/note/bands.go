package note

import (
	"cmp"
	"regexp"
	"strings"

	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/source"
	"guidecoat/journal/speech"

	"github.com/shopspring/decimal"
)

// A Band is one step of a fee over the hammer price.
type Band struct {
	// Fixed is the fee as a sum, or Percent as a part of the whole hammer price; the other is zero.
	Fixed, Percent decimal.Decimal
	// UpTo is the highest hammer price of the band, inclusive. Open says that it has none.
	UpTo decimal.Decimal
	Open bool
}

const bandHelp = "Write the bands in rising order, such as \"75 to 500, 130 to 1000, 12% above\", or a single fee."

// taxAtEnd is tax that comes on top, in other words than the clause's.
var taxAtEnd = regexp.MustCompile(`(?i)(?:\+ ?|(?:plus|ex\.?|excl\.?|excluding|without) )(?:vat|tax)(?: [0-9.]+ ?%)?$`)

// readBands reads `FEE to LIMIT, FEE to LIMIT, FEE above`, or a FEE. A comma parts two only before a space: 1,250.
func readBands(c context, s string) (any, int, *source.Malformed) {
	if at := taxAtEnd.FindStringIndex(s); at != nil {
		return nil, len(s), &source.Malformed{Start: at[0], End: at[1], Why: "tax is added by a clause", Help: "Write \"; plus vat\" instead."}
	}
	home := orAnyCurrency(c.home)
	var list []Band
	at := 0
	for piece := range strings.SplitSeq(s, ", ") {
		start, end := trim(s, at, at+len(piece))
		at += len(piece) + len(", ")
		b, bad := readBand(s[start:end], home)
		if bad != nil {
			return nil, len(s), &source.Malformed{Start: start + bad.Start, End: start + bad.End, Why: bad.Why, Help: bandHelp}
		}
		why, above := "", strings.HasSuffix(s[start:end], " above")
		switch {
		case len(list) > 0 && list[len(list)-1].Open:
			why = "the band before it has no upper end, so this one can never apply"
		case len(list) > 0 && !b.Open && !b.UpTo.GreaterThan(list[len(list)-1].UpTo):
			why = "the bands do not rise"
		case len(list) == 0 && b.Open && above:
			why = "\"above\" needs a band below it"
		case len(list) > 0 && b.Open && !above:
			why = "it says neither up to which price it holds nor \"above\""
		}
		if why != "" {
			return nil, len(s), &source.Malformed{Start: start, End: end, Why: why, Help: bandHelp}
		}
		list = append(list, b)
	}
	if !list[len(list)-1].Open {
		return nil, len(s), &source.Malformed{End: len(s), Why: "the last band, which ends in \"above\", is missing", Help: bandHelp}
	}
	return list, len(s), nil
}

func readBand(s string, home money.Currency) (Band, *source.Malformed) {
	var b Band
	fee, limit, hasLimit := strings.Cut(s, " to ")
	switch {
	case hasLimit:
		var bad *source.Malformed
		start, end := trim(s, len(fee)+len(" to "), len(s))
		if b.UpTo, bad = money.ParsePlain(strings.TrimSpace(limit), home); bad != nil {
			return b, &source.Malformed{Start: start, End: end, Why: bad.Why}
		}
	default:
		fee, b.Open = strings.TrimSuffix(s, " above"), true
	}
	fee = strings.TrimSpace(fee)
	if sign := strings.IndexByte(fee, '%') + 1; sign > 0 && sign < len(fee) {
		start, end := trim(fee, sign, len(fee))
		return b, &source.Malformed{Start: start, End: end, Why: "a fee ends at its sign %"}
	}
	var bad *source.Malformed
	if strings.HasSuffix(fee, "%") {
		b.Percent, bad = money.ParsePercent(fee)
	} else {
		b.Fixed, bad = money.ParsePlain(fee, home)
	}
	return b, bad
}

// A Stretch is how far a vehicle must have been driven: at least, and at most where it says so.
type Stretch struct {
	Least measure.Quantity
	Most  *measure.Quantity
}

func (s Stretch) String() string {
	if s.Most == nil {
		return "at least " + s.Least.String()
	}
	return s.Least.Value.String() + " to " + s.Most.String()
}

// ParseStretch reads "50 km" or "40 to 80 km"; a unit at the second holds for both.
func ParseStretch(text string) (s Stretch, bad *source.Malformed) {
	least, most, both := strings.Cut(text, " to ")
	if !both {
		s.Least, bad = measure.ParseDistance(text)
		return s, bad
	}
	far, bad := measure.ParseDistance(most)
	if bad != nil {
		bad.Start, bad.End = bad.Start+len(least)+len(" to "), bad.End+len(least)+len(" to ")
		return s, bad
	}
	if s.Least, bad = measure.ParseQuantityLike(least, far.Unit); bad != nil {
		return s, bad
	}
	if s.Least.Compare(far) > 0 || s.Least.Value.IsNegative() {
		return s, &source.Malformed{End: len(text), Why: "the first distance is not the shorter one", Help: "Write the shorter one first, such as 40 to 80 km."}
	}
	s.Least.Value, s.Least.Unit = s.Least.In(far.Unit), far.Unit
	s.Most = &far
	return s, nil
}

// Asks are the checks that a line says its work asks for: none, or exactly these.
type Asks []string

// None tells whether it says that no check is needed.
func (a Asks) None() bool { return a != nil && len(a) == 0 }

func parseAsks(text string) (Asks, *source.Malformed) {
	if text == "nothing" {
		return Asks{}, nil
	}
	var list Asks
	at := 0
	for part := range strings.SplitSeq(text, ",") {
		start, end := trim(text, at, at+len(part))
		at += len(part) + 1
		if word := text[start:end]; !IsID(word) || word == "nothing" {
			bad := &source.Malformed{Start: start, End: end, Why: "a check is lower-case words joined by hyphens", Help: "Write \"asks for nothing\", or names such as \"asks for brake-test, alignment\"."}
			if better := SuggestID(word); better != "" && word != "nothing" {
				bad.Help = "Write \"" + better + "\"."
			}
			return nil, bad
		}
		list = append(list, text[start:end])
	}
	return list, nil
}

// Limits are what a reading may be; a nil side is open.
type Limits struct{ Min, Max *measure.Quantity }

// After are the limits that hold after a line: its own, and for a side that it does not name those before it.
func (l Limits) After(before Limits) Limits {
	return Limits{Min: cmp.Or(l.Min, before.Min), Max: cmp.Or(l.Max, before.Max)}
}

// Outside says how a value is outside limits, nothing where it is not. Limits are inclusive.
func (l Limits) Outside(v measure.Quantity) speech.Phrase {
	switch {
	case l.Min != nil && v.Compare(*l.Min) < 0:
		if by, ok := beyond(l.Min.In(v.Unit).Sub(v.Value), v, l.Min); ok {
			return speech.Of("%s under the %s minimum", by, *l.Min)
		}
		return speech.Of("just under the %s minimum", *l.Min)
	case l.Max != nil && v.Compare(*l.Max) > 0:
		if by, ok := beyond(v.Value.Sub(l.Max.In(v.Unit)), v, l.Max); ok {
			return speech.Of("%s over the %s limit", by, *l.Max)
		}
		return speech.Of("just over the %s limit", *l.Max)
	}
	return speech.Phrase{}
}

// beyond is by how much a value is beyond a limit, in its unit and with no more decimals; ok is false for nothing.
func beyond(by decimal.Decimal, v measure.Quantity, limit *measure.Quantity) (q measure.Quantity, ok bool) {
	if limit.Unit != v.Unit {
		by = by.Round(max(0, -v.Value.Exponent()))
	}
	return measure.Quantity{Value: by, Unit: v.Unit}, !by.IsZero()
}

// tenth is how near to a limit calls for a remark.
var tenth = decimal.New(1, -1)

// Near says how near a value is to one of its limits: within a tenth of the limit, or of what lies between two.
func (l Limits) Near(v measure.Quantity) speech.Phrase {
	if l.Outside(v).Some() {
		return speech.Phrase{}
	}
	room := func(limit *measure.Quantity) decimal.Decimal {
		if l.Min != nil && l.Max != nil {
			return l.Max.In(v.Unit).Sub(l.Min.In(v.Unit)).Mul(tenth)
		}
		return limit.In(v.Unit).Abs().Mul(tenth)
	}
	near := func(limit *measure.Quantity) bool {
		return limit != nil && v.Value.Sub(limit.In(v.Unit)).Abs().LessThanOrEqual(room(limit))
	}
	switch {
	case near(l.Min) && near(l.Max):
		return speech.Phrase{} // nothing lies between the two
	case near(l.Min):
		return speech.Of("near the minimum of %s", *l.Min)
	case near(l.Max):
		return speech.Of("near the limit of %s", *l.Max)
	}
	return speech.Phrase{}
}
