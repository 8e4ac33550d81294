package render

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"guidecoat/journal/measure"
	"guidecoat/journal/view"
	"guidecoat/render/markup"

	"github.com/shopspring/decimal"
)

// A Chart is something over time: its words, its drawings and its table.
type Chart struct {
	Kind     string // for the theme: running, open, hours
	Words    string
	Note     string    // what the drawing leaves out; "" for nothing
	Drawings []Drawing // the same for broad and for narrow pages
	Table    string    // what the table is called
	Head     [2]string
	Rows     []ChartRow
}

// A ChartRow is a row of the table that says the same as the chart.
type ChartRow struct{ When, Value string }

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

func (c canvas) plane(t *site, first, last measure.Date, s scale) *plane {
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
func (p *plane) weeks(points []point, base float64) {
	for _, at := range points {
		from, to := p.x(at.on), p.x(at.on.AddDays(7))
		gap := (to - from) * 0.14
		y := p.y(at.value)
		p.Bars = append(p.Bars, Box{number(from + gap), number(y), number(max(0.5, to-from-2*gap)), number(base - y)})
	}
}

// runningChart draws what had been spent day by day; nil where there are no two days.
func runningChart(s *site) *Chart {
	totals := s.v.Money.Running()
	if len(totals) < 2 {
		return nil
	}
	first, last := totals[0], totals[len(totals)-1]
	c := &Chart{Kind: "running", Table: s.Say("Running total as a table"), Head: [2]string{s.Say("At the end of"), s.Say("net")},
		Words: s.Say("Running total from %s on %s to %s on %s.", s.sum(first.Sum), first.Date, s.sum(last.Sum), last.Date)}
	if rest := s.v.Money.NotListed(); !rest.IsZero() {
		c.Note = s.Say("Lines that the builder keeps private come to %s and are not in the curve.", s.sum(rest))
	}
	points, top := make([]point, len(totals)), decimal.Zero
	for i, t := range totals {
		points[i], top = point{t.Date, t.Sum.InexactFloat64()}, decimal.Max(top, t.Sum)
		if i+1 == len(totals) || monthID(totals[i+1].Date) != monthID(t.Date) {
			c.Rows = append(c.Rows, ChartRow{s.Month(t.Date), s.sum(t.Sum)})
		}
	}
	var rules []rule
	if budget, ok := s.v.Money.Budget(); ok {
		top = decimal.Max(top, budget[1])
		rules = []rule{{budget[1].InexactFloat64(), s.Say("likely budget %s", s.round(budget[1]))}}
	}
	for _, room := range canvases {
		p := room.plane(s, first.Date, last.Date, scale{top.InexactFloat64(), 0, func(v float64) string { return s.round(decimal.NewFromFloat(v)) }})
		p.stairs(points, s.round(last.Sum), rules...)
		c.Drawings = append(c.Drawings, p.Drawing)
	}
	return c
}

// rowsByDay is how many days a table of a chart tells of. Of more it tells their months.
const rowsByDay = 200

// openChart draws how many snags were open day by day; nil where there are no two days.
func openChart(s *site) *Chart {
	counts := s.v.OpenSnags()
	if len(counts) < 2 {
		return nil
	}
	first, last, most := counts[0], counts[len(counts)-1], counts[0]
	c := &Chart{Kind: "open", Table: s.Say("Open snags as a table"), Head: [2]string{s.Say("At the end of"), s.Word("open")}}
	points := make([]point, len(counts))
	for i, n := range counts {
		points[i] = point{n.Date, float64(n.Open)}
		if len(counts) <= rowsByDay || i+1 == len(counts) || monthID(counts[i+1].Date) != monthID(n.Date) {
			c.Rows = append(c.Rows, ChartRow{s.Day(n.Date), s.Grouped(n.Open)})
		}
		if n.Open > most.Open {
			most = n
		}
	}
	c.Words = s.Say("Open snags from %d on %s to %d on %s; the most, %d, were open on %s.", first.Open, first.Date, last.Open, last.Date, most.Open, most.Date)
	if n := s.v.UnseenOpen + s.v.UnseenCleared; n > 0 {
		c.Note = s.Say("%d snags not shown here, open or cleared, and not in the curve.", n)
	}
	if told := tallyOf(s).told; told > 0 {
		c.Note = strings.TrimSpace(s.Say("%d of those still open are told to the buyer instead of mended.", told) + " " + c.Note)
	}
	for _, room := range canvases {
		p := room.plane(s, first.Date, last.Date, scale{float64(most.Open), 1, func(v float64) string { return s.Grouped(int(v)) }})
		p.stairs(points, s.Say("%d open", last.Open))
		c.Drawings = append(c.Drawings, p.Drawing)
	}
	return c
}

// hoursChart draws the hours worked week by week; nil where there are no two weeks.
func hoursChart(s *site, from, to measure.Date) *Chart {
	weeks := slices.DeleteFunc(s.v.Weeks(), func(w view.WeekOfWork) bool { return w.Monday.AddDays(6) < from || w.Monday > to })
	if len(weeks) < 2 {
		return nil
	}
	first, last, most := weeks[0], weeks[len(weeks)-1], weeks[0]
	c := &Chart{Kind: "hours", Table: s.Say("Hours by week as a table"), Head: [2]string{s.Say("Week from Monday"), s.Say("person-hours")}}
	points, sum := make([]point, len(weeks)), measure.Minutes(0)
	for i, w := range weeks {
		points[i] = point{w.Monday, float64(w.Minutes) / 60}
		c.Rows = append(c.Rows, ChartRow{s.Day(w.Monday), s.Minutes(w.Minutes)})
		sum += w.Minutes
		if w.Minutes > most.Minutes {
			most = w
		}
	}
	c.Words = s.Say("%[2]s of person time in %[1]d weeks; the most, %[3]s, in the week from %[4]s.", len(weeks), sum, most.Minutes, most.Monday)
	if rest := s.v.NotInWeeks(); rest > 0 {
		c.Note = s.Say("%s of sessions that are not shown are not in the bars.", rest)
	}
	for _, room := range canvases {
		p := room.plane(s, first.Monday, last.Monday.AddDays(7), scale{float64(most.Minutes) / 60, 1, func(v float64) string { return s.Say("%d h", int(v)) }})
		p.weeks(points, room.height-room.bottom)
		c.Drawings = append(c.Drawings, p.Drawing)
	}
	return c
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

func (p *leaf) chart(c *Chart, section *markup.Wrap) {
	if c == nil {
		return
	}
	p.Open(section).Raw(`<figure class="chart `).Text(c.Kind).Raw("\">\n")
	for _, d := range c.Drawings {
		d.write(p.W, c.Words)
	}
	p.Raw("<figcaption>").Text(c.Words).With(" ", c.Note, "").Raw(`</figcaption>
</figure>
<details><summary>`).Text(c.Table).Raw(`</summary>
<table class="lines"><thead><tr><th scope="col">`).Text(c.Head[0]).Raw(`</th><th scope="col" class="sum">`).Text(c.Head[1]).Raw("</th></tr></thead><tbody>\n")
	for _, r := range c.Rows {
		p.Raw(`<tr><th scope="row">`).Text(r.When).Raw(`</th><td class="sum">`).Text(r.Value).Raw("</td></tr>\n")
	}
	p.Raw("</tbody></table></details>").Close(section)
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
