package render

import (
	"slices"
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
	"guidecoat/render/markup"
)

// The handover record in its sections. What stands behind all a buyer must know is folded, and printed open.

func packSheets(s *site) []sheet {
	told := s.Say("What %s is, what was done to it, and what is still to be known.", s.v.Name)
	return s.pack.sheets(s, "Handover record", told, func(p *leaf, v volume) { packLeaf{p}.packPage(v) })
}

func (p packLeaf) packPage(v volume) {
	p.Raw(`<header class="head">
<p class="eyebrow">`).Text(leadOf(p.leaf.site)).Raw(`</p>
`)
	writeHeading(p.W, p.heading).Raw(`<p class="lead">`).Quote("", p.v.Name, "").Raw("</p>\n")
	p.volumes(p.pack.book).Raw("</header>\n")
	if v.front {
		p.firstSheet()
	}
	for _, section := range runsOf(p.pack.in(v), func(e packEntry) *packSection { return e.section }) {
		p.section(section)
	}
}

// section writes a section, folded unless it must be read.
func (p packLeaf) section(list []packEntry) {
	x, folded := list[0].section, !list[0].must
	p.Raw(`<section aria-labelledby="`).Text(x.id).Raw(`">`).If(folded, "<details class=\"fold\"><summary>").Raw(`<h2 id="`).Text(x.id).Raw(`">`).Text(p.Called(x.name)).Raw("</h2>")
	if folded {
		if n := pick.Count(list, func(e packEntry) bool { return e.in != nil && e.in != packAlbumList }); n > 0 {
			p.Raw(" <small>").Text(p.Grouped(n)).Raw("</small>")
		}
		p.Raw("</summary>")
	}
	p.Raw("\n")
	for _, under := range runsOf(list, func(e packEntry) string { return e.under }) {
		p.With("<h3>", p.Called(under[0].under), "</h3>\n")
		for _, run := range runsOf(under, func(e packEntry) *markup.Wrap { return e.in }) {
			in := run[0].in
			if in != nil {
				p.Open(in)
			}
			for _, e := range run {
				e.write(p)
			}
			if in != nil {
				p.Close(in)
			}
		}
	}
	p.If(folded, "</details>").Raw("</section>\n")
}

const whatToKnow, theRest = "What to know", "The rest"

// packSections are the record, in its order. Pictures are shown once, by the first that asks.
var packSections = []packSection{
	{"_h-requirements", "What the sale asks for", whatToKnow, func(s *site, _ map[string]bool) []packEntry {
		return []packEntry{{must: !s.v.Handover.Cleared, weight: 2, write: packLeaf.requirements}}
	}},
	{"_h-left", "What is left", whatToKnow, packLeft},
	{"_h-damage", "Damage, and how it was put right", whatToKnow, packDamage},
	{"_h-happened", "In the builder’s own words", whatToKnow, packHappened},
	{"_h-structure", "Where it was cut and joined", "", packWork("structure")},
	{"_h-fasteners", "Fasteners of what carries, steers, stops and protects", "", packFasteners},
	{"_h-restraints", "Seat belts and airbags", "", packWork("restraints")},
	{"_h-readings", "Measured, before and after", "", packReadings},
	{"_h-checks", "Checks", "", packChecks},
	{"_h-scans", "Fault scans, before and after", "", packScans},
	{"_h-certificates", "Certificates, and when they end", "", packCertificates},
	{"_h-work", "What else was done", "", packWork(slices.DeleteFunc(append(slices.Clone(note.Systems), ""), func(s string) bool { return s == "structure" || s == "restraints" })...)},
	{"_h-fixes", "Temporary fixes, and how each was put right", "", packFixes},
	{"_h-unopened", "What was not opened", theRest, packUnopened},
	{"_h-workers", "Who worked on it", theRest, func(*site, map[string]bool) []packEntry {
		return []packEntry{{weight: 2, write: packLeaf.workers}}
	}},
	{"_h-sale", "The sale", theRest, packSale},
}

// bindPack keeps the record on one page, unless it is as long as a book.
func bindPack(s *site) {
	var list []packEntry
	if s.v.Handover != nil {
		shown := map[string]bool{}
		for _, x := range nonNil(s.cure()) { // the frame shows them
			shown[x.file.at] = true
		}
		for i := range packSections {
			for _, e := range packSections[i].gather(s, shown) {
				e.section = &packSections[i]
				list = append(list, e)
			}
		}
	}
	s.pack = bind(binding{front: packFront, taken: s.paths.taken}, list, func(e packEntry) entry {
		x := entry{shelf: strings.TrimPrefix(e.section.id, "_h-"), name: s.Word(e.section.name), weight: e.weight, anchors: append([]string{e.section.id}, e.anchors...)}
		if e.section.shelf != "" {
			x.shelf, x.name = slug(e.section.shelf), s.Word(e.section.shelf)
		}
		return x
	})
}

var packLists = []struct {
	name string
	is   func(*view.SnagView) bool
}{
	{"Temporary fixes still in place", isTemporary},
	{"Told to you instead of mended", func(x *view.SnagView) bool { return x.Disclose }},
	{"Open questions", func(x *view.SnagView) bool { return x.Kind == "decide" || x.Kind == "inspect" }},
	{"Still outstanding", func(*view.SnagView) bool { return true }},
}

func packLeft(s *site, _ map[string]bool) []packEntry {
	lists := make([][]packEntry, len(packLists))
	for _, x := range s.v.Snags {
		if x.Open {
			i := 0
			for !packLists[i].is(x) {
				i++
			}
			lists[i] = append(lists[i], packEntry{under: packLists[i].name, weight: 2 + len(worthTelling(x)), anchors: []string{s.paths.snags[x]}, in: openItems, write: func(p packLeaf) { p.openSnag(x) }})
		}
	}
	list := slices.Concat(lists...)
	if withheld := len(s.withheldWords(s.v.Withheld)) > 0; withheld || list == nil {
		list = append(list, packEntry{weight: 2, write: func(p packLeaf) {
			p.writeWithheld().If(!withheld, "<p>{Nothing that this record names.}</p>\n")
		}})
	}
	return list
}

func packReadings(s *site, _ map[string]bool) []packEntry {
	return packRows(s.seriesByRank(), readingsTable, packLeaf.packReading)
}

// packReading writes the first reading of a name and the last.
func (p packLeaf) packReading(x *view.ReadingSeries) {
	first, last := x.Readings[0], x.Newest()
	p.Raw("<tr><td><b>").Named(x.Name, title(p.Name(x.Name))).Raw("</b></td><td>")
	if len(x.Readings) > 1 {
		p.packValue(first)
	}
	p.Raw("</td><td>")
	telling := last.Outside.Some() || last.Near.Some()
	p.packValue(last).Raw("</td><td>").Text(p.limits(last.Limits)).With(" <small>", given(telling, p.verdict(last)), "</small>").Raw("</td><td>")
	p.grade(view.Measured).Raw("</td></tr>\n")
}

func (p packLeaf) packValue(r view.JudgedReading) *markup.W {
	p.value(p.quantity(r.Value), r.Outside.Some()).Raw(" <small>")
	return p.shortDate(r.Session, r.Date).Raw("</small>")
}

func packChecks(s *site, _ map[string]bool) []packEntry {
	return packRows(s.v.Checks, checksTable, packLeaf.packCheck)
}

func (p packLeaf) packCheck(c *view.CheckView) {
	p.Raw("<tr").If(c.Result == "failed", ` class="failed"`).Raw("><td><b>").Named(c.Name, title(p.Name(c.Name))).Raw("</b>")
	p.checkWords(c).Raw(`</td><td><span class="result">`).Text(p.Word(c.Result)).Raw(`</span></td><td class="date">`)
	p.shortDate(c.Session, c.Date).Raw("</td><td>")
	p.grade(c.Evidence).Raw("</td></tr>\n")
}

func packScans(s *site, _ map[string]bool) []packEntry {
	var list []packEntry
	for _, x := range s.v.ScansByUnit() {
		first, last := x[0], x[len(x)-1]
		list = append(list, packEntry{weight: 1 + len(first.Codes) + len(last.Codes), in: scansTable, write: func(p packLeaf) {
			p.Raw("<tr><td><b>").Named(last.Unit, title(p.Name(last.Unit))).Raw("</b></td><td>")
			if first == last {
				p.Raw("{the only one}")
			} else {
				p.packScan(first)
			}
			p.Raw("</td><td>")
			p.packScan(last)
			p.Raw("</td><td>")
			p.grade(view.Measured).Raw("</td></tr>\n")
		}})
	}
	return list
}

func (p packLeaf) packScan(sc *view.ScanView) {
	p.shortDate(sc.Session, sc.Date).Raw(": ").Text(p.scanned(sc))
	for _, c := range sc.Codes {
		p.Raw("<br><code>")
		p.code(sc, c)
	}
}

// packCertificates are what somebody vouches for up to a day: inspections, and warranties.
func packCertificates(s *site, _ map[string]bool) []packEntry {
	inspections := pick.Where(s.v.Checks, func(c *view.CheckView) bool { return c.Inspection })
	warranties := pick.Where(s.v.Parts, func(x *view.PartView) bool { return x.Warranty != 0 && isFitted(x) })
	return append(packRows(inspections, endsTable, packLeaf.packInspection), packRows(warranties, endsTable, packLeaf.packWarranty)...)
}

func (p packLeaf) packInspection(c *view.CheckView) {
	p.Raw("<tr><td><b>").Named(c.Name, title(p.Name(c.Name))).Raw(`</b>: <span class="result">`).Text(p.Word(c.Result)).Raw("</span>")
	p.checkWords(c).Raw(`</td><td class="date">`)
	p.date(c.Session, c.Date).Raw("</td><td>").Text(p.Day(c.Until)).Raw("</td><td>")
	p.grade(c.Evidence).Raw("</td></tr>\n")
}

func (p packLeaf) packWarranty(x *view.PartView) {
	p.Raw("<tr><td><b>{Warranty}</b>: ").Quote("", x.Description, "").Quote(" · {from} ", x.Supplier, "").Raw(`</td><td class="date">`)
	p.date(sinceEvent(x).Session, sinceEvent(x).Date).Raw("</td><td>").Text(p.Day(x.Warranty)).Raw("</td><td>")
	p.grade(x.Evidence).Raw("</td></tr>\n")
}

func packUnopened(s *site, _ map[string]bool) []packEntry {
	list := pick.Map(s.v.Unopened(), s.Name)
	if list == nil {
		return nil
	}
	return []packEntry{{weight: 2, write: func(p packLeaf) {
		p.Raw("<p>{This record tells of no work, part, check, reading or fault scan on:} <b>").Text(p.List(list...)).Raw("</b>. {Nobody looked there, or nobody wrote it down.}</p>\n")
	}}}
}

func packSale(s *site, _ map[string]bool) []packEntry {
	facts := accountFacts(s)
	if facts == nil {
		return nil
	}
	return []packEntry{{weight: 2, write: func(p packLeaf) { p.facts(facts).Raw("\n") }}}
}
