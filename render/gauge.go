package render

import (
	"math"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
	"guidecoat/render/markup"

	"github.com/shopspring/decimal"
)

// A Gauge shows the readings of one name against the limits, in hundredths of its width.
type Gauge struct {
	Band   *Band        // within limits
	Limits []string     // where they are
	Marks  []Mark       // oldest first
	Words  []GaugeWords // of the newest reading, the limits and the ends of the scale
}

type GaugeWords struct {
	Class      string // newest, limit, end
	At, Anchor string
	Words      string
}

type Band struct{ From, Width string }

type Mark struct {
	At      string
	Newest  bool
	Outside bool
}

// gaugeMarks is how many readings, the newest, a gauge has room for.
const gaugeMarks = 60

// gaugeSteps is about how many steps a scale has; its ends are whole ones.
const gaugeSteps = 8

// gauge draws a series on a scale with room for its twins; nil without limits.
func (s *voice) gauge(series *view.ReadingSeries, twins ...*view.ReadingSeries) *Gauge {
	newest := series.Newest()
	if newest.Limits.Min == nil && newest.Limits.Max == nil {
		return nil
	}
	unit := newest.Value.Unit
	value := func(q measure.Quantity) float64 { return q.In(unit).InexactFloat64() }
	low, high := math.Inf(1), math.Inf(-1)
	reach := func(v float64) { low, high = math.Min(low, v), math.Max(high, v) }
	for _, x := range append(twins, series) {
		for _, r := range x.Readings {
			reach(value(r.Value))
		}
		for _, q := range []*measure.Quantity{x.Newest().Limits.Min, x.Newest().Limits.Max} {
			if q != nil {
				reach(value(*q))
			}
		}
	}
	if newest.Limits.Min == nil && low >= 0 {
		low = 0 // an amount with only a most is read from nothing
	}
	room := (high - low) * 0.25 // for the words of the ends
	if room == 0 {
		room = math.Max(math.Abs(high)*0.1, 1)
	}
	step := niceStep(high-low+2*room, gaugeSteps) // the scale ends on round figures
	from, to := math.Floor((low-room)/step)*step, math.Ceil((high+room)/step)*step
	if low == 0 {
		from = 0
	}
	if math.IsInf(to-from, 0) || math.IsNaN(to-from) { // figures of hundreds of digits
		return nil
	}
	at := func(v float64) float64 { return (v - from) / (to - from) * 100 }

	g, begin, end := &Gauge{}, 0.0, 100.0
	if q := newest.Limits.Min; q != nil {
		begin = at(value(*q))
		g.Limits = append(g.Limits, number(begin))
	}
	if q := newest.Limits.Max; q != nil {
		end = at(value(*q))
		g.Limits = append(g.Limits, number(end))
	}
	g.Band = &Band{number(begin), number(end - begin)}
	recent := series.Readings[max(0, len(series.Readings)-gaugeMarks):]
	for i, r := range recent {
		g.Marks = append(g.Marks, Mark{number(at(value(r.Value))), i == len(recent)-1, r.Outside.Some()})
	}
	here := at(value(newest.Value))
	g.say("newest", anchorAt(here), here, s.quantity(newest.Value))
	g.sayScale(s, newest.Limits, begin, end, [2]string{s.inSteps(from, step, unit), s.inSteps(to, step, unit)})
	return g
}

// Hundredths of a narrow scale that words take: one figure, and two of them joined.
const (
	figureWidth = 14.0
	jointWidth  = 38.0
)

// sayScale writes the limits below the scale, and the ends where those leave room.
func (g *Gauge) sayScale(s *voice, l note.Limits, begin, end float64, ends [2]string) {
	first, last := math.Min(begin, 100), math.Max(end, 0) // where the words of limits begin and end
	switch {
	case l.Min != nil && l.Max != nil && end-begin < 50: // too close for two figures
		middle := (begin + end) / 2
		first, last = middle-jointWidth/2, middle+jointWidth/2
		switch {
		case first < 0:
			g.say("limit", "start", 0, s.limits(l))
		case last > 100:
			g.say("limit", "end", 100, s.limits(l))
		default:
			g.say("limit", "middle", middle, s.limits(l))
		}
	case l.Min != nil && l.Max != nil:
		g.say("limit", "start", begin, s.quantity(*l.Min))
		g.say("limit", "end", end, s.quantity(*l.Max))
	case l.Min != nil:
		first, last = g.sayLimit(begin, s.Say("min %s", *l.Min))
	default:
		first, last = g.sayLimit(end, s.Say("max %s", *l.Max))
	}
	if first > figureWidth {
		g.say("end", "start", 0, ends[0])
	}
	if last < 100-figureWidth {
		g.say("end", "end", 100, ends[1])
	}
}

// sayLimit writes the only limit on the side of it that has more room.
func (g *Gauge) sayLimit(at float64, words string) (first, last float64) {
	if at < 50 {
		g.say("limit", "start", at, words)
		return at, at + 2*figureWidth
	}
	g.say("limit", "end", at, words)
	return at - 2*figureWidth, at
}

func (g *Gauge) say(class, anchor string, at float64, words string) {
	g.Words = append(g.Words, GaugeWords{class, number(at), anchor, words})
}

// anchorAt keeps words that stand above a place on the drawing.
func anchorAt(at float64) string {
	switch {
	case at < figureWidth/2:
		return "start"
	case at > 100-figureWidth/2:
		return "end"
	}
	return "middle"
}

// inSteps writes a figure of a scale that has such steps.
func (s *voice) inSteps(v, step float64, unit measure.Unit) string {
	decimals := max(0, int32(-math.Floor(math.Log10(step))))
	return s.quantity(measure.Quantity{Value: decimal.NewFromFloat(v).Round(decimals), Unit: unit})
}

func (g *Gauge) write(w *markup.W) {
	if g == nil {
		return
	}
	w.Raw(`<div class="gauge"><svg aria-hidden="true"><rect class="scale" x="0" y="28" width="100%" height="10"/><rect class="band" x="`).Text(g.Band.From).Raw(`%" y="28" width="`).Text(g.Band.Width).Raw(`%" height="10"/>`)
	for _, at := range g.Limits {
		w.Raw(`<line class="limit" x1="`).Text(at).Raw(`%" x2="`).Text(at).Raw(`%" y1="24" y2="46"/>`)
	}
	for _, m := range g.Marks {
		class, from, to := "older", 24, 42
		if m.Newest {
			class, from, to = "newest", 20, 46
		}
		w.Raw(`<line class="`).Text(class).If(m.Outside, " outside").Raw(`" x1="`).Text(m.At).Raw(`%" x2="`).Text(m.At).Raw(`%" y1="`).Int(from).Raw(`" y2="`).Int(to).Raw(`"/>`)
	}
	for _, x := range g.Words {
		y := pick.Either(x.Class == "newest", 14, 62)
		w.Raw(`<text class="`).Text(x.Class).Raw(`" x="`).Text(x.At).Raw(`%" y="`).Int(y).Raw(`" text-anchor="`).Text(x.Anchor).Raw(`">`).Text(x.Words).Raw("</text>")
	}
	w.Raw("</svg></div>")
}
