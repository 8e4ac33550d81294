package note

import (
	"guidecoat/journal/measure"

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

// Outside says in words how a value is outside limits, "" where it is not. Limits
// are inclusive.
func (l Limits) Outside(v measure.Quantity) string {
	switch {
	case l.Min != nil && v.Compare(*l.Min) < 0:
		return beyond(l.Min.In(v.Unit).Sub(v.Value), v, "under", l.Min) + " minimum"
	case l.Max != nil && v.Compare(*l.Max) > 0:
		return beyond(v.Value.Sub(l.Max.In(v.Unit)), v, "over", l.Max) + " limit"
	}
	return ""
}

// beyond says by how much a value is beyond a limit, in the value's unit: "8 mm over the
// 3 mm". Of a limit in another unit no more decimals are told than the value has, unless
// nothing would be left.
func beyond(by decimal.Decimal, v measure.Quantity, how string, limit *measure.Quantity) string {
	if rounded := by.Round(max(0, -v.Value.Exponent())); limit.Unit != v.Unit {
		if rounded.IsZero() {
			return "just " + how + " the " + limit.String()
		}
		by = rounded
	}
	return measure.Quantity{Value: by, Unit: v.Unit}.String() + " " + how + " the " + limit.String()
}

// tenth is how near to a limit calls for a remark.
var tenth = decimal.New(1, -1)

// Near says in words how near a value within its limits is to one of them: within a
// tenth of the limit or, where it has two, within a tenth of what lies between
// them, so that a value in the middle is never near. It is "" where it is not.
func (l Limits) Near(v measure.Quantity) string {
	if l.Outside(v) != "" {
		return ""
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
		return "" // nothing lies between the two
	case near(l.Min):
		return "near the minimum of " + l.Min.String()
	case near(l.Max):
		return "near the limit of " + l.Max.String()
	}
	return ""
}
