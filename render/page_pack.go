package render

import (
	"cmp"
	"slices"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/view"
	"guidecoat/render/markup"
)

// The buyer's pack is one page to print and keep: what the vehicle is, what was
// done to it, what was measured, and what is still to be known.

// uncleared is what every page of a pack says that was written although something
// stands in the way of selling.
const uncleared = "Not cleared for sale: this record has open requirements"

func isUncleared(s *site) bool { return s.v.Handover != nil && !s.v.Handover.Cleared }

func packSheets(s *site) []sheet {
	return s.pack.sheets(func(v volume) sheet {
		return sheet{heading: v.heading(s.called("Handover record")), description: "What " + s.v.Name + " is, what was done to it, and what is still to be known.", main: func(p *leaf) { packLeaf{p}.packPage(v) }}
	})
}

// A packLeaf is a page of the pack.
type packLeaf struct{ *leaf }

func (p packLeaf) packPage(v volume) {
	p.Raw(`<header class="head">
<p class="eyebrow">`).Text(leadOf(p.leaf.site)).Raw(`</p>
`)
	writeHeading(p.W, p.heading).Raw(`<p class="lead">`).Text(p.v.Name).Raw("</p>\n")
	p.volumes(p.pack.book)
	p.Raw("</header>\n")
	if v.front {
		p.packCover()
	}
	list := p.pack.in(v)
	in := func(id string) func(packEntry) bool { return func(e packEntry) bool { return e.id == id } }
	if found, about := cutWhile(&list, in("_h-happened")), v.front && tells(p.v.About); about || len(found) > 0 {
		p.Raw(`<section class="happened" aria-labelledby="_h-happened"><h2 id="_h-happened">` + happenedTo + `</h2>
`)
		if about {
			p.Raw("<div class=\"prose\">\n")
			p.body(p.v.About, opening(p.v.About)).Raw("\n</div>\n")
		}
		p.packRuns(found)
		p.Raw("</section>\n")
	}
	p.packSections(cutWhile(&list, func(e packEntry) bool { return openSections[e.id] && e.id != "_h-questions" }))
	if questions := cutWhile(&list, in("_h-questions")); v.front || len(questions) > 0 {
		p.Raw(`<section aria-labelledby="_h-questions"><h2 id="_h-questions">Open questions</h2>
`)
		p.packRuns(questions)
		p.If(len(questions) > 0, "\n").If(len(questions) == 0 && len(withheldFrom(p.leaf.site)) == 0, "<p>None.</p>\n")
		if v.front {
			p.writeWithheld()
		}
		p.Raw("</section>\n")
	}
	if v.front {
		p.workers()
		p.With(`<section aria-labelledby="_h-contact"><h2 id="_h-contact">Who to ask</h2>
<p>`, contactOf(p.leaf.site), "</p></section>\n")
	}
	p.packSections(list)
}

// packSections writes sections of the pack.
func (p packLeaf) packSections(list []packEntry) {
	for _, section := range runs(list, func(e packEntry) string { return e.id }) {
		e := section[0]
		p.Raw("<section").If(strings.HasPrefix(e.id, systemID), ` class="system"`).Raw(` aria-labelledby="`).Text(e.id).Raw(`"><h2 id="`).Text(e.id).Raw(`">`).Text(p.Called(cmp.Or(e.heading, e.name))).Raw("</h2>\n")
		p.packRuns(section)
		p.Raw("</section>\n")
	}
}

// packRuns writes lists and tables of a section.
func (p packLeaf) packRuns(list []packEntry) {
	for _, run := range runs(list, func(e packEntry) *markup.Wrap { return e.in }) {
		p.Open(run[0].in)
		for _, e := range run {
			e.write(p)
		}
		p.Close(run[0].in)
	}
}

// stopsShown is how many of the things that a requirement is open for are listed.
const stopsShown = 50

// packCover writes what stands in front: what is dangerous, what the sale asks for, and what it is.
func (p packLeaf) packCover() {
	h := p.v.Handover
	p.Raw(`<div class="caution" role="note"><strong>A record, not an inspection.</strong>
What is written here was checked against the builder’s own notes, not against the vehicle. Have the vehicle looked at by somebody independent, and by somebody licensed where the law of your country asks for it, before you rely on it.</div>
<nav class="contents" aria-labelledby="_h-contents"><h2 id="_h-contents">Contents</h2>
<ol>
`)
	for _, l := range contentsOf(p.leaf.site, p.path) {
		writeLink(p.Raw("<li>"), l).Raw("</li>\n")
	}
	p.Raw(`</ol></nav>
<section aria-labelledby="_h-drive"><h2 id="_h-drive">What is dangerous</h2>
<p>`).If(h.Drivable, "Nothing dangerous is recorded.").If(!h.Drivable, "Something recorded stands in the way of driving.")
	p.With(" What is not recorded: ", strings.Join(h.NotRecorded, "; "), ".").Raw(" It is a record only: the rules of your country, its inspection and licensed practice decide.</p>\n")
	open := slices.DeleteFunc(slices.Clone(h.ToDrive), func(r view.RequirementView) bool { return r.Met })
	markup.Each(p.W, open, "<ul class=\"plain\">\n", p.requirement, "</ul>\n")
	if c := p.v.Inspection(); c != nil {
		p.Raw("<p>The newest <a").Href(p.pack.to(p.path, "_h-checks")).Raw(">official inspection</a> here: <b>").Text(c.Result).Raw("</b>").With(", ", c.Words, "").Raw(", ")
		p.date(c.Session, c.Date).With(", by ", c.By, "").With(", at ", distance(c.At), "").With(", certificate until ", day(c.Until), "").Raw(".</p>\n")
	}
	p.Raw(`</section>
<section aria-labelledby="_h-requirements"><h2 id="_h-requirements">`).If(h.Cleared, "Nothing recorded stands in the way of the sale").If(!h.Cleared, "Not cleared for sale").Raw("</h2>\n<ul class=\"plain\">\n")
	for _, r := range h.Requirements {
		p.requirement(r)
	}
	p.Raw("</ul></section>\n")
	if facts := vehicleFacts(p.leaf.site); len(facts) > 0 {
		p.Labelled(`<section aria-labelledby="_h-vehicle"><h2 id="_h-vehicle">{The vehicle}</h2>
`)
		p.facts(facts).Raw("</section>\n")
	}
	p.damage()
	if facts := accountFacts(p.leaf.site); facts != nil {
		p.Labelled(`<section aria-labelledby="_h-sale"><h2 id="_h-sale">{The sale}</h2>
`)
		p.facts(facts).Raw("</section>\n")
	}
}

// requirement writes a requirement with what stands in its way.
func (p packLeaf) requirement(r view.RequirementView) {
	p.If(r.Met, `<li class="met"><b>Met</b> `).If(!r.Met, `<li class="open"><b>Open</b> `).Text(title(r.About))
	withheld := withheldWords(r.Withheld)
	if len(r.Stops)+len(withheld) > 0 {
		p.Raw("\n<ul class=\"stops\">\n")
		for _, stop := range r.Stops[:min(len(r.Stops), stopsShown)] {
			p.stop(stop)
		}
		if more := len(r.Stops) - stopsShown; more > 0 {
			p.Raw("<li>and ").Text(grouped(more)).Raw(" more</li>\n")
		}
		for _, words := range withheld {
			p.Raw("<li>").Text(words).Raw("</li>\n")
		}
		p.Raw("</ul>")
	}
	p.Raw("</li>\n")
}

// stop leads to what stands in the way. An id is told where the words do not say the
// same.
func (p packLeaf) stop(stop view.StopView) {
	href, id := "", ""
	switch {
	case stop.Snag != nil:
		href = p.pack.to(p.path, p.paths.snags[stop.Snag])
		if stop.Snag.Source == fact.FromNote {
			id = stop.Snag.ID
		}
	case stop.Part != nil:
		href, id = p.id(p.path, stop.Part.ID), stop.Part.ID
	}
	p.Raw("<li>")
	p.link(href, title(stop.Words)).With(" <code>", id, "</code>").Raw("</li>\n")
}

// openSections are those that stand in front.
var openSections = map[string]bool{"_h-happened": true, "_h-disclosed": true, "_h-left": true, "_h-open": true, "_h-questions": true}

// contentsOf lead to the sections there are, in their order.
func contentsOf(s *site, at string) []Link {
	var list []Link
	add := func(text, id string) {
		if href := s.pack.to(at, id); len(list) == 0 || list[len(list)-1].Href != href {
			list = append(list, Link{Text: text, Href: href})
		}
	}
	add("What is dangerous", "_h-drive")
	add(map[bool]string{true: "Nothing recorded stands in the way of the sale", false: "Not cleared for sale"}[s.v.Handover.Cleared], "_h-requirements")
	if len(vehicleFacts(s)) > 0 {
		add("The vehicle", "_h-vehicle")
	}
	if len(s.v.Damage) > 0 {
		add(s.called("Damage"), "_h-damage")
	}
	if accountFacts(s) != nil {
		add("The sale", "_h-sale")
	}
	if tells(s.v.About) {
		add(happenedTo, "_h-happened")
	}
	entries := s.pack.list
	for len(entries) > 0 && openSections[entries[0].id] {
		add(entries[0].name, entries[0].id)
		entries = entries[1:]
	}
	add("Open questions", "_h-questions")
	add("Who worked on it", "_h-workers")
	if contactOf(s) != "" {
		add("Who to ask", "_h-contact")
	}
	for _, e := range entries {
		add(e.name, e.id)
	}
	return list
}

// contactOf is whom a buyer may ask.
func contactOf(s *site) string {
	var list []string
	for _, d := range s.v.Vehicle {
		if d.Contact {
			list = append(list, d.Value)
		}
	}
	return strings.Join(list, "; ")
}

// workers tells who did what besides the builder: those that checks and paid labour
// name, in the order of their coming.
func (p packLeaf) workers() {
	type worker struct {
		name string
		did  []Link
	}
	var list []worker
	did := func(name, what, session string) {
		i := slices.IndexFunc(list, func(w worker) bool { return w.name == name })
		if i < 0 {
			i, list = len(list), append(list, worker{name: name})
		}
		if !slices.ContainsFunc(list[i].did, func(l Link) bool { return l.Text == what }) {
			list[i].did = append(list[i].did, Link{Text: what, Href: p.session(p.path, session)})
		}
	}
	if p.v.Money != nil {
		for _, l := range p.v.Money.Lines {
			if l.Category == "labour" && !l.Credit && l.Supplier != "" {
				did(l.Supplier, l.Description, l.Session)
			}
		}
	}
	for _, c := range p.v.Checks {
		if c.By != "" {
			did(c.By, said(c.Name), c.Session)
		}
	}
	p.Raw(`<section aria-labelledby="_h-workers"><h2 id="_h-workers">Who worked on it</h2>
`).If(list == nil, "<p>The builder did what is in this record; it names nobody else.</p>\n")
	markup.Each(p.W, list, `<p>The builder did what is in this record, but for:</p>
<ul class="plain">
`, func(x worker) {
		p.Raw("<li><b>").Text(x.name).Raw("</b>: ")
		for i, d := range x.did {
			p.If(i > 0, "; ")
			p.link(d.Href, d.Text)
		}
		p.Raw("</li>\n")
	}, "</ul>\n")
	if hasMoney(p.leaf.site) && len(receiptsOf(p.leaf.site, p.path, func(*view.MoneyLine) bool { return true })) > 0 {
		p.Raw("<p>The receipts stand with each line of <a").Href(root(p.path) + moneyFront).Raw(">the money</a>.</p>\n")
	}
	p.Raw("</section>\n")
}
