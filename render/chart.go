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

// Drawings are worked out here to the last coordinate; the templates only place
// them. Each has its words beside it, so nobody needs to see it.

// A Dial shows how much of the whole is done, like a gauge on a dashboard.
type Dial struct {
	Done, All string
	Words     string
	Track     string // the arc as a path
	Arc       string // the part of it that is done; "" where nothing is
	X, Y      string // the tip of the needle
	Ticks     []Line
}

// A Line is a line of a drawing.
type Line struct{ X1, Y1, X2, Y2 string }

const (
	dialRadius = 84.0
	dialX      = 100.0
	dialY      = 100.0
	dialSweep  = 240.0 // degrees from empty to full, open at the bottom
)

// on returns the point of the dial at a fraction of its sweep.
func on(fraction, radius float64) (x, y float64) {
	a := (-dialSweep/2 + fraction*dialSweep - 90) * math.Pi / 180
	return dialX + radius*math.Cos(a), dialY + radius*math.Sin(a)
}

func arc(to, radius float64) string {
	x0, y0 := on(0, radius)
	x1, y1 := on(to, radius)
	large := 0
	if to*dialSweep > 180 {
		large = 1
	}
	return fmt.Sprintf("M%s %sA%s %s 0 %d 1 %s %s", number(x0), number(y0), number(radius), number(radius), large, number(x1), number(y1))
}

func dial(done, all int) *Dial {
	if all == 0 {
		return nil
	}
	share := float64(done) / float64(all)
	d := &Dial{Done: grouped(done), All: grouped(all), Words: grouped(done) + " of " + count(all, "snag") + " cleared", Track: arc(1, dialRadius)}
	if done > 0 {
		d.Arc = arc(share, dialRadius)
	}
	x, y := on(share, dialRadius-16)
	d.X, d.Y = number(x), number(y)
	const ticks = 24
	for i := range ticks + 1 {
		inner := dialRadius - 13
		if i%6 == 0 {
			inner -= 5
		}
		x1, y1 := on(float64(i)/ticks, inner)
		x2, y2 := on(float64(i)/ticks, dialRadius-9)
		d.Ticks = append(d.Ticks, Line{number(x1), number(y1), number(x2), number(y2)})
	}
	return d
}

// A Chart is the running total by day.
type Chart struct {
	Words         string
	Width, Height string
	Line, Area    string // paths
	EndX, EndY    string
	EndWords      string
	Left, Right   string // where the drawing of the curve begins and ends
	Base          string
	Y             []Tick
	X             []Tick
	Rules         []Tick // budgets, the sale
	Rows          []ChartRow
}

// A Tick is a mark on an axis.
type Tick struct{ At, Words string }

// A ChartRow is a row of the table that says the same as the chart.
type ChartRow struct {
	Month string
	Sum   string // at its end
}

const (
	chartWidth, chartHeight                      = 960.0, 360.0
	chartLeft, chartRight, chartTop, chartBottom = 76.0, 24.0, 20.0, 40.0
)

// runningChart draws what had been spent day by day; nil where there are no two days.
func (s *site) runningChart() *Chart {
	points := s.v.Money.Running()
	if len(points) < 2 {
		return nil
	}
	first, last := points[0].Date, points[len(points)-1].Date
	top := decimal.Zero
	for _, p := range points {
		top = decimal.Max(top, p.Sum)
	}
	budget, hasBudget := s.v.Money.Budget()
	if hasBudget {
		top = decimal.Max(top, budget[1])
	}
	step := niceStep(top.InexactFloat64())
	ceiling := math.Max(step, math.Ceil(top.InexactFloat64()/step)*step)
	days := math.Max(1, float64(first.DaysUntil(last)))
	x := func(d measure.Date) float64 {
		return chartLeft + float64(first.DaysUntil(d))/days*(chartWidth-chartLeft-chartRight)
	}
	base := chartHeight - chartBottom
	y := func(v float64) float64 { return base - math.Max(v, 0)/ceiling*(base-chartTop) }

	end := points[len(points)-1]
	c := &Chart{Width: number(chartWidth), Height: number(chartHeight), Left: number(chartLeft), Right: number(chartWidth - chartRight), Base: number(base)}
	c.Words = fmt.Sprintf("Running total from %s on %s to %s on %s.", s.sum(points[0].Sum), day(first).Text, s.sum(end.Sum), day(last).Text)
	c.EndX, c.EndY, c.EndWords = number(x(end.Date)), number(y(end.Sum.InexactFloat64())), s.round(end.Sum)
	var path strings.Builder
	for i, p := range points { // a staircase: between two days nothing was spent
		if i == 0 {
			fmt.Fprintf(&path, "M%s %sV%s", number(x(p.Date)), number(base), number(y(p.Sum.InexactFloat64())))
			continue
		}
		fmt.Fprintf(&path, "H%sV%s", number(x(p.Date)), number(y(p.Sum.InexactFloat64())))
	}
	c.Line = path.String()
	c.Area = c.Line + "V" + number(base) + "Z"
	for v := 0.0; v <= ceiling+step/2; v += step {
		c.Y = append(c.Y, Tick{number(y(v)), s.round(decimal.NewFromFloat(v))})
	}
	if hasBudget {
		c.Rules = append(c.Rules, Tick{number(y(budget[1].InexactFloat64())), "likely budget " + s.round(budget[1])})
	}
	c.X, c.Rows = s.months(points, x)
	return c
}

// months are the marks of the time axis and the rows of the table, one a month.
func (s *site) months(points []journal.RunningTotal, x func(measure.Date) float64) (ticks []Tick, rows []ChartRow) {
	first, last := points[0].Date, points[len(points)-1].Date
	for i, p := range points {
		if i+1 == len(points) || monthID(points[i+1].Date) != monthID(p.Date) {
			rows = append(rows, ChartRow{month(p.Date), s.sum(p.Sum)})
		}
	}
	y, m, _ := first.Time().Date()
	every := max(1, len(rows)/8)
	for n := 1; ; n += every {
		d := measure.NewDate(y+(int(m)-1+n)/12, time.Month((int(m)-1+n)%12+1), 1)
		if d == 0 || d > last {
			return ticks, rows
		}
		ticks = append(ticks, Tick{number(x(d)), d.Time().Format("Jan")})
	}
}

// niceStep is the distance of the marks on an axis up to top: 1, 2 or 5 times a
// power of ten, for about five marks.
func niceStep(top float64) float64 {
	if top <= 0 {
		return 1
	}
	rough := top / 5
	power := math.Pow(10, math.Floor(math.Log10(rough)))
	for _, f := range []float64{1, 2, 5, 10} {
		if f*power >= rough {
			return f * power
		}
	}
	return 10 * power
}
