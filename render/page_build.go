package render

import (
	"slices"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
	"guidecoat/render/markup"
)

// The front page of a build.

// outstandingShown is how many snags of a group the front page lists.
const outstandingShown = 6

func buildSheets(s *site) []sheet {
	return []sheet{{path: buildFront, heading: s.v.Name, description: bare(s.v.About), typed: true, main: func(p *leaf) { buildLeaf{p}.buildPage() }}}
}

type buildLeaf struct{ *leaf }

func (p buildLeaf) buildPage() {
	st := statusOf(p.leaf.site)
	p.Raw(`<div class="hero">
`).With(`<p class="eyebrow">`, leadOf(p.leaf.site), "</p>\n")
	typedHeading(p.W, p.heading).With(`<p class="took">`, took(p.leaf.site), "</p>\n").Raw(`<p class="status `).Text(st.state).Raw(`"><b>`).Text(st.words).Quote(": ", st.stage, "").Raw("</b>")
	if p.v.AsOf != 0 {
		writeTime(p.Raw(" <span>{as on} "), p.v.AsOf, p.Day(p.v.AsOf)).Raw("</span>")
	}
	writePoints(p.W, st.points).Raw("</p>\n</div>\n")
	crash, cured := p.cure()
	markup.Each(p.W, nonNil(crash, cured), "<div class=\"cure\">\n", func(x *shot) { onTape(p.leaf, x, "(min-width: 48em) 50vw, 100vw") }, "</div>\n")
	writePlates(p.W, buildPlates(p.leaf.site))
	p.strip()
	p.Raw(`
<div class="columns">
<div class="telling">
`)
	if tells(p.v.About) {
		p.Raw("<section aria-label=\"{About this build}\"><div class=\"prose\"").Typed().Raw(">\n")
		p.body(p.v.About, "", nonNil(crash, cured)...).Raw("\n</div></section>\n")
	}
	p.Raw(`</div>
<div class="side">
`)
	p.outstanding()
	if n := len(p.sessions); n > 0 {
		p.teaser(p.sessions[n-1])
	}
	p.Raw("</div>\n")
	p.stages()
	if facts := vehicleFacts(p.leaf.site); facts != nil {
		p.Raw(`<section class="dataplate" aria-labelledby="_h-vehicle">
<h2 id="_h-vehicle">{The vehicle}</h2>
`)
		p.facts(facts).Raw("\n</section>\n")
	}
	writeDamage(p.leaf)
	p.Raw("</div>\n")
}

func (p buildLeaf) outstanding() {
	var groups [atCleared][]*view.SnagView
	for _, x := range p.v.Snags {
		if x.Open {
			groups[standing(x)] = append(groups[standing(x)], x)
		}
	}
	groups[atTemporary] = nil // the strip above tells of them
	if len(groups[atOpen])+len(groups[atTold])+len(p.withheldWords(p.v.Withheld)) == 0 {
		return
	}
	p.Raw(`<section aria-labelledby="_h-open">
<h2 id="_h-open">{Outstanding}</h2>
`)
	for i, g := range groups {
		if len(g) == 0 {
			continue
		}
		p.Raw("<h3>").Text(p.Called(snagGroups[i].name))
		markup.Each(p.W, g[:min(len(g), outstandingShown)], "</h3>\n<ul class=\"short\">\n", func(x *view.SnagView) {
			p.Raw(`<li class="`).Text(x.Severity.String()).With(" ", kindOf(x), "").Raw(`">`)
			p.severity(x).Raw(" ")
			p.leading(x, p.wordsOf(x))
			p.snagID(x).If(x.Overdue, ` <strong class="late">{overdue}</strong>`).Raw("</li>\n")
		}, "</ul>\n")
		more := max(0, len(g)-outstandingShown)
		p.With(`<p class="more">`, given(more > 0, p.Say("and %d more", more)), "</p>").Raw("\n")
	}
	p.writeWithheld().Raw("\n").If(len(p.v.Snags) > 0, `<p class="more"><a href="snags.html">{All snags, outstanding and cleared}</a></p>`).Raw("\n</section>\n")
}

func (p buildLeaf) teaser(x *view.SessionView) {
	p.Raw(`<section class="teaser" aria-labelledby="_h-last">
<h2 id="_h-last">{Newest session}</h2>
`)
	if _, cured := p.cure(); cured == nil || cured.session != x { // it stands in front already
		if list := bodyPictures(p.leaf.site, p.path, x.Body); len(list) > 0 {
			writeImage(p.W, "", p.inTurn(list[0]), "(min-width: 64em) 24rem, 94vw").Raw("\n")
		}
	}
	p.Raw("<h3").Typed().Raw("><a").Href(p.toSession(p.path, x.Name)).Raw(">").Quote("", x.Title, "").Raw(`</a></h3>
<p class="eyebrow">`)
	p.date("", x.Date).Quote(" · ", title(x.Stage), "").Raw("</p>\n").Quote("<p>", shorten(bare(x.Body), 320), "</p>").Raw("\n</section>\n")
}

// stages tell how far each stage has come of which the view tells something.
func (p buildLeaf) stages() {
	costs := map[string]fact.Stage{}
	if hasMoney(p.leaf.site) {
		for _, c := range p.v.Money.Costs.Stages {
			costs[c.Name] = c
		}
	}
	list := pick.Where(p.progress, func(x view.StageProgress) bool {
		c := costs[x.Stage]
		return x.All != 0 || x.Sessions != 0 || !c.Net.IsZero() || c.Minutes != 0
	})
	markup.Each(p.W, list, `<section class="course" aria-labelledby="_h-stages">
<h2 id="_h-stages">{Stage by stage}</h2>
<p class="key"><span>{Smooth is done, speckled is still to do.}</span> {Counted in snags cleared and parts on the vehicle.}</p>
<ol class="stages">
`, func(x view.StageProgress) {
		c, done := costs[x.Stage], ""
		p.Raw("<li").If(x.Done == x.All, ` class="finished"`).Raw(`><span class="stage">`).Named(x.Stage, p.stageName(x.Stage)).Raw("</span>\n")
		if x.All > 0 {
			done = p.Say("%d of %d", x.Done, x.All)
			p.Raw(`<svg class="bar" viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true"><rect width="`).Text(number(float64(x.Done) / float64(x.All) * 100)).Raw(`" height="10"/></svg>`)
		} else {
			p.Raw(`<span class="nobar"></span>`)
		}
		p.Raw("\n<span class=\"done\">").With("", done, " {done}").Raw(`</span>
<span class="time">`).Text(p.some(c.Minutes)).Raw(`</span> <span class="net">`)
		if !c.Net.IsZero() {
			p.link(p.ledger.to(p.path, stageAnchor(p.leaf.site, x.Stage)), p.sum(c.Net))
		}
		p.Raw("</span></li>\n")
	}, "</ol>\n</section>\n")
}

func writePoints(w *markup.W, list []Link) *markup.W {
	for _, l := range list {
		writeLink(w.Raw(" <span>"), l).Raw("</span>")
	}
	return w
}

type status struct {
	state, words string // sold, open or clear; and the same for people
	stage        string // of the newest session
	points       []Link // what that rests on
}

func statusOf(s *site) status {
	v, t, st := s.v, tallyOf(s), status{state: "open"}
	switch {
	case v.SoldOn != 0:
		st.state, st.words = "sold", s.Say("Sold on %s", v.SoldOn)
	case len(v.Sessions) == 0:
		st.words = s.Say("Not begun")
	default:
		st.words, st.stage = s.Say("In progress"), v.Sessions[len(v.Sessions)-1].Stage
	}
	st.points = warningsOf(s)
	point := func(text, href string) {
		if len(v.Snags) == 0 { // there is no page of snags
			href = ""
		}
		if text != "" {
			st.points = append(st.points, Link{Text: text, Href: href})
		}
	}
	point(given(t.open > 0, s.Say("%d outstanding", t.open)), snagsFront)
	point(given(t.unseen > 0, s.Say("%d of them not shown", t.unseen)), "")
	if t.open == 0 && t.cleared > 0 && len(v.Withheld) == 0 {
		if st.state == "open" {
			st.state = "clear"
		}
		point(s.Say("nothing outstanding"), s.snags.to(buildFront, "_cleared"))
	}
	point(given(t.told > 0, s.Say("%d told to the buyer", t.told)), s.snags.to(buildFront, snagGroups[atTold].id))
	return st
}

func buildPlates(s *site) []Plate {
	v, ahead := s.v, aheadPlates(s)
	var list []Plate
	work := []Plate{{"Work", s.some(v.Minutes), s.Say("%d days", view.DistinctDays(v.Sessions)), "sessions/index.html"}}
	if ahead == nil {
		list, work = work, nil
	}
	if hasMoney(s) {
		m := v.Money
		label := pick.Either(m.Whole, "Net", "Net on the work")
		paid := ""
		if !m.Costs.Credits.IsZero() {
			paid = s.Say("%s paid, %s back", s.sum(m.Costs.Spent), s.sum(m.Costs.Credits))
		}
		list = append(list, Plate{label, s.sum(m.Costs.Net), paid, "money.html"})
		if sold := m.Costs.Sold; sold != nil {
			list = append(list, Plate{"Sold for", s.sum(sold.Price), s.Say("profit %s", s.sum(sold.Profit)), "money.html#_sale"})
		}
	}
	list = slices.Concat(list, ahead, work)
	if len(v.Parts) > 0 {
		list = append(list, Plate{"Parts fitted", s.Grouped(fittedParts(s)), s.Say("of %d", len(v.Parts)), "parts.html"})
	}
	if n, m := len(v.Checks), len(v.Readings); n > 0 {
		failed := pick.Count(v.Checks, func(c *view.CheckView) bool { return c.Result == "failed" })
		besides := nonEmpty(given(failed > 0, s.Say("%d failed besides", failed)), given(m > 0, s.Say("and %d readings", m)))
		list = append(list, Plate{"Checks done", s.Grouped(n - failed), strings.Join(besides, ", "), s.measured.to("index.html", "_h-checks")})
	} else if m > 0 {
		list = append(list, Plate{"Readings", s.Grouped(m), "", "measured.html"})
	}
	if h := v.Handover; h != nil {
		met := pick.Count(h.Requirements, func(r view.RequirementView) bool { return r.Met })
		list = append(list, Plate{"Handover record", s.Say("%d of %d", met, len(h.Requirements)), s.Say("requirements met"), "pack.html"})
	}
	if t := tallyOf(s); len(v.Snags) > 0 {
		list = append(list, Plate{"Outstanding", s.Grouped(t.open), s.tallied(t), "snags.html"})
	}
	return list
}

func writeDamage(p *leaf) {
	markup.Each(p.W, p.v.Damage, `<section aria-labelledby="_h-damage"><h2 id="_h-damage">{Damage}</h2>
<ul class="plain">
`, func(d *view.DamageView) {
		p.Raw("<li><b>").Quote("", title(d.Place), "").Raw("</b>").Quote(": ", d.Words, "").If(d.Flood, " · {flooded}").Quote(" · {fired:} ", strings.Join(d.Fired, ", "), "")
		systems := pick.Map(d.Systems, p.Name)
		p.With(" <small>", strings.Join(systems, ", "), "</small>")
		p.prints(d.Photos, note.PlainWords(d.Words)).Raw("</li>\n")
	}, "</ul></section>\n")
}

// took says in one sentence what it took, as far as the view tells it.
func took(s *site) string {
	days, parts, net := view.DistinctDays(s.v.Sessions), fittedParts(s), ""
	if hasMoney(s) && !s.v.Money.Costs.Net.IsZero() {
		net = s.Say("%s net", s.sum(s.v.Money.Costs.Net))
	}
	list := nonEmpty(given(days > 0, s.Say("%d days", days)), given(s.v.Minutes > 0, s.Say("%s of work", s.v.Minutes)),
		given(parts > 0, s.Say("%d parts", parts)), net)
	if list == nil {
		return ""
	}
	all, right := s.List(list...), tallyOf(s).cleared
	switch sold := s.v.SoldOn != 0; {
	case sold && right > 0:
		return s.Say("It took %[2]s to put %[1]d things right.", right, all)
	case sold:
		return s.Say("It took %s.", all)
	case right > 0:
		return s.Say("So far it has taken %[2]s to put %[1]d things right.", right, all)
	}
	return s.Say("So far it has taken %s.", all)
}

func fittedParts(s *site) int { return pick.Count(s.v.Parts, isFitted) }
