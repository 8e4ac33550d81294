package render

import (
	"bytes"
	"cmp"
	"image/png"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"guidecoat/journal/measure"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
	"guidecoat/render/markup"
)

// What changed over time, drawn: money spent, snags open, hours worked, and every temporary
// fix as masking tape along the months; one that is still on is torn.

// A Chart is something over time: its words, its drawings and its table.
type Chart struct {
	Kind     string // for the theme: running, open, hours
	Words    string
	Note     string    // what the drawing leaves out; "" for nothing
	Drawings []Drawing // the same for broad and for narrow pages
	Table    string    // what the table is called
	Head     [2]string
	Rows     [][2]string // when, and the value: they say the same as the chart
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
			c.Rows = append(c.Rows, [2]string{s.Month(t.Date), s.sum(t.Sum)})
		}
	}
	var rules []rule
	if budget, ok := s.v.Money.Budget(); ok {
		top = decimal.Max(top, budget[1])
		rules = []rule{{budget[1].InexactFloat64(), s.Say("likely budget %s", s.round(budget[1]))}}
	}
	by := scale{top.InexactFloat64(), 0, func(v float64) string { return s.round(decimal.NewFromFloat(v)) }}
	return c.drawn(s, first.Date, last.Date, by, func(p *plane) { p.stairs(points, s.round(last.Sum), rules...) })
}

// drawn puts a curve or bars on a canvas of each size.
func (c *Chart) drawn(s *site, first, last measure.Date, by scale, on func(*plane)) *Chart {
	for _, room := range canvases {
		p := room.plane(s.voice, first, last, by)
		on(p)
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
	first, last := counts[0], counts[len(counts)-1]
	most := slices.MaxFunc(counts, func(a, b view.OpenCount) int { return cmp.Compare(a.Open, b.Open) })
	c := &Chart{Kind: "open", Table: s.Say("Open snags as a table"), Head: [2]string{s.Say("At the end of"), s.Word("open")}}
	points := make([]point, len(counts))
	for i, n := range counts {
		points[i] = point{n.Date, float64(n.Open)}
		if len(counts) <= rowsByDay || i+1 == len(counts) || monthID(counts[i+1].Date) != monthID(n.Date) {
			c.Rows = append(c.Rows, [2]string{s.Day(n.Date), s.Grouped(n.Open)})
		}
	}
	c.Words = s.Say("Open snags from %d on %s to %d on %s; the most, %d, were open on %s.", first.Open, first.Date, last.Open, last.Date, most.Open, most.Date)
	told, unseen := tallyOf(s).told, s.v.UnseenOpen+s.v.UnseenCleared
	c.Note = strings.Join(nonEmpty(given(told > 0, s.Say("%d of those still open are told to the buyer instead of mended.", told)),
		given(unseen > 0, s.Say("%d snags not shown here, open or cleared, and not in the curve.", unseen))), " ")
	by := scale{float64(most.Open), 1, func(v float64) string { return s.Grouped(int(v)) }}
	return c.drawn(s, first.Date, last.Date, by, func(p *plane) { p.stairs(points, s.Say("%d open", last.Open)) })
}

// hoursChart draws the hours worked week by week; nil where there are no two weeks.
func hoursChart(s *site, from, to measure.Date) *Chart {
	weeks := slices.DeleteFunc(s.v.Weeks(), func(w view.WeekOfWork) bool { return w.Monday.AddDays(6) < from || w.Monday > to })
	if len(weeks) < 2 {
		return nil
	}
	first, last := weeks[0], weeks[len(weeks)-1]
	most := slices.MaxFunc(weeks, func(a, b view.WeekOfWork) int { return cmp.Compare(a.Minutes, b.Minutes) })
	c := &Chart{Kind: "hours", Table: s.Say("Hours by week as a table"), Head: [2]string{s.Say("Week from Monday"), s.Say("person-hours")}}
	points, sum := make([]point, len(weeks)), measure.Minutes(0)
	for i, w := range weeks {
		points[i] = point{w.Monday, float64(w.Minutes) / 60}
		c.Rows = append(c.Rows, [2]string{s.Day(w.Monday), s.Minutes(w.Minutes)})
		sum += w.Minutes
	}
	c.Words = s.Say("%[2]s of person time in %[1]d weeks; the most, %[3]s, in the week from %[4]s.", len(weeks), sum, most.Minutes, most.Monday)
	if rest := s.v.NotInWeeks(); rest > 0 {
		c.Note = s.Say("%s of sessions that are not shown are not in the bars.", rest)
	}
	by := scale{float64(most.Minutes) / 60, 1, func(v float64) string { return s.Say("%d h", int(v)) }}
	return c.drawn(s, first.Monday, last.Monday.AddDays(7), by, func(p *plane) { p.weeks(points) })
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
		p.Raw(`<tr><th scope="row">`).Text(r[0]).Raw(`</th><td class="sum">`).Text(r[1]).Raw("</td></tr>\n")
	}
	p.Raw("</tbody></table></details>").Close(section)
}

// fixes are the temporary fixes shown, in order, and the day up to which they are told.
func (s *site) fixes() (list []fix, until measure.Date) {
	until = cmp.Or(s.v.SoldOn, s.v.AsOf, s.v.Today)
	for _, x := range pick.Where(s.v.Snags, isTemporary) {
		list = append(list, fix{snag: x, spells: x.Spells()})
		until = max(until, x.Cleared, x.Opened)
	}
	for i := range list {
		for _, spell := range list[i].spells {
			list[i].days += spell.From.DaysUntil(cmp.Or(spell.To, until))
		}
	}
	slices.SortStableFunc(list, func(a, b fix) int { return cmp.Compare(a.spells[0].From, b.spells[0].From) })
	return list, until
}

// How many fixes a strip has room for, the newest, and about how many names of months.
const (
	stripFixes  = 24
	stripMonths = 5
)

func hasStrip(s *site) bool { return len(s.taped) > 0 }

// newestFixes are as many as there is room for, and what the strip of them says.
func (s *site) newestFixes(room int) (list []fix, words string) {
	list, words = s.taped, s.stripWords(s.taped)
	if left := len(list) - room; left > 0 {
		return list[left:], words + " " + s.Say("The newest %d are drawn.", room)
	}
	return list, words
}

// strip writes the temporary fixes along the months: a table of which one column is drawn.
func (p *leaf) strip() {
	if !hasStrip(p.site) {
		return
	}
	list, words := p.newestFixes(stripFixes)
	first, until := list[0].spells[0].From, p.tapedTo
	days := float64(max(1, first.DaysUntil(until)))
	x := func(d measure.Date) float64 { return float64(first.DaysUntil(d)) / days * 100 }
	p.Raw(`<section class="strip" aria-labelledby="_h-tape"><h2 id="_h-tape">{Temporary fixes over time}</h2>
<p class="key">`).Text(words).Raw(`</p>
<table><thead><tr><th scope="col">{Temporary fix}</th><th scope="col"><svg class="months" role="img" aria-label="`).Text(p.Span(first, until)).Raw(`">`)
	for _, t := range p.monthTicks(first, until.AddDays(-int(days/12)), stripMonths, x) { // one at the very end has no room for its name
		p.Raw(`<line x1="`).Text(t.At).Raw(`%" x2="`).Text(t.At).Raw(`%" y2="26"/><text x="`).Text(t.At).Raw(`%" dx="6" y="18">`).Text(t.Words).Raw("</text>")
	}
	markup.Each(p.W, list, "</svg></th></tr></thead><tbody>\n", func(f fix) {
		p.Raw(`<tr><th scope="row">`)
		p.quoted(p.toSnag(p.path, f.snag), f.words()).Raw(" <small>")
		last := f.last()
		p.Text(p.ShortDay(f.spells[0].From, p.inYears)).Raw(" {to} ").Text(p.ShortDay(last.To, p.inYears)).If(last.To == 0, `<strong class="late">{now}</strong>`).Raw(", ").Text(p.Say("%d days", f.days)).
			Raw(`</small></th><td><svg class="on-tape" aria-hidden="true">`)
		for _, spell := range f.spells {
			from, to := x(spell.From), x(cmp.Or(spell.To, until))
			p.Raw(`<rect x="`).Text(number(from)).Raw(`%" width="`).Text(number(max(to-from, 1))).Raw(`%" y="3" height="20"/>`)
			if spell.To == 0 {
				p.Raw(`<svg x="`).Text(number(to)).Raw(`%"><path d="M0 3l-5 4 5 4-5 4 5 4-5 4"/></svg>`)
			}
		}
		p.Raw("</svg></td></tr>\n")
	}, "</tbody></table></section>\n")
}

// stripPicture draws what the strip on the pages shows. The same strip gives the same bytes.
func stripPicture(s *site) ([]byte, error) {
	p, err := newPoster(string(s.o.Theme.Style))
	if err != nil {
		return nil, err
	}
	list, words := s.newestFixes(stripRows)
	y := 88.0
	if name, ok := p.spelt(s.v.Name); ok {
		p.write(p.fitted(p.bold, 58, name), "ink", stripMargin, y)
	}
	p.write(p.fitted(p.plain, 32, words), "soft", stripMargin, y+52)

	const top, bottom = 206.0, stripHeight - 30.0
	first := list[0].spells[0].From
	days := float64(max(1, first.DaysUntil(s.tapedTo)))
	x := func(d measure.Date) float64 {
		return stripMargin + float64(first.DaysUntil(d))/days*(stripWidth-2*stripMargin)
	}
	for _, t := range s.monthTicks(first, s.tapedTo.AddDays(-int(days/12)), stripMonths, x) {
		at, _ := strconv.ParseFloat(t.At, 64)
		p.rect("line", at, top-22, at+2, bottom)
		p.write(p.fitted(p.plain, 26, t.Words), "soft", at+8, top-4)
	}
	pitch := min(110, (bottom-top)/float64(len(list)))
	for i, f := range list {
		p.fix(s.voice, f, x, s.tapedTo, top+pitch*(float64(i)+.5)-57./2)
	}
	var b bytes.Buffer
	err = cmp.Or(p.err, png.Encode(&b, p.inFewColours()))
	return b.Bytes(), err
}
