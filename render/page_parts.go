package render

import (
	"cmp"
	"slices"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
	"guidecoat/render/markup"
)

// Parts, where they are, and how their fasteners were tightened.

func isFitted(x *view.PartView) bool { return x.State == "fitted" || x.State == "refitted" }

// sinceEvent is the event since which a part is what it is; without one, a date alone.
func sinceEvent(x *view.PartView) view.PartEvent {
	now := view.PartEvent{State: x.State, Date: x.Since}
	for _, e := range x.Events {
		if e.State == x.State {
			now = e
		}
	}
	return now
}

// origin says of a part where it comes from and in what condition.
func (s *voice) origin(x *view.PartView) string {
	if kind := s.List(nonEmpty(s.Word(x.Condition), s.Word(x.Origin))...); kind != "" || x.State != "refitted" {
		return kind
	}
	return s.Say("the vehicle’s own")
}

func putTightening(p *leaf, t view.TighteningView) {
	p.value(p.Figure(t.How), t.Lacks.Some()).Quote(" <small>", t.Words, "</small>").Quote(" · {by} ", t.By, "").With(" · ", p.Tell(t.Lacks), "")
}

// fastenerItem writes one of the job card's fasteners, and what was done with it last.
func (p *leaf) fastenerItem(f *view.FastenerView) {
	p.Raw("<li>").Named(f.ID, title(p.Name(f.ID))).Raw(", ").Text(p.Figure(f.Asked)).If(f.SingleUse, ", {single use}").If(f.RideHeight, ", {at ride height}").Quote(" <small>", f.Words, "</small>").Raw(": ")
	if n := len(f.Tightened); n > 0 {
		putTightening(p, f.Tightened[n-1])
		p.Raw(", ")
		p.date(f.Tightened[n-1].Session, f.Tightened[n-1].Date)
	} else {
		p.Raw("{not recorded as tightened}")
	}
	p.If(f.Loose, ` <strong class="late">{still to be tightened}</strong>`).Raw("</li>\n")
}

// partPlaces are where a part can be, in the order of the page, and the states it is then in.
var partPlaces = []partPlace{
	{"_to-come", "Still to come", []string{"needed", "ordered"}, true},
	{"_in-hand", "In hand", []string{"arrived"}, true},
	{"_fitted", "On the vehicle", []string{"fitted", "refitted"}, false},
	{"_gone", "Returned, cancelled or sold", []string{"returned", "cancelled", "sold"}, false},
}

type partPlace struct {
	id, name string
	states   []string
	loose    bool // there is still something to be done with it
}

// whereabouts is where a part is, in places.
func whereabouts(x *view.PartView) int {
	return slices.IndexFunc(partPlaces, func(p partPlace) bool { return slices.Contains(p.states, x.State) })
}

// manyParts is how many parts in one place are listed by system.
const manyParts = 30

type partHeading struct {
	partPlace
	system string // "" where there are few in that place
}

func (h partHeading) headingID() string {
	return h.id + given(h.system != "", "_"+slug(h.system))
}

// partHeadings says of each part what it is listed under.
func partHeadings(s *site) func(*view.PartView) partHeading {
	in := make([]int, len(partPlaces))
	for _, x := range s.v.Parts {
		in[whereabouts(x)]++
	}
	return func(x *view.PartView) partHeading {
		h := partHeading{partPlace: partPlaces[whereabouts(x)]}
		if in[whereabouts(x)] > manyParts {
			h.system = cmp.Or(s.Name(x.System), x.Stage, s.Say("other"))
		}
		return h
	}
}

// bindParts puts in front what is still to come or in hand.
func bindParts(s *site) {
	list, under := slices.Clone(s.v.Parts), partHeadings(s)
	at, system := make(map[*view.PartView]int, len(list)), make(map[*view.PartView]string, len(list))
	for _, x := range list {
		at[x], system[x] = whereabouts(x), under(x).system
	}
	slices.SortStableFunc(list, func(a, b *view.PartView) int {
		return cmp.Or(at[a]-at[b], cmp.Compare(system[a], system[b]))
	})
	s.parts = bind(binding{front: partsFront, taken: s.paths.taken}, list, func(x *view.PartView) entry {
		where := partPlaces[whereabouts(x)]
		e := entry{shelf: slug(where.name), name: s.Word(where.name), weight: 1 + len(x.Events) + len(x.Photos()), anchors: []string{x.ID}}
		if where.loose {
			e.shelf, e.name = "loose", s.Say("To come and in hand")
		}
		return e
	})
}

func partsSheets(s *site) []sheet {
	return s.parts.sheets(s, "Parts", s.Say("Every part of %s and where it is.", s.v.Name), partsPage)
}

func partsPage(p *leaf, v volume) {
	under := partHeadings(p.site)
	groups := runsOf(p.parts.in(v), func(x *view.PartView) string { return under(x).headingID() })
	p.begin().Raw(`<p class="lead">`).Text(p.Say("%d parts", len(p.v.Parts))).Raw(".</p>\n")
	p.volumes(p.parts.book)
	place := func(g []*view.PartView) string { // whose systems stand behind its name
		return given(under(g[0]).system != "", under(g[0]).name)
	}
	for _, same := range runsOf(groups, place) {
		p.Raw(`<p class="jump">`).With("<span>", p.Word(place(same[0])), ":</span> ")
		for _, g := range same {
			h := under(g[0])
			writeLink(p.W, Link{Text: cmp.Or(h.system, p.Word(h.name)), Href: "#" + h.headingID()}).Raw(" ")
		}
		p.Raw("</p>\n")
	}
	p.Raw("</header>\n")
	for _, same := range runsOf(groups, func(g []*view.PartView) int { return whereabouts(g[0]) }) {
		h := under(same[0][0])
		p.Raw(`<section id="`).Text(h.id).Raw(`" aria-labelledby="_h`).Text(h.id).Raw(`"><h2 id="_h`).Text(h.id).Raw(`">`).Text(p.Word(h.name)).Raw("</h2>\n")
		for _, g := range same {
			if h := under(g[0]); h.system != "" {
				p.Raw(`<h3 id="`).Text(h.headingID()).Raw(`">`).Text(title(h.system)).Raw("</h3>\n")
			}
			p.Raw(`<table class="lines parts"><thead><tr><th scope="col">{Part}</th><th scope="col">{State}</th>`).If(g[0].Paid != nil, `<th scope="col" class="sum">{Paid}</th>`)
			markup.Each(p.W, g, "</tr></thead><tbody>\n", p.part, "</tbody></table>\n")
		}
		p.Raw("</section>\n")
	}
}

// part is a row. What was paid has a column where it is told.
func (p *leaf) part(x *view.PartView) {
	paid, facts := partFacts(p.site, x)
	now := sinceEvent(x)
	p.Raw(`<tr class="part" id="`).Text(x.ID).Raw(`"><td>`)
	loose := slices.ContainsFunc(p.v.FastenersOf(x.ID), func(f *view.FastenerView) bool { return f.Loose })
	p.Raw("<details").If(loose, " open").Raw("><summary><b>").Quote("", title(x.Description), "").Raw("</b>").With(" <small>", strings.Join(nonEmpty(p.Word(x.Condition), p.Word(x.Origin)), ", "), "</small>").Raw("</summary>\n<ol class=\"steps\">\n")
	for _, e := range x.Events {
		p.Raw("<li>")
		p.shortDate(e.Session, e.Date).Raw(" <b>").Text(p.Word(e.State)).Raw("</b>").Quote(" <small>", p.remark(e), "</small>").Raw("</li>\n")
	}
	p.Raw("</ol>\n")
	markup.Each(p.W, facts, `<dl class="inline">`, func(f Fact) {
		p.Raw("<div><dt>").Text(f.Name).Raw("</dt> <dd>").Words(f.Typed, f.Value).Raw("</dd></div>")
	}, "</dl>")
	markup.Each(p.W, p.v.FastenersOf(x.ID), "<ul class=\"plain fasteners\">\n", p.fastenerItem, "</ul>\n")
	p.Raw("</details>")
	p.prints(x.Photos(), x.Description).Raw("</td><td>")
	p.state(x.State).Raw(" <small>")
	p.shortDate(now.Session, now.Date).Raw("</small>").With(" <small>{due} ", given(x.Waited(), p.Day(x.Due)), "</small>").
		If(x.Late, ` <strong class="late">{late}</strong>`)
	if x.Paid != nil {
		p.Raw(`</td><td class="sum">`).Text(paid)
	} else {
		p.With(" <small>", paid, "</small>")
	}
	p.Raw("</td></tr>\n")
}

// partFacts are what was paid for a part, and what else is known of it.
func partFacts(s *site, x *view.PartView) (paid string, facts []Fact) {
	fact := func(name, value string) {
		if value != "" {
			facts = append(facts, s.plainFact(name, value))
		}
	}
	typed := func(name, value string) {
		if fact(name, value); value != "" {
			facts[len(facts)-1].Typed = true
		}
	}
	typed("Called", x.ID)
	fact("Asked", s.asked(x.ID))
	typed("Stage", x.Stage)
	fact("System", s.Name(x.System))
	typed("From", x.Supplier)
	typed("Number", x.Number)
	typed("Donor", s.donor(x.Donor))
	fact("Warranty until", s.Day(x.Warranty))
	switch {
	case x.Paid != nil && !x.Paid.IsZero():
		paid = s.sum(*x.Paid)
		if !x.SurchargeBack.IsZero() {
			fact("Surcharge back", s.Say("%s, not taken off what was paid", s.sum(x.SurchargeBack)))
		}
	case x.Free:
		paid = s.Say("free")
	case x.Estimate != nil && x.Waited():
		fact("Estimate", s.three(*x.Estimate))
	}
	return paid, facts
}

// donor is a donor with its salvage category, as far as either is told.
func (s *site) donor(name string) string {
	category := pick.First(s.v.Donors, func(d fact.Donor) bool { return d.Name == name && d.Category != "" }).Category
	return pick.Either(category == "", name, s.Say("%s, salvage category %s", name, category))
}

// asked is what is asked for a part and by whom, the best first.
func (s *site) asked(id string) string {
	var list []string
	for _, q := range s.v.Quotes {
		if q.Part == id && !q.Expired {
			asked := s.sum(q.Landed)
			if q.From != "" {
				asked = s.Say("%s by %s", asked, q.From)
			}
			list = append(list, asked)
		}
	}
	return strings.Join(list, "; ")
}
