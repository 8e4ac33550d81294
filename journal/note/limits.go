package note

import (
	"guidecoat/journal/measure"
	"guidecoat/journal/speech"

	"github.com/shopspring/decimal"
)

// Limits are what a reading may be; a nil side is open.
type Limits struct{ Min, Max *measure.Quantity }

// After are the limits that hold after a line: its own, and those before it where it
// names none for that side.
func (l Limits) After(before Limits) Limits {
	if l.Min == nil {
		l.Min = before.Min
	}
	if l.Max == nil {
		l.Max = before.Max
	}
	return l
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

// beyond is by how much a value is beyond a limit, in the value's unit. Of a limit in
// another unit no more decimals are told than the value has; ok is false where nothing is left.
func beyond(by decimal.Decimal, v measure.Quantity, limit *measure.Quantity) (q measure.Quantity, ok bool) {
	if limit.Unit != v.Unit {
		by = by.Round(max(0, -v.Value.Exponent()))
	}
	return measure.Quantity{Value: by, Unit: v.Unit}, !by.IsZero()
}

// tenth is how near to a limit calls for a remark.
var tenth = decimal.New(1, -1)

// Near says how near a value within its limits is to one of them: within a
// tenth of the limit or, where it has two, within a tenth of what lies between
// them, so that a value in the middle is never near. It says nothing where it is not.
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
