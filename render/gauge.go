package render

import (
	"fmt"
	"math"

	"github.com/shopspring/decimal"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
	"guidecoat/render/markup"
)

// Instruments, worked out to the last coordinate. Each has its words beside it.

// A Gauge shows the readings of one name against the limits, in hundredths of its width.
type Gauge struct {
	From, Width string       // of the band within limits
	Limits      []string     // where they are
	Marks       []Mark       // oldest first
	Words       []GaugeWords // of the newest reading, the limits and the ends of the scale
}

type GaugeWords struct {
	Class      string // newest, limit, end
	At, Anchor string
	Words      string
}

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
	g.From, g.Width = number(begin), number(end-begin)
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
	w.Raw(`<div class="gauge"><svg aria-hidden="true"><rect class="scale" x="0" y="28" width="100%" height="10"/><rect class="band" x="`).Text(g.From).Raw(`%" y="28" width="`).Text(g.Width).Raw(`%" height="10"/>`)
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

// Drawings are worked out to the last coordinate. Each has its words beside it.

// A Dial shows how much of the whole is done, like a gauge on a dashboard.
type Dial struct {
	Done, All string
	Long      bool // the figures need smaller letters
	Words     string
	Track     string // the arc as a path
	Arc       string // the part of it that is done; "" where nothing is
	X, Y      string // the tip of the needle
	Ticks     []DialTick
}

type DialTick struct{ X1, Y1, X2, Y2 string }

const (
	dialRadius = 84.0
	dialX      = 100.0
	dialY      = 100.0
	dialSweep  = 240.0 // degrees from empty to full, open at the bottom
)

// onDial returns the point of the dial at a fraction of its sweep.
func onDial(fraction, radius float64) (x, y float64) {
	a := (-dialSweep/2 + fraction*dialSweep - 90) * math.Pi / 180
	return dialX + radius*math.Cos(a), dialY + radius*math.Sin(a)
}

func arc(from, to float64) string {
	x0, y0 := onDial(from, dialRadius)
	x1, y1 := onDial(to, dialRadius)
	large := pick.Either((to-from)*dialSweep > 180, 1, 0)
	return fmt.Sprintf("M%s %sA%s %s 0 %d 1 %s %s", number(x0), number(y0), number(dialRadius), number(dialRadius), large, number(x1), number(y1))
}

func (s *voice) makeDial(done, all int) *Dial {
	if all == 0 {
		return nil
	}
	share := float64(done) / float64(all)
	d := &Dial{Done: s.Grouped(done), All: s.Grouped(all), Words: s.Say("%[2]d of %[1]d snags cleared", all, done)}
	d.Long = len(d.Done)+len(d.All) > len("999999")
	if done < all {
		d.Track = arc(share, 1)
	}
	if done > 0 {
		d.Arc = arc(0, share)
	}
	x, y := onDial(share, dialRadius-16)
	d.X, d.Y = number(x), number(y)
	const ticks = 24
	for i := range ticks + 1 {
		inner := dialRadius - 13
		if i%6 == 0 {
			inner -= 5
		}
		x1, y1 := onDial(float64(i)/ticks, inner)
		x2, y2 := onDial(float64(i)/ticks, dialRadius-9)
		d.Ticks = append(d.Ticks, DialTick{number(x1), number(y1), number(x2), number(y2)})
	}
	return d
}

func (d *Dial) write(w *markup.W) {
	if d == nil {
		return
	}
	w.Raw(`<div class="instrument"><svg class="dial" viewBox="0 0 200 160" role="img" aria-label="`).Text(d.Words).Raw("\">\n")
	w.With(`<path class="track" d="`, d.Track, `"/>`).Raw("\n").With(`<path class="arc" d="`, d.Arc, `"/>`).Raw("\n")
	for _, t := range d.Ticks {
		w.Raw(`<line class="tick" x1="`).Text(t.X1).Raw(`" y1="`).Text(t.Y1).Raw(`" x2="`).Text(t.X2).Raw(`" y2="`).Text(t.Y2).Raw(`"/>`)
	}
	w.Raw(`
<line class="needle" x1="100" y1="100" x2="`).Text(d.X).Raw(`" y2="`).Text(d.Y).Raw(`"/><circle class="hub" cx="100" cy="100" r="6"/>
<text`).If(d.Long, ` class="long"`).Raw(` x="100" y="140" text-anchor="middle">`).Text(d.Done).Raw(" / ").Text(d.All).Raw(`</text>
<text class="of" x="100" y="156" text-anchor="middle">{snags cleared}</text>
</svg></div>`)
}
