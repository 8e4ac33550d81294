package render

import (
	"fmt"
	"math"

	"guidecoat/journal/pick"
	"guidecoat/render/markup"
)

// Drawings are worked out to the last coordinate. Each has its words beside it.

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

func (p *leaf) dial(d *Dial, around *markup.Wrap) {
	if d == nil {
		return
	}
	p.Open(around).Raw(`<svg class="dial" viewBox="0 0 200 160" role="img" aria-label="`).Text(d.Words).Raw("\">\n")
	p.With(`<path class="track" d="`, d.Track, `"/>`).Raw("\n").With(`<path class="arc" d="`, d.Arc, `"/>`).Raw("\n")
	for _, t := range d.Ticks {
		p.Raw(`<line class="tick" x1="`).Text(t.X1).Raw(`" y1="`).Text(t.Y1).Raw(`" x2="`).Text(t.X2).Raw(`" y2="`).Text(t.Y2).Raw(`"/>`)
	}
	p.Raw(`
<line class="needle" x1="100" y1="100" x2="`).Text(d.X).Raw(`" y2="`).Text(d.Y).Raw(`"/><circle class="hub" cx="100" cy="100" r="6"/>
<text`).If(d.Long, ` class="long"`).Raw(` x="100" y="140" text-anchor="middle">`).Text(d.Done).Raw(" / ").Text(d.All).Raw(`</text>
<text class="of" x="100" y="156" text-anchor="middle">{snags cleared}</text>
</svg>`).Close(around)
}
