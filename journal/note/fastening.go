package note

import (
	"strings"

	"guidecoat/journal/measure"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// A Fastening is how a fastener is tightened: to a torque, then by angles one after the other.
type Fastening struct {
	Torque measure.Quantity
	Angles []measure.Quantity
}

func (f Fastening) String() string {
	text := f.Torque.String()
	for _, a := range f.Angles {
		text += " + " + a.String()
	}
	return text
}

// readFastening reads "60 Nm + 90°" at the start of a text; what follows is a remark.
func readFastening(_ context, s string) (any, int, *source.Malformed) {
	var f Fastening
	for at := 0; ; {
		stop := len(s)
		if plus := strings.IndexByte(s[at:], '+'); plus >= 0 {
			stop = at + plus
		}
		start, _ := trim(s, at, len(s))
		q, end, bad := measure.ScanQuantity(s[start:max(start, stop)])
		if bad != nil {
			bad.Start, bad.End = start+bad.Start, start+bad.End
			return nil, 0, bad
		}
		end += start
		if why, help := f.add(q); why != "" {
			return nil, 0, &source.Malformed{Start: start, End: end, Why: why, Help: help}
		}
		if stop == len(s) || strings.TrimSpace(s[end:stop]) != "" {
			return f, end, nil
		}
		at = stop + 1
	}
}

// add takes in the next step, or says what is wrong with it.
func (f *Fastening) add(q measure.Quantity) (why, help string) {
	const order = "Write the torque, then the angles, such as 60 Nm + 90°."
	first := f.Torque.Unit.Symbol == ""
	switch kind := q.Unit.Kind; {
	case !q.Value.IsPositive():
		return "it is not more than zero", order
	case first && kind == measure.Angle:
		return "an angle follows a torque, and none is written before it", order
	case !first && kind == measure.Torque:
		return "only angles follow the torque", "Write the torque that is reached last, then the angles; earlier steps are words."
	case first && kind != measure.Torque:
		return "it measures " + string(kind) + ", not torque", order
	case !first && kind != measure.Angle:
		return "it measures " + string(kind) + ", not an angle", order
	case first:
		f.Torque = q
	default:
		f.Angles = append(f.Angles, q)
	}
	return "", ""
}

type Tolerance struct {
	Limits                  // of the torque
	Percent decimal.Decimal // of each angle
}

func (t Tolerance) String() string { return t.Min.Value.String() + " to " + t.Max.String() }

// usualPercent is the tolerance where none is written: common practice, no source.
// ISO 6789-1:2017 lets a wrench be off by 4 % over 10 N·m and by 6 % up to that (from
// memory), so a finer one could not be held.
const usualPercent = "5%"

func ToleranceOf(f Fastening) Tolerance {
	t, _, _ := readTolerance(context{head: f}, usualPercent)
	return t.(Tolerance)
}

func readTolerance(c context, s string) (any, int, *source.Malformed) {
	f, ok := c.head.(Fastening)
	if !ok {
		return nil, len(s), nil
	}
	lo, hi, bad := measure.ParseSpec(f.Torque.Value.String()+" "+f.Torque.Unit.Symbol+" ±"+s, f.Torque.Unit)
	if bad != nil {
		bad.Start, bad.End = 0, len(s)
		return nil, 0, bad
	}
	t := Tolerance{Limits: Limits{Min: &lo, Max: &hi}}
	share := pick.Either(strings.HasSuffix(s, "%"), s, usualPercent)
	t.Percent, _ = decimal.NewFromString(strings.Trim(share, "% "))
	return t, len(s), nil
}
