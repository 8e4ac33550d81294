package render

import (
	"slices"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
	"guidecoat/render/markdown"
	"guidecoat/render/markup"
)

// The list of sessions by month, and the page of each.

// bindSessions binds them by year, so that an old one stays on its page.
func bindSessions(s *site) {
	s.list = bind(binding{front: sessionsFront, taken: s.paths.taken, newest: true}, s.v.Sessions, func(x *view.SessionView) entry {
		return entry{shelf: s.Year(x.Date), name: s.Year(x.Date), weight: 1}
	})
}

func sessionsSheets(s *site) []sheet {
	all := s.v.Sessions
	lead := s.Say("%d sessions", len(all)) + ", " + s.Span(all[0].Date, all[len(all)-1].Date)
	return s.list.sheets(s, "Sessions", s.Say("Every session of %s: %s", s.v.Name, lead), func(p *leaf, v volume) { sessionsPage(p, p.list.in(v), lead) })
}

// leadOf says when and in how many sessions the work was done; "" where there is none.
func leadOf(s *site) string {
	all := s.v.Sessions
	if len(all) == 0 {
		return ""
	}
	return s.Span(all[0].Date, all[len(all)-1].Date) + ", " + s.Say("%d sessions", len(all))
}

func sessionsPage(p *leaf, list []*view.SessionView, lead string) {
	months := runsOf(list, func(x *view.SessionView) string { return monthID(x.Date) })
	p.Raw(`<header class="head">
<p class="eyebrow">`).Text(lead).Raw(`</p>
`)
	writeHeading(p.W, p.heading)
	p.volumes(p.list.book)
	markup.Each(p.W, months, `<p class="jump">`, func(m []*view.SessionView) {
		writeLink(p.W, Link{Text: p.Month(m[0].Date), Href: "#" + monthID(m[0].Date)}).Raw(" ")
	}, "</p>").Raw("\n</header>\n")
	for _, m := range months {
		sessionMonth(p, m)
	}
	p.chart(hoursChart(p.site, list[0].Date, list[len(list)-1].Date), markup.Around(`<section aria-labelledby="_h-hours"><h2 id="_h-hours">{Hours by week}</h2>
`, "</section>\n"))
}

func sessionMonth(p *leaf, list []*view.SessionView) {
	id, worked := monthID(list[0].Date), measure.Minutes(0)
	for _, x := range list {
		worked += x.Minutes
	}
	p.Raw(`<section class="month" id="`).Text(id).Raw(`" aria-labelledby="_h-`).Text(id).Raw(`">
<div class="monthname"><h2 id="_h-`).Text(id).Raw(`">`).Text(p.Month(list[0].Date)).Raw("</h2><p>").Text(p.Say("%d sessions", len(list))).With(", ", p.some(worked), "").Raw(`</p></div>
<ol class="rows">
`)
	for _, x := range list {
		p.Raw(`<li><time datetime="`).Text(x.Date.String()).Raw(`"><b>`).Text(x.Date.Time().Format("2")).Raw("</b> ").Text(p.Weekday(x.Date)).Raw(`</time>
<div><h3`).Typed().Raw(`>`)
		p.link(p.toSession(p.path, x.Name), x.Title).Raw(`</h3>
<p class="about">`).Quote("", title(x.Stage), "")
		p.private(x.Private).With(" · ", given(len(x.Opened) > 0, p.Say("%d opened", len(x.Opened))), "").
			With(" · ", given(len(x.Cleared) > 0, p.Say("%d cleared", len(x.Cleared))), "").Raw("</p>\n")
		if first := firstSentence(bare(x.Body)); first != "" {
			p.Raw(`<p class="first"`).Typed().Raw(">").Text(first).Raw("</p>\n")
		}
		p.Raw(`</div>
<p class="figures"><span>`).Text(p.some(x.Minutes)).Raw("</span> <span>").Text(p.someSum(x.Spent)).Raw("</span></p>")
		if list := bodyPictures(p.site, p.path, x.Body); len(list) > 0 {
			writeImage(p.Raw(`<a class="thumb" tabindex="-1" aria-hidden="true"`).Href(p.toSession(p.path, x.Name)).Raw(">"), "", p.inTurn(list[0]), "9rem").Raw("</a>")
		}
		p.Raw("</li>\n")
	}
	p.Raw("</ol>\n</section>\n")
}

// firstSentence is that of a text, or as much of it as a row has room for.
func firstSentence(s string) string {
	for at := range s {
		if at > minSentence && s[at] == ' ' && strings.ContainsRune(".!?", rune(s[at-1])) {
			return shorten(s[:at], 180)
		}
	}
	return shorten(s, 180)
}

// minSentence is how long a sentence is at least; what ends before is taken for an abbreviation.
const minSentence = 12

func hasSessions(s *site) bool { return len(s.v.Sessions) > 0 }

func sessionSheets(s *site) []sheet {
	var list []sheet
	for i, x := range s.sessions {
		list = append(list, sheet{path: s.paths.sessions[x.Name], heading: x.Title, description: bare(x.Body), typed: true, calm: !x.Safety, main: func(p *leaf) { sessionLeaf{p}.sessionPage(i, x) }})
	}
	return list
}

// isEmpty tells whether a session's page would hold nothing but its title.
func isEmpty(s *site, x *view.SessionView) bool {
	if s.v.AsTyped || x.Minutes > 0 || x.Spent != nil || x.Odometer != "" || bare(x.Body) != "" ||
		len(x.Work)+len(x.Money)+len(x.Parts)+len(x.Checks)+len(x.Readings)+len(x.Scans)+len(x.Fasteners)+len(x.Opened)+len(x.Cleared) > 0 {
		return false
	}
	if x.Body == nil {
		return true
	}
	body, err := s.md.Body(x.Body, markdown.Links{SkipHeading: x.Title})
	return err == nil && strings.TrimSpace(body.String()) == ""
}

type sessionLeaf struct{ *leaf }

func (p sessionLeaf) sessionPage(i int, x *view.SessionView) {
	var lead []*shot
	if in := shotsIn(p.leaf.site, x.Body); len(in) > 0 && in[0].alone {
		lead = []*shot{&in[0]}
	}
	p.Raw(`<article>
<header class="head">
<p class="eyebrow">`)
	p.date("", x.Date).Quote(" · ", title(x.Stage), "").If(x.Private, ` · <span class="private">{private}</span>`).Raw(`</p>
`)
	typedHeading(p.W, p.heading).Raw(`</header>
`)
	for _, in := range lead {
		pic := p.picture(p.path, in.file, in.alt)
		writeImage(p.Raw(`<figure class="lead-picture"><a`).Href(pic.Href).Raw(">"), "", p.inTurn(pic), "94vw").Raw("</a>").Quote("<figcaption>", pic.Alt, "</figcaption>").Raw("</figure>\n")
	}
	p.Raw(`<div class="sheet">
<div class="prose"`).Typed().Raw(`>
`)
	p.body(x.Body, x.Title, lead...).Raw(`
</div>
<aside class="margin" aria-label="{The figures of this session}">
`)
	p.sessionMargin(x)
	p.Raw(`</aside>
<div class="found">
`)
	p.sessionFound(x)
	p.Raw(`</div>
</div>
</article>
`)
	neighbours(p.leaf, neighbouringSessions, p.sessions, i, func(x *view.SessionView) string { return p.toSession(p.path, x.Name) }, func(x *view.SessionView) {
		p.Raw(" · ")
		p.date("", x.Date).Raw("</small> <span").Typed().Raw(">").Quote("", x.Title, "")
	})
}

var neighbouringSessions = markup.Around("<nav class=\"neighbours\" aria-label=\"{Neighbouring sessions}\">\n", "</nav>\n")

// sessionMargin tells what was worked, spent and fitted.
func (p sessionLeaf) sessionMargin(x *view.SessionView) {
	plates := []Plate{{Label: "Work", Value: p.some(x.Minutes)}, {Label: "Net", Value: p.someSum(x.Spent)}, {Label: "Odometer", Value: p.Distance(x.Odometer)}}
	writePlates(p.W, plates).Raw("\n")
	markup.Each(p.W, x.Work, "<section><h2>{Time}</h2>\n<table class=\"lines\"><tbody>\n", func(l view.WorkView) {
		p.Raw(`<tr><th scope="row">`).Text(p.Minutes(l.Minutes)).Raw("</th><td>").Quote("", l.Words, "").
			Quote(" <small>", given(l.Stage != x.Stage, l.Stage), "</small>")
		p.private(l.Private).Raw("</td></tr>\n")
	}, "</tbody></table></section>\n")
	markup.Each(p.W, x.Money, "<section><h2>{Money}</h2>\n<table class=\"lines money\"><tbody>\n", func(l *view.MoneyLine) {
		p.Raw("<tr><td>").Quote("", p.lineWords(l), "").Quote(" <small>", l.Supplier, "</small>").With(" <small>", workedOut(p.leaf.site, l), "</small>")
		p.lineReceipt(l)
		p.private(l.Private).Raw(`</td><td class="sum">`)
		p.link(p.ledger.to(p.path, anchorOfLine(p.leaf.site, l)), p.signed(l)).Raw("</td></tr>\n")
	}, "</tbody></table></section>\n")
	markup.Each(p.W, x.Parts, "<section><h2>{Parts}</h2>\n<ul class=\"plain\">\n", func(e view.PartEvent) {
		p.Raw("<li>")
		p.state(e.State).Raw(" ")
		p.quoted(p.toID(p.path, e.ID), e.Description).Quote(" <small>", p.remark(e), "</small>").Raw("</li>\n")
	}, "</ul></section>\n")
	if to := p.paths.notes[x.Path]; to != "" {
		p.Raw(`<p class="more">`)
		p.link(root(p.path)+to, p.Say("The note as typed")).Raw("</p>\n")
	}
}

// sessionFound tells what was measured, and which snags were opened and cleared.
func (p sessionLeaf) sessionFound(x *view.SessionView) {
	markup.Each(p.W, x.Readings, "<section><h2>{Measured}</h2>\n<ul class=\"plain\">\n", func(r *view.ReadingView) {
		p.Raw("<li><a").Href(p.measured.to(p.path, seriesID(r.Name))).Raw(">").Named(r.Name, title(p.Name(r.Name))).Raw("</a> ")
		p.value(p.quantity(r.Value), r.Limits.Outside(r.Value).Some()).With(" <small>", p.limits(r.Limits), "</small>").Quote(" <small>", r.Words, "</small>").Raw("</li>\n")
	}, "</ul></section>\n")
	markup.Each(p.W, x.Checks, "<section><h2>{Checked}</h2>\n<ul class=\"plain\">\n", func(c *view.CheckView) {
		p.Raw(`<li class="check`).If(c.Result == "failed", " failed").Raw(`">`)
		p.check(c)
		p.prints(c.Photos, title(p.Name(c.Name))).Raw("</li>\n")
	}, "</ul></section>\n")
	markup.Each(p.W, x.Fasteners, "<section><h2>{Fasteners}</h2>\n<ul class=\"plain\">\n", func(t view.TighteningView) {
		p.Raw("<li><b>").Named(t.ID, title(p.Name(t.ID))).Raw("</b> ")
		putTightening(p.leaf, t)
		p.Raw("</li>\n")
	}, "</ul></section>\n")
	markup.Each(p.W, x.Scans, "<section><h2>{Fault scans}</h2>\n<ul class=\"plain\">\n", func(sc *view.ScanView) {
		p.Raw("<li><a").Href(p.measured.to(p.path, unitID(sc.Unit))).Raw(">").Named(sc.Unit, title(p.Name(sc.Unit))).Raw("</a> ")
		p.value(p.scanned(sc), !sc.NoFaults).Raw("</li>\n")
	}, "</ul></section>\n")
	opened, cleared := besidesStory(x)
	markup.Each(p.W, opened, "<section><h2>{Opened}</h2>\n<ul class=\"short\">\n", func(o *view.SnagView) {
		p.Raw(`<li class="`).Text(o.Severity.String()).Raw(`">`)
		p.severity(o).Raw(" ")
		p.leading(o, p.wordsOn(o, x.Name))
		p.snagID(o).If(slices.Contains(x.Cleared, o) && !o.Undated, " <small>{cleared the same day}</small>").If(o.Undated, " <small>{ticked off, day not recorded}</small>").Raw("</li>\n")
	}, "</ul></section>\n")
	markup.Each(p.W, cleared, "<section><h2>{Cleared}</h2>\n<ul class=\"short cleared\">\n", func(o *view.SnagView) {
		p.Raw("<li>")
		p.leading(o, p.wordsOn(o, x.Name))
		p.snagID(o).Raw("</li>\n")
	}, "</ul></section>\n")
}

// besidesStory are the snags that a session opened and cleared, but for what its story tells.
func besidesStory(x *view.SessionView) (opened, cleared []*view.SnagView) {
	told := map[*view.SnagView]bool{}
	if x.Body != nil {
		for _, it := range x.Body.Items {
			told[it.Snag] = true
		}
	}
	untold := func(list []*view.SnagView) []*view.SnagView {
		return pick.Where(list, func(o *view.SnagView) bool {
			known := told[o]
			told[o] = true
			return !known
		})
	}
	opened = untold(x.Opened) // fault codes stand in the story, in the table of their scan
	return slices.DeleteFunc(opened, func(o *view.SnagView) bool { return x.Body != nil && o.Source == fact.FromScan }), untold(x.Cleared)
}
