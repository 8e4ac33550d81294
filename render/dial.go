package render

import (
	"fmt"
	"math"
)

// Drawings are worked out here to the last coordinate; the templates only place
// them. Each has its words beside it, so nobody needs to see it.

// A Dial shows how much of the whole is done, like a gauge on a dashboard.
type Dial struct {
	Done, All string
	Long      bool // the figures need smaller letters
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

func arc(from, to float64) string {
	x0, y0 := on(from, dialRadius)
	x1, y1 := on(to, dialRadius)
	large := 0
	if (to-from)*dialSweep > 180 {
		large = 1
	}
	return fmt.Sprintf("M%s %sA%s %s 0 %d 1 %s %s", number(x0), number(y0), number(dialRadius), number(dialRadius), large, number(x1), number(y1))
}

func dial(done, all int) *Dial {
	if all == 0 {
		return nil
	}
	share := float64(done) / float64(all)
	d := &Dial{Done: grouped(done), All: grouped(all), Words: grouped(done) + " of " + count(all, "snag") + " cleared"}
	d.Long = len(d.Done)+len(d.All) > len("999999")
	if done < all {
		d.Track = arc(share, 1)
	}
	if done > 0 {
		d.Arc = arc(0, share)
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
