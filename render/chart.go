package render

import (
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"guidecoat/journal"
	"guidecoat/journal/measure"
)

// A Chart is the running total by day: its words, its drawings and its table.
type Chart struct {
	Words    string
	Drawings []Drawing // the same for broad and for narrow pages
	Rows     []ChartRow
}

// A Drawing is the curve on a canvas of one size.
type Drawing struct {
	Class                string
	Width, Height        string
	Left, Right, Base    string // where the curve begins and ends, and its floor
	Line, Area           string // paths
	EndX, EndY, EndWords string
	X, Y                 []Tick
	Rules                []Tick // budgets
}

// A Tick is a mark on an axis.
type Tick struct{ At, Words string }

// A ChartRow is a row of the table that says the same as the chart.
type ChartRow struct {
	Month string
	Sum   string // at its end
}

// A canvas is the room for a drawing, and that beside the curve for its words.
type canvas struct {
	class                    string
	width, height            float64
	left, right, top, bottom float64
	marks, months            int // about how many there is room for
}

var canvases = []canvas{
	{"broad", 960, 360, 76, 24, 20, 40, 5, 8},
	{"narrow", 380, 280, 60, 12, 20, 36, 4, 4},
}

// runningChart draws what had been spent day by day; nil where there are no two days.
func (s *site) runningChart() *Chart {
	points := s.v.Money.Running()
	if len(points) < 2 {
		return nil
	}
	first, last := points[0], points[len(points)-1]
	c := &Chart{Words: fmt.Sprintf("Running total from %s on %s to %s on %s.", s.sum(first.Sum), day(first.Date), s.sum(last.Sum), day(last.Date))}
	for _, room := range canvases {
		c.Drawings = append(c.Drawings, s.draw(points, room))
	}
	for i, p := range points {
		if i+1 == len(points) || monthID(points[i+1].Date) != monthID(p.Date) {
			c.Rows = append(c.Rows, ChartRow{month(p.Date), s.sum(p.Sum)})
		}
	}
	return c
}

func (s *site) draw(points []journal.RunningTotal, c canvas) Drawing {
	first, last := points[0], points[len(points)-1]
	top := decimal.Zero
	for _, p := range points {
		top = decimal.Max(top, p.Sum)
	}
	budget, hasBudget := s.v.Money.Budget()
	if hasBudget {
		top = decimal.Max(top, budget[1])
	}
	step := niceStep(top.InexactFloat64(), c.marks)
	ceiling := max(step, math.Ceil(top.InexactFloat64()/step)*step)
	days := max(1, float64(first.Date.DaysUntil(last.Date)))
	base := c.height - c.bottom
	x := func(d measure.Date) float64 {
		return c.left + float64(first.Date.DaysUntil(d))/days*(c.width-c.left-c.right)
	}
	y := func(v decimal.Decimal) float64 {
		return base - max(v.InexactFloat64(), 0)/ceiling*(base-c.top)
	}
	d := Drawing{Class: c.class, Width: number(c.width), Height: number(c.height), Left: number(c.left), Right: number(c.width - c.right), Base: number(base),
		EndX: number(x(last.Date)), EndY: number(y(last.Sum)), EndWords: s.round(last.Sum), X: monthTicks(first.Date, last.Date, c.months, x)}
	var path strings.Builder
	fmt.Fprintf(&path, "M%s %sV%s", number(x(first.Date)), number(base), number(y(first.Sum)))
	for _, p := range points[1:] { // a staircase: between two days nothing was spent
		fmt.Fprintf(&path, "H%sV%s", number(x(p.Date)), number(y(p.Sum)))
	}
	d.Line = path.String()
	d.Area = d.Line + "V" + number(base) + "Z"
	for v := 0.0; v <= ceiling+step/2; v += step {
		amount := decimal.NewFromFloat(v)
		d.Y = append(d.Y, Tick{number(y(amount)), s.round(amount)})
	}
	if hasBudget {
		d.Rules = append(d.Rules, Tick{number(y(budget[1])), "likely budget " + s.round(budget[1])})
	}
	return d
}

// monthTicks marks the first days of months between two dates, about so many.
func monthTicks(first, last measure.Date, room int, x func(measure.Date) float64) []Tick {
	var ticks []Tick
	every := max(1, (first.DaysUntil(last)/30+room-1)/room)
	year, m, _ := first.Time().Date()
	for n := int(m); ; n += every { // n counts months from the January of the first year
		d := measure.NewDate(year+n/12, time.Month(n%12+1), 1)
		if d == 0 || d > last {
			return ticks
		}
		ticks = append(ticks, Tick{number(x(d)), d.Time().Format("Jan")})
	}
}

// niceStep is the distance of the marks on an axis up to top: 1, 2 or 5 times a
// power of ten, for at most about so many marks.
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
