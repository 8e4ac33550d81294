package render

import (
	"cmp"
	"slices"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/speech"
	"guidecoat/journal/view"
	"guidecoat/render/markup"
)

// The handover record begins with all a buyer must know, on one sheet of paper. What does not fit stands below.

// How much of each list the frame has room for, and of each text.
const (
	frameFacts  = 10
	frameDamage = 4
	frameLeft   = 4
	frameSilent = 4
	frameWords  = 66
	frameMore   = 100 // of damage, where there is less of it than there is room for
)

func (p packLeaf) firstSheet() {
	h := p.v.Handover
	p.Raw(`<section class="first" aria-labelledby="_h-frame"><div class="frame">
<h2 id="_h-frame">`).If(h.Cleared, "{Nothing recorded stands in the way of the sale}").If(!h.Cleared, "{Not cleared for sale}").Raw("</h2>\n<p class=\"drive\">")
	p.If(h.Drivable, "{Nothing dangerous is recorded.}").If(!h.Drivable, "{Something recorded stands in the way of driving:} ")
	why := pick.Map(unmet(h.ToDrive), func(r view.RequirementView) string { return p.Tell(r.About) })
	p.With("", strings.Join(why, "; "), ".").Raw("</p>\n<div class=\"what\">")
	crash, cured := p.cure()
	markup.Each(p.W, nonNil(crash, cured), "<div class=\"pair\">", p.onTape, "</div>\n")
	p.frameFacts()
	p.Raw("</div>\n<div class=\"stand\">\n")
	shown, most := p.v.Damage[:min(len(p.v.Damage), frameDamage)], frameWords
	if len(shown) < frameDamage {
		most = frameMore
	}
	markup.Each(p.W, shown, "<h3>{Damage}</h3>\n<ul class=\"plain\">\n", func(d *view.DamageView) {
		p.Raw("<li><b>").Quote("", title(d.Place), "").Raw("</b>").Quote(": ", shorten(d.Words, most), "").If(d.Flood, " · {flooded}").Quote(" · {fired:} ", strings.Join(d.Fired, ", "), "").Raw("</li>\n")
		if d == shown[len(shown)-1] {
			p.more(len(p.v.Damage) - len(shown))
		}
	}, "</ul>\n")
	p.frameLeft()
	p.Raw("<h3>{Not recorded}</h3>\n")
	if h.NotRecorded == nil {
		p.Raw("<p>{Nothing that this record looks for is missing.}</p>\n")
	}
	p.notRecorded(frameSilent, frameWords)
	p.Raw(`</div>
<div class="read"><h3>{How to read it}</h3>
<p><strong>{A record, not an inspection.}</strong> {What is written here was checked against the builder’s own notes, not against the vehicle. Have the vehicle looked at by somebody independent, and by somebody licensed where the law of your country asks for it, before you rely on it. The rules of your country, its inspection and licensed practice decide.}</p>
<p>{Beside each check, reading and fix stands what shows it besides the builder’s word:}</p>
<dl class="grades">
`)
	for _, g := range view.Grades {
		p.Raw("<div><dt>")
		p.grade(g.Evidence).Raw("</dt><dd>").Text(p.Word(g.Means)).Raw("</dd></div>\n")
	}
	p.Raw("</dl></div>\n</div></section>\n")
}

// notRecorded lists what the record is silent about, the first so many of it.
func (p packLeaf) notRecorded(most, words int) {
	list := p.v.Handover.NotRecorded
	shown := list[:min(len(list), most)]
	markup.Each(p.W, shown, "<ul class=\"plain\">\n", func(s speech.Phrase) { p.Raw("<li>").Text(shorten(title(p.Tell(s)), words)).Raw("</li>\n") }, "")
	p.more(len(list) - len(shown))
	p.If(len(shown) > 0, "</ul>\n")
}

func (p packLeaf) onTape(x *shot) { onTape(p.leaf, x, "(min-width: 48em) 24rem, 94vw") }

// frameFacts tell what it is, how far it has gone, and what the official inspection said.
func (p packLeaf) frameFacts() {
	p.Raw("<dl class=\"facts\">\n")
	facts := slices.DeleteFunc(vehicleFacts(p.leaf.site), func(f Fact) bool {
		return slices.ContainsFunc(p.v.Vehicle, func(d view.Detail) bool { return d.Contact && d.Value == f.Value })
	})
	for _, f := range facts[:min(len(facts), frameFacts)] {
		p.Raw("<div><dt>").Text(f.Name).Raw("</dt><dd>").Words(f.Typed, shorten(f.Value, frameWords)).With("<br><small>", f.Note, "</small>").Raw("</dd></div>\n")
	}
	if len(facts) > frameFacts {
		p.Raw("<div><dt>{And more}</dt><dd><a").Href(root(p.path) + buildFront + "#_h-vehicle").Raw(">{on the front page}</a></dd></div>\n")
	}
	p.Raw("<div><dt>{Newest official inspection}</dt><dd>")
	if c := p.v.Inspection(); c == nil {
		p.Raw("{none in this record}")
	} else {
		p.Raw("<a").Href(p.pack.to(p.path, "_h-certificates")).Raw("><b>").Text(p.Word(c.Result)).Raw("</b></a>").Quote(", ", shorten(c.Words, frameWords), "").Raw(", ")
		p.date(c.Session, c.Date).Quote(", {by} ", c.By, "").With(", {at} ", p.Distance(c.At), "").With(", {certificate until} ", p.Day(c.Until), "").Raw(" ")
		p.grade(c.Evidence)
	}
	p.Raw("</dd></div>\n").With("<div><dt>{Whom to ask}</dt><dd>", contactOf(p.leaf.site), "</dd></div>\n").Raw("</dl>\n")
}

func contactOf(s *site) string {
	contacts := pick.Where(s.v.Vehicle, func(d view.Detail) bool { return d.Contact })
	return strings.Join(pick.Map(contacts, func(d view.Detail) string { return d.Value }), "; ")
}

func (p packLeaf) frameLeft() {
	open := pick.Where(p.v.Snags, func(x *view.SnagView) bool { return x.Open })
	p.Raw("<h3>{What is left}</h3>\n").If(len(open)+len(p.withheldWords(p.v.Withheld)) == 0, "<p>{Nothing that this record names.}</p>\n")
	if len(open) > 0 {
		p.Raw("<ul class=\"plain\">\n")
		for _, x := range open[:min(len(open), frameLeft)] {
			p.Raw("<li>")
			if x.Disclose {
				p.Raw(`<span class="severity">{told to you}</span>`)
			} else {
				p.severity(x)
			}
			p.Raw(" ").If(isTemporary(x), "{temporary:} ")
			p.worded(x.Said, x.Words, func() {
				p.link(p.pack.to(p.path, p.paths.snags[x]), title(shorten(note.PlainWords(p.wordsOf(x)), frameWords)))
			}).Raw("</li>\n")
		}
		p.more(len(open) - frameLeft)
		p.Raw("</ul>\n")
	}
	p.writeWithheld()
}

func unmet(list []view.RequirementView) []view.RequirementView {
	return pick.Where(list, func(r view.RequirementView) bool { return !r.Met })
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
		href, id = p.toID(p.path, stop.Part.ID), stop.Part.ID
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
				did(l.Supplier, Link{Text: l.Description, Href: p.toSession(p.path, l.Session), Typed: true})
			}
		}
	}
	for _, c := range p.v.Checks {
		if c.By != "" {
			did(c.By, Link{Text: p.Name(c.Name), Href: p.toSession(p.path, c.Session)})
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

// receiptsOf are the receipts of the lines of money that are so, each once.
func receiptsOf(s *site, at string, is func(*view.MoneyLine) bool) []Link {
	if s.v.Money == nil {
		return nil
	}
	var list []Link
	for _, l := range s.v.Money.Lines {
		if l.Receipt != "" && is(l) {
			if r := receiptLink(s, at, l.Note, l.Receipt); !slices.Contains(list, r) {
				list = append(list, r)
			}
		}
	}
	return list
}
