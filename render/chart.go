package render

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"guidecoat/journal/measure"
	"guidecoat/render/markup"
)

// Drawings of something over time: planes with their axes, and curves or bars on them.

// A Drawing is a curve or bars on a canvas of one size.
type Drawing struct {
	Class             string
	Width, Height     string
	Left, Right, Base string // where the plane begins and ends, and its floor
	Line, Area        string // paths; "" where there are bars
	Bars              []Box
	End               *Label // the last point of a curve, with its words
	X, Y              []Tick
	Rules             []Tick // budgets
}

type Tick struct{ At, Words string }

type Box struct{ X, Y, Width, Height string }

// A Label is words that end above or below a point, with their baseline at At.
type Label struct{ X, Y, At, Words string }

// A canvas is the room for a drawing, and that beside the plane for its words.
type canvas struct {
	class                    string
	width, height            float64
	left, right, top, bottom float64
	marks, months            int // about how many there is room for
}

var canvases = []canvas{{"broad", 960, 340, 76, 24, 24, 40, 5, 8}, {"narrow", 330, 250, 60, 12, 24, 36, 4, 3}}

type point struct {
	on    measure.Date
	value float64
}

// A scale is what a chart measures: its highest value, the least step, and how a mark is written.
type scale struct {
	top, least float64
	words      func(float64) string
}

// A plane is a drawing with its axes, for a curve or bars to be put on.
type plane struct {
	Drawing
	x func(measure.Date) float64
	y func(float64) float64
}

func (c canvas) plane(t *voice, first, last measure.Date, s scale) *plane {
	step := math.Max(niceStep(s.top, c.marks), s.least)
	ceiling := math.Max(step, math.Ceil(s.top/step)*step)
	days := math.Max(1, float64(first.DaysUntil(last)))
	base := c.height - c.bottom
	p := &plane{
		x: func(d measure.Date) float64 {
			return c.left + float64(first.DaysUntil(d))/days*(c.width-c.left-c.right)
		},
		y: func(v float64) float64 { return base - max(v, 0)/ceiling*(base-c.top) },
	}
	p.Drawing = Drawing{Class: c.class, Width: number(c.width), Height: number(c.height), Left: number(c.left), Right: number(c.width - c.right), Base: number(base),
		X: t.monthTicks(first, last, c.months, p.x)}
	for v := 0.0; v <= ceiling+step/2; v += step {
		p.Y = append(p.Y, Tick{number(p.y(v)), s.words(v)})
	}
	return p
}

// A rule is a value that a curve is to be seen against.
type rule struct {
	value float64
	words string
}

// stepWidth is the least that two steps of a curve are apart.
const stepWidth = 0.5

// stairs draws points: between two days nothing changes. The last words keep off curve and rules.
func (p *plane) stairs(points []point, end string, rules ...rule) {
	first, last := points[0], points[len(points)-1]
	var path strings.Builder
	fmt.Fprintf(&path, "M%s %sV%s", number(p.x(first.on)), p.Base, number(p.y(first.value)))
	drawn := p.x(first.on)
	for i, at := range points[1:] {
		x := p.x(at.on)
		if last := i+2 == len(points); !last && x-drawn < stepWidth {
			continue // nobody could see it
		}
		drawn = x
		fmt.Fprintf(&path, "H%sV%s", number(x), number(p.y(at.value)))
	}
	p.Line = path.String()
	p.Area = p.Line + "V" + p.Base + "Z"
	for _, r := range rules {
		p.Rules = append(p.Rules, Tick{number(p.y(r.value)), r.words})
	}
	p.End = &Label{number(p.x(last.on)), number(p.y(last.value)), number(p.free(points, end, rules)), end}
}

// Sizes of the words at the end of a curve, as themes print them, and how far they keep from lines.
const (
	endLetter, endRise, endFall = 13.0, 17.0, 5.0
	endGap                      = 9.0
)

// free is the baseline nearest to the last point on which its words lie on no line.
func (p *plane) free(points []point, words string, rules []rule) float64 {
	last := points[len(points)-1]
	here, floor := p.y(last.value), p.y(0)
	begin := p.x(last.on) - endLetter*float64(utf8.RuneCountInString(words))
	high, low := here, here // of the curve above or below the words
	for i := len(points) - 2; i >= 0 && p.x(points[i+1].on) > begin; i-- {
		y := p.y(points[i].value)
		high, low = min(high, y), max(low, y)
	}
	above := func(y float64) float64 { return y - endFall - endGap }
	below := func(y float64) float64 { return y + endRise + endGap }
	tries, best := []float64{above(high), below(low)}, math.Inf(1)
	for _, r := range rules {
		tries = append(tries, above(p.y(r.value)), below(p.y(r.value)))
	}
	on := func(at, y float64) bool { return at-endRise < y && y < at+endFall }
	for _, at := range tries {
		clear := (at+endFall < high || at-endRise > low) && at >= endRise/2 && at+endFall < floor
		clear = clear && !slices.ContainsFunc(rules, func(r rule) bool { return on(at, p.y(r.value)) })
		if clear && math.Abs(at-here) < math.Abs(best-here) {
			best = at
		}
	}
	if math.IsInf(best, 1) {
		return above(high)
	}
	return best
}

// weeks draws a bar for each week that begins on the day of a point.
func (p *plane) weeks(points []point) {
	for _, at := range points {
		from, to := p.x(at.on), p.x(at.on.AddDays(7))
		gap := (to - from) * 0.14
		y := p.y(at.value)
		p.Bars = append(p.Bars, Box{number(from + gap), number(y), number(max(0.5, to-from-2*gap)), number(p.y(0) - y)})
	}
}

// monthTicks marks the first days of months between two dates, about so many.
func (s *voice) monthTicks(first, last measure.Date, room int, x func(measure.Date) float64) []Tick {
	var ticks []Tick
	months, years := first.DaysUntil(last)/30, inYears(first, last)
	if years {
		months++ // broader words, so none too many
	}
	every := max(1, (months+room-1)/room)
	year, m, _ := first.Time().Date()
	for n := int(m); ; n += every { // n counts months from the January of the first year
		d := measure.NewDate(year+n/12, time.Month(n%12+1), 1)
		if d == 0 || d > last {
			return ticks
		}
		ticks = append(ticks, Tick{number(x(d)), s.ShortMonth(d, years)})
	}
}

// niceStep is the distance of the marks on an axis: 1, 2 or 5 times a power of ten.
func niceStep(top float64, marks int) float64 {
	if top <= 0 {
		return 1
	}
	rough := top / float64(marks)
	power := math.Pow(10, math.Floor(math.Log10(rough)))
	for _, f := range []float64{1, 2, 5} {
		if f*power >= rough {
			return f * power
		}
	}
	return 10 * power
}

func (d *Drawing) write(w *markup.W, words string) {
	w.Raw(`<svg class="`).Text(d.Class).Raw(`" viewBox="0 0 `).Text(d.Width).Raw(" ").Text(d.Height).Raw(`" role="img" aria-label="`).Text(words).Raw("\">\n")
	across := func(class, at string) *markup.W {
		return w.Raw(`<line class="`).Text(class).Raw(`" x1="`).Text(d.Left).Raw(`" x2="`).Text(d.Right).Raw(`" y1="`).Text(at).Raw(`" y2="`).Text(at).Raw(`"/>`)
	}
	for _, t := range d.Y {
		across("grid", t.At).Raw(`<text class="y" x="`).Text(d.Left).Raw(`" dx="-10" y="`).Text(t.At).Raw(`" dy="5" text-anchor="end">`).Text(t.Words).Raw("</text>\n")
	}
	for _, t := range d.X {
		w.Raw(`<line class="month" x1="`).Text(t.At).Raw(`" x2="`).Text(t.At).Raw(`" y1="`).Text(d.Base).Raw(`" y2="`).Text(d.Base)
		w.Raw(`"/><text class="x" x="`).Text(t.At).Raw(`" y="`).Text(d.Base).Raw(`" dy="26" text-anchor="middle">`).Text(t.Words).Raw("</text>\n")
	}
	for _, b := range d.Bars {
		w.Raw(`<rect class="week" x="`).Text(b.X).Raw(`" y="`).Text(b.Y).Raw(`" width="`).Text(b.Width).Raw(`" height="`).Text(b.Height).Raw(`"/>`)
	}
	w.Raw("\n")
	if d.Line != "" {
		w.Raw(`<path class="area" d="`).Text(d.Area).Raw(`"/><path class="line" d="`).Text(d.Line).Raw("\"/>\n")
	}
	for _, t := range d.Rules {
		across("rule", t.At).Raw(`<text class="rule" x="`).Text(d.Left).Raw(`" dx="8" y="`).Text(t.At).Raw(`" dy="-8">`).Text(t.Words).Raw("</text>\n")
	}
	if e := d.End; e != nil {
		w.Raw(`<circle class="end" cx="`).Text(e.X).Raw(`" cy="`).Text(e.Y).Raw(`" r="5"/><text class="end" x="`).Text(e.X).Raw(`" dx="2" y="`).Text(e.At).Raw(`" text-anchor="end">`).Text(e.Words).Raw("</text>\n")
	}
	w.Raw("</svg>\n")
}
