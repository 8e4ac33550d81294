package render

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/view"
	"guidecoat/render/markup"
)

// The strip shows every temporary fix as a piece of masking tape along the months, from
// the day it went on to the day it was peeled off. One that is still on is torn.

// A fix is a temporary fix on the strip.
type fix struct {
	snag   *view.SnagView
	spells []view.Spell
	days   int
}

// fixes are the temporary fixes that are shown, in the order in which they went on, and the
// day up to which they are told.
func (s *site) fixes() (list []fix, until measure.Date) {
	until = cmp.Or(s.v.SoldOn, s.v.AsOf, s.v.Today)
	for _, x := range s.v.Snags {
		if isTemporary(x) {
			f := fix{snag: x, spells: x.Spells()}
			list = append(list, f)
			until = max(until, x.Cleared, x.Opened)
		}
	}
	for i := range list {
		for _, spell := range list[i].spells {
			list[i].days += spell.From.DaysUntil(cmp.Or(spell.To, until))
		}
	}
	slices.SortStableFunc(list, func(a, b fix) int { return cmp.Compare(a.spells[0].From, b.spells[0].From) })
	return list, until
}

// lasted writes for how long a fix has been on.
func (f fix) lasted() string {
	if f.days == 0 {
		return "off the same day"
	}
	return count(f.days, "day")
}

// stripWords say in one sentence what the strip shows.
func stripWords(list []fix) string {
	on, least, most := 0, list[0].days, list[0].days
	for _, f := range list {
		if f.snag.Open {
			on++
		}
		least, most = min(least, f.days), max(most, f.days)
	}
	after := "after " + count(most, "day")
	switch {
	case least == 0 && most > 0:
		after = "within " + count(most, "day")
	case most == 0:
		after = "the same day"
	case least < most:
		after = "after " + grouped(least) + " to " + count(most, "day")
	}
	if on > 0 {
		return count(len(list), "temporary fix", "temporary fixes") + ", " + grouped(on) + " still on."
	}
	return count(len(list), "temporary fix", "temporary fixes") + ", all taken off again " + after + "."
}

// stripFixes is how many fixes a drawing has room for, the newest; its table tells of all.
const stripFixes = 24

// Sizes of the strip: a row of words with the tape below them, and the axis at the foot.
const (
	stripRow  = 48.0
	stripTape = 20.0
	stripFoot = 30.0
)

// strips are the drawings for broad pages and narrow ones.
var strips = []struct {
	canvas
	letters float64 // how wide a letter of its words is, about
}{
	{canvas{class: "broad", width: 960, left: 4, right: 4, months: 9}, 7.6},
	{canvas{class: "narrow", width: 330, left: 2, right: 2, months: 4}, 7.6},
}

var stripSection = markup.Around(`<section class="strip" aria-labelledby="_h-tape"><h2 id="_h-tape">{Temporary fixes over time}</h2>
`, "</section>\n")

// strip writes the temporary fixes along the months; nothing where there was none.
func (p *leaf) strip() {
	list, until := p.fixes()
	if len(list) == 0 {
		return
	}
	words := stripWords(list)
	p.Open(stripSection).Raw("<figure class=\"chart fixes\">\n")
	for _, s := range strips {
		drawStrip(p.W, s.canvas, s.letters, list[max(0, len(list)-stripFixes):], until, words)
	}
	p.Raw("<figcaption>").Text(words).Raw("</figcaption>\n</figure>\n<details><summary>Every temporary fix as a table</summary>\n")
	markup.Each(p.W, list, `<table class="lines"><thead><tr><th scope="col">Temporary fix</th><th scope="col">On</th><th scope="col">Off</th><th scope="col" class="sum">Days</th></tr></thead><tbody>
`, func(f fix) {
		p.Raw("<tr><td>")
		p.link(p.snag(p.path, f.snag), title(note.PlainWords(f.snag.Words)))
		last := f.spells[len(f.spells)-1]
		writeTime(p.Raw("</td><td>"), f.spells[0].From, shortDay(f.spells[0].From, p.inYears))
		writeTime(p.Raw("</td><td>"), last.To, shortDay(last.To, p.inYears)).If(last.To == 0, `<strong class="late">still on</strong>`)
		p.Raw(`</td><td class="sum">`).Int(f.days).Raw("</td></tr>\n")
	}, "</tbody></table>")
	p.Raw("</details>").Close(stripSection)
}

func drawStrip(w *markup.W, c canvas, letter float64, list []fix, until measure.Date, words string) {
	first := list[0].spells[0].From
	days := float64(max(1, first.DaysUntil(until)))
	x := func(d measure.Date) float64 {
		return c.left + float64(first.DaysUntil(d))/days*(c.width-c.left-c.right)
	}
	base := float64(len(list)) * stripRow
	w.Raw(`<svg class="`).Text(c.class).Raw(`" viewBox="0 0 `).Text(number(c.width)).Raw(" ").Text(number(base + stripFoot)).Raw(`" role="img" aria-label="`).Text(words).Raw("\">\n")
	for _, t := range monthTicks(first, until, c.months, x) {
		w.Raw(`<line class="grid" x1="`).Text(t.At).Raw(`" x2="`).Text(t.At).Raw(`" y1="0" y2="`).Text(number(base)).Raw(`"/><text class="x" x="`).Text(t.At).Raw(`" y="`).Text(number(base + 20)).Raw(`">`).Text(t.Words).Raw("</text>\n")
	}
	for i, f := range list {
		y := float64(i) * stripRow
		at, anchor, room := x(f.spells[0].From), "start", 0.0
		if room = c.width - at; at > c.width/2 { // words that begin far right end at the right edge
			at, anchor, room = c.width-c.right, "end", c.width
		}
		lasted := " · " + f.lasted()
		said := shorten(title(note.PlainWords(f.snag.Words)), max(12, int(room/letter)-len(lasted)))
		w.Raw(`<text class="fix" x="`).Text(number(at)).Raw(`" y="`).Text(number(y + 15)).Raw(`" text-anchor="`).Text(anchor).Raw(`">`).Text(said + lasted).Raw("</text>\n")
		for _, spell := range f.spells {
			from, to := x(spell.From), max(x(spell.From)+6, x(cmp.Or(spell.To, until)))
			w.Raw(`<path class="tapes" d="`).Text(tapePath(from, to, y+21)).Raw(`"/>`)
			if spell.To == 0 {
				w.Raw(`<path class="torn" d="M`).Text(tornEdge(to, y+21, 5)).Raw(`"/>`)
			}
		}
		w.Raw("\n")
	}
	w.Raw("</svg>\n")
}

// tapePath is a piece of tape with its two torn ends.
func tapePath(from, to, y float64) string {
	left := strings.Fields(tornEdge(from, y, 2))
	slices.Reverse(left)
	return "M" + tornEdge(to, y, 2) + " " + strings.Join(left, " ") + "Z"
}

// tornEdge is an end of a piece of tape from top to bottom, so deeply torn.
func tornEdge(x, y, deep float64) string {
	var points []string
	for i := range 6 {
		in := deep * float64(i%2)
		points = append(points, fmt.Sprintf("%s,%s", number(x-in), number(y+float64(i)*stripTape/5)))
	}
	return strings.Join(points, " ")
}
