package render

import (
	"math"

	"guidecoat/journal"
	"guidecoat/journal/measure"
)

// A Gauge shows the readings of one name on a scale with the limits that hold now.
// All places are in hundredths of its width.
type Gauge struct {
	Words     string
	Band      *Band  // within limits
	Marks     []Mark // oldest first
	Low, High Tick   // the limits; their words are "" where that side is open
}

// A Band is a stretch of the scale.
type Band struct{ From, Width string }

// A Mark is one reading.
type Mark struct {
	At      string
	Newest  bool
	Outside bool
}

// gaugeMarks is how many readings, the newest, a gauge has room for.
const gaugeMarks = 60

// gauge draws a series; nil where there are no limits to draw it against.
func gauge(series *journal.ReadingSeries) *Gauge {
	newest := series.Readings[len(series.Readings)-1]
	if newest.Limits.Min == nil && newest.Limits.Max == nil {
		return nil
	}
	unit := newest.Value.Unit
	value := func(q measure.Quantity) float64 { return q.In(unit).InexactFloat64() }
	low, high := math.Inf(1), math.Inf(-1)
	reach := func(v float64) { low, high = math.Min(low, v), math.Max(high, v) }
	for _, r := range series.Readings {
		reach(value(r.Value))
	}
	for _, q := range []*measure.Quantity{newest.Limits.Min, newest.Limits.Max} {
		if q != nil {
			reach(value(*q))
		}
	}
	if newest.Limits.Min == nil && low >= 0 {
		low = 0 // an amount with only a most is read from nothing
	}
	room := (high - low) * 0.12
	if room == 0 {
		room = math.Max(math.Abs(high)*0.1, 1)
	}
	from, to := low-room, high+room
	if low == 0 {
		from = 0
	}
	at := func(v float64) float64 { return (v - from) / (to - from) * 100 }

	g := &Gauge{Words: minus(newest.Value.String())}
	begin, end := 0.0, 100.0
	if q := newest.Limits.Min; q != nil {
		begin = at(value(*q))
		g.Low = Tick{number(begin), minus(q.String())}
	}
	if q := newest.Limits.Max; q != nil {
		end = at(value(*q))
		g.High = Tick{number(end), minus(q.String())}
	}
	g.Band = &Band{number(begin), number(end - begin)}
	recent := series.Readings[max(0, len(series.Readings)-gaugeMarks):]
	for i, r := range recent {
		g.Marks = append(g.Marks, Mark{number(at(value(r.Value))), i == len(recent)-1, r.Outside != ""})
	}
	return g
}
