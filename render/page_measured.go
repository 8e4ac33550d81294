package render

import (
	"cmp"
	"slices"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
	"guidecoat/render/markup"
)

// The readings stand by what they tell: outside limits, came right, and the rest by system in pairs.

// Ranks of a series of readings. From bySystem on they are its system's place in the list.
const (
	outOfLimits = iota
	cameRight
	bySystem
)

func seriesRank(x *view.ReadingSeries) int {
	switch {
	case x.Newest().Outside.Some():
		return outOfLimits
	case slices.ContainsFunc(x.Readings, func(r view.JudgedReading) bool { return r.Outside.Some() }):
		return cameRight
	}
	return bySystem + rankOf(x.Newest().System)
}

func (s *voice) seriesHeading(x *view.ReadingSeries) string {
	switch seriesRank(x) {
	case outOfLimits:
		return s.Say("Outside the limits")
	case cameRight:
		return s.Say("Was outside the limits, came right")
	}
	return s.systemName(x.Newest().System)
}

// sides are the words in which the names of a pair differ. Common practice, no source.
var sides = map[string]bool{"left": true, "right": true, "nearside": true, "offside": true, "driver": true, "passenger": true}

// unsided is a name without the side of the vehicle.
func unsided(name string) string {
	return strings.Join(slices.DeleteFunc(strings.Split(name, "-"), func(w string) bool { return sides[w] }), "-")
}

// seriesByRank are the readings as the page tells them; pairs stand together.
func (s *site) seriesByRank() []*view.ReadingSeries {
	list := slices.Clone(s.series)
	first, pairs := map[string]int{}, map[string]int{}
	for i, x := range list {
		key := unsided(x.Name)
		if _, ok := first[key]; !ok {
			first[key] = i
		}
		pairs[key]++
	}
	single := func(x *view.ReadingSeries) int { return pairs[unsided(x.Name)] % 2 }
	slices.SortStableFunc(list, func(a, b *view.ReadingSeries) int {
		return cmp.Or(cmp.Compare(seriesRank(a), seriesRank(b)), cmp.Compare(single(a), single(b)), cmp.Compare(first[unsided(a.Name)], first[unsided(b.Name)]))
	})
	return list
}

// twins are the other sides of what a series measured, where both have one kind of unit.
func (s *site) twins(x *view.ReadingSeries) []*view.ReadingSeries {
	return pick.Where(s.series, func(o *view.ReadingSeries) bool {
		return o != x && unsided(o.Name) == unsided(x.Name) && o.Newest().Value.Comparable(x.Newest().Value)
	})
}

func hasMeasured(s *site) bool { return len(s.v.Checks)+len(s.v.Readings)+len(s.v.Scans) > 0 }

func bindMeasured(s *site) {
	var list []measuredEntry
	for _, x := range s.seriesByRank() {
		for i := range x.Readings {
			list = append(list, measuredEntry{series: x, nth: i})
		}
	}
	list = append(list, pick.Map(s.v.Checks, func(c *view.CheckView) measuredEntry { return measuredEntry{check: c} })...)
	for _, scans := range s.v.ScansByUnit() {
		var before *view.ScanView
		for _, sc := range scans {
			list = append(list, measuredEntry{scan: sc, before: before})
			before = sc
		}
	}
	s.measured = bind(binding{front: measuredFront, taken: s.paths.taken}, list, func(e measuredEntry) entry {
		switch {
		case e.series != nil:
			r := entry{shelf: "readings", name: s.Word("Readings"), weight: 1, anchors: []string{seriesID(e.series.Name)}}
			if e.nth == 0 {
				r.weight += 2 + min(len(e.series.Readings), gaugeMarks)/4 // the gauge
			}
			return r
		case e.check != nil:
			return entry{shelf: "checks", name: s.Word("Checks"), weight: 1 + len(e.check.Photos), anchors: []string{"_h-checks"}}
		}
		return entry{shelf: "scans", name: s.Word("Fault scans"), weight: 1 + len(e.scan.Codes), anchors: []string{"_scans", unitID(e.scan.Unit)}}
	})
}

func seriesID(name string) string { return "_" + name }

// unitID has a second underscore, which names of readings have not.
func unitID(unit string) string { return "_scan_" + slug(unit) }

func measuredSheets(s *site) []sheet {
	told := s.Say("What was measured and checked on %s, and what the control units said.", s.v.Name)
	return s.measured.sheets(s, "Measured and checked", told, func(p *leaf, v volume) { measuredLeaf{p}.measuredPage(p.measured.in(v)) })
}

type measuredLeaf struct{ *leaf }

func (p measuredLeaf) measuredPage(list []measuredEntry) {
	readings := pick.Where(list, func(e measuredEntry) bool { return e.series != nil })
	checks := pick.Where(list, func(e measuredEntry) bool { return e.check != nil })
	scans := pick.Where(list, func(e measuredEntry) bool { return e.scan != nil })
	p.begin()
	if len(readings) > 0 && len(checks) > 0 {
		p.Raw(`<p class="jump"><a href="#_h-readings">{Readings}</a> <a href="#_h-checks">{Checks}</a> `).
			If(len(scans) > 0, `<a href="#_scans">{Fault scans}</a>`).Raw("</p>\n")
	}
	p.volumes(p.measured.book).Raw("</header>\n")
	markup.Each(p.W, runsOf(readings, func(e measuredEntry) int { return seriesRank(e.series) }), `<section aria-labelledby="_h-readings"><h2 id="_h-readings">{Readings}</h2>
`, func(same []measuredEntry) {
		rank := seriesRank(same[0].series)
		p.Raw("<h3>").Text(p.seriesHeading(same[0].series)).Raw("</h3>\n<ul class=\"series").If(rank < bySystem, " telling").Raw("\">\n")
		for _, one := range runsOf(same, func(e measuredEntry) string { return e.series.Name }) {
			p.series(one)
		}
		p.Raw("</ul>\n")
	}, "</section>\n")
	markup.Each(p.W, checks, `<section aria-labelledby="_h-checks"><h2 id="_h-checks">{Checks}</h2>
<ul class="checks">
`, func(e measuredEntry) {
		p.checkItem(e.check)
		p.prints(e.check.Photos, title(p.Name(e.check.Name))).Raw("</div></li>\n")
	}, "</ul></section>\n")
	markup.Each(p.W, runsOf(scans, func(e measuredEntry) string { return unitID(e.scan.Unit) }), `<section id="_scans" aria-labelledby="_h-scans"><h2 id="_h-scans">{Fault scans}</h2>
`, p.scans, "</section>\n")
}

// series writes the readings of one name, with the gauge where that begins.
func (p measuredLeaf) series(list []measuredEntry) {
	x := list[0].series
	p.Raw(`<li id="`).Text(seriesID(x.Name)).Raw(`"><h4>`).Named(x.Name, title(p.Name(x.Name))).Raw("</h4>\n")
	p.gauge(x, p.twins(x)...).write(p.W)
	p.Raw("\n<ol class=\"steps\">\n")
	for _, e := range list {
		r := x.Readings[e.nth]
		p.Raw("<li>")
		p.date(r.Session, r.Date).Raw(" ")
		p.value(p.quantity(r.Value), r.Outside.Some()).With(` <span class="verdict">`, p.verdict(r), "</span>").Quote(" <small>", r.Words, "</small>").Raw("</li>\n")
	}
	p.Raw("</ol></li>\n")
}

// scans writes the scans of one unit: how it stands, and below it each scan.
func (p measuredLeaf) scans(list []measuredEntry) {
	last := list[len(list)-1].scan
	p.Raw(`<details class="unit" id="`).Text(unitID(last.Unit)).Raw(`"`).If(!last.NoFaults, " open").Raw("><summary><b>").Named(last.Unit, title(p.Name(last.Unit))).Raw("</b>: ")
	p.Text(p.scanned(last)).Raw(" <small>")
	writeTime(p.W, last.Date, p.Day(last.Date)).If(len(list) > 1, ", {before:} ")
	for i, e := range list[:len(list)-1] {
		p.If(i > 0, ", ").Text(p.scanned(e.scan))
	}
	markup.Each(p.W, list, "</small></summary>\n<ul class=\"scans\">\n", func(e measuredEntry) {
		p.Raw(`<li class="slip"><h3>`)
		p.date(e.scan.Session, e.scan.Date).Raw(" ")
		p.value(p.scanned(e.scan), !e.scan.NoFaults).Raw("</h3>")
		if e.before != nil {
			p.With(`<p class="date">`, p.against(e.before, e.scan), "</p>")
		}
		p.Raw("\n")
		markup.Each(p.W, e.scan.Codes, "<ul class=\"codes\">\n", func(c note.Code) {
			p.Raw("<li><code>")
			p.code(e.scan, c).With(" <small>", p.decode(c.Code), "</small>").Raw("</li>\n")
		}, "</ul>").Raw("</li>\n")
	}, "</ul></details>\n")
}

// code writes a fault code, leading to its snag, and its words.
func (p *leaf) code(sc *view.ScanView, c note.Code) *markup.W {
	return p.link(p.toID(p.path, fact.ScanID(sc.Unit, c.Code)), c.Code).Raw("</code> ").Quote("", c.Words, "")
}

func (p *leaf) check(c *view.CheckView) {
	p.Raw("<b>").Named(c.Name, title(p.Name(c.Name))).Raw(`</b> <span class="result">`).Text(p.Word(c.Result)).Raw("</span>")
	p.checkWords(c).With(" · {certificate until} ", p.Day(c.Until), "")
}

// checkWords tell what was said of a check, where it was, by whom and with what receipt.
func (p *leaf) checkWords(c *view.CheckView) *markup.W {
	p.Quote(": ", c.Words, "").With(" · {at} ", p.Distance(c.At), "").Quote(" · {by} ", c.By, "")
	if c.Receipt != "" {
		p.Raw(" · {receipt} ")
		p.receipt(p.paths.noteOf[c.Session], c.Receipt)
	}
	return p.W
}

// checkItem begins a check in the list of all.
func (p *leaf) checkItem(c *view.CheckView) {
	p.Raw(`<li class="check`).If(c.Result == "failed", " failed").Raw(`"><span class="date">`)
	p.date(c.Session, c.Date).Raw("</span> <div>")
	p.check(c)
}

// verdict says how a reading stands to its limits, "" where it has none.
func (s *voice) verdict(r view.JudgedReading) string {
	switch {
	case r.Outside.Some():
		return s.Tell(r.Outside)
	case r.Near.Some():
		return s.Say("OK, but %s", r.Near)
	case r.Limits.Min != nil || r.Limits.Max != nil:
		return s.Say("OK, %s", s.limits(r.Limits))
	}
	return ""
}

// against counts what has become of the codes between two scans of a unit.
func (s *voice) against(before, after *view.ScanView) string {
	gone, there, fresh := view.CompareScans(before, after)
	list := nonEmpty(given(gone > 0, s.Say("%d codes gone", gone)), given(there > 0, s.Say("%d codes still there", there)), given(fresh > 0, s.Say("%d codes new", fresh)))
	if list == nil {
		list = []string{s.Say("no faults then either")}
	}
	return s.Say("against the scan of %s: %s", before.Date, s.List(list...))
}
