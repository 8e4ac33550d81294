package render

import (
	"cmp"
	"slices"

	"guidecoat/journal/fact"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
	"guidecoat/render/markup"
)

// The handover record begins with all a buyer must know. What stands behind that is folded, and printed open.

// uncleared is what every page of a pack says that was written although something stops the sale.
const uncleared = "Not cleared for sale: this record has open requirements"

// recordStyle is the style that the record has besides that of all pages.
const recordStyle = "record.css"

func isUncleared(s *site) bool { return s.v.Handover != nil && !s.v.Handover.Cleared }

func packSheets(s *site) []sheet {
	return s.pack.sheets(func(v volume) sheet {
		return sheet{heading: v.heading(s, "Handover record"), description: s.Say("What %s is, what was done to it, and what is still to be known.", s.v.Name), main: func(p *leaf) { packLeaf{p}.packPage(v) }}
	})
}

type packLeaf struct{ *leaf }

func (p packLeaf) packPage(v volume) {
	p.Raw(`<header class="head">
<p class="eyebrow">`).Text(leadOf(p.leaf.site)).Raw(`</p>
`)
	writeHeading(p.W, p.heading).Raw(`<p class="lead">`).Quote("", p.v.Name, "").Raw("</p>\n")
	p.volumes(p.pack.book)
	p.Raw("</header>\n")
	if v.front {
		p.frame()
	}
	for _, section := range runs(p.pack.in(v), func(e packEntry) *packSection { return e.section }) {
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
	for _, under := range runs(list, func(e packEntry) string { return e.under }) {
		p.With("<h3>", p.Called(under[0].under), "</h3>\n")
		for _, run := range runs(under, func(e packEntry) *markup.Wrap { return e.in }) {
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

// grade writes what evidence there is of a thing; nothing for none.
func (p packLeaf) grade(e view.Evidence) *markup.W {
	if e == "" {
		return p.W
	}
	return p.Raw(`<span class="grade `).Text(string(e)).Raw(`">`).Text(p.Word(e.Name())).Raw("</span>")
}

// stopsShown is how many of the things that a requirement is open for are listed.
const stopsShown = 50

// requirements tell what the sale asks for, and what driving asks for that is not met.
func (p packLeaf) requirements() {
	h := p.v.Handover
	markup.Each(p.W, h.Requirements, "<ul class=\"plain\">\n", p.requirement, "</ul>\n")
	markup.Each(p.W, unmet(h.ToDrive), "<h3>{What stands in the way of driving}</h3>\n<ul class=\"plain\">\n", p.requirement, "</ul>\n")
	p.If(h.NotRecorded != nil, "<h3>{Not recorded}</h3>\n")
	p.notRecorded(len(h.NotRecorded), 1000)
}

func unmet(list []view.RequirementView) []view.RequirementView {
	return slices.DeleteFunc(slices.Clone(list), func(r view.RequirementView) bool { return r.Met })
}

func (p packLeaf) requirement(r view.RequirementView) {
	p.If(r.Met, `<li class="met"><b>{Met}</b> `).If(!r.Met, `<li class="open"><b>{Open}</b> `).Text(title(p.Tell(r.About)))
	withheld := p.withheldWords(r.Withheld)
	if len(r.Stops)+len(withheld) > 0 {
		p.Raw("\n<ul class=\"stops\">\n")
		for _, stop := range r.Stops[:min(len(r.Stops), stopsShown)] {
			p.stop(stop)
		}
		p.more(len(r.Stops) - stopsShown)
		for _, words := range withheld {
			p.Raw("<li>").Text(words).Raw("</li>\n")
		}
		p.Raw("</ul>")
	}
	p.Raw("</li>\n")
}

// more ends a list that leaves out n things.
func (p packLeaf) more(n int) {
	if n > 0 {
		p.Raw("<li>").Text(p.Say("and %d more", n)).Raw("</li>\n")
	}
}

// stop leads to what stands in the way, with its id where the words do not say it.
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
	p.worded(stop.Said, stop.Words, func() { p.link(href, title(cmp.Or(p.Tell(stop.Said), stop.Words))) }).With(" <code>", id, "</code>").Raw("</li>\n")
}

// workers tells who did what besides the builder, in the order of their coming.
func (p packLeaf) workers() {
	type worker struct {
		name string
		did  []Link
	}
	var list []worker
	did := func(name string, what Link) {
		i := slices.IndexFunc(list, func(w worker) bool { return w.name == name })
		if i < 0 {
			i, list = len(list), append(list, worker{name: name})
		}
		if !slices.ContainsFunc(list[i].did, func(l Link) bool { return l.Text == what.Text }) {
			list[i].did = append(list[i].did, what)
		}
	}
	if p.v.Money != nil {
		for _, l := range p.v.Money.Lines {
			if l.Category == "labour" && !l.Credit && l.Supplier != "" {
				did(l.Supplier, Link{Text: l.Description, Href: p.session(p.path, l.Session), Typed: true})
			}
		}
	}
	for _, c := range p.v.Checks {
		if c.By != "" {
			did(c.By, Link{Text: p.Name(c.Name), Href: p.session(p.path, c.Session)})
		}
	}
	p.If(list == nil, "<p>{The builder did what is in this record; it names nobody else.}</p>\n")
	markup.Each(p.W, list, `<p>{The builder did what is in this record, but for:}</p>
<ul class="plain">
`, func(x worker) {
		p.Raw("<li><b>").Quote("", x.name, "").Raw("</b>: ")
		for i, d := range x.did {
			p.If(i > 0, "; ")
			writeLink(p.W, d)
		}
		p.Raw("</li>\n")
	}, "</ul>\n")
	if hasMoney(p.leaf.site) && len(receiptsOf(p.leaf.site, p.path, func(*view.MoneyLine) bool { return true })) > 0 {
		p.Raw("<p>{The receipts stand with each line of} <a").Href(root(p.path) + moneyFront).Raw(">{the money}</a>.</p>\n")
	}
}
