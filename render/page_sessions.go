package render

import (
	"strings"

	"guidecoat/journal/measure"
	"guidecoat/journal/view"
	"guidecoat/render/markup"
)

// bindSessions binds them by year, so that an old one stays on its page.
func bindSessions(s *site) {
	s.list = bind(binding{front: sessionsFront, taken: s.paths.taken, newest: true}, s.v.Sessions, func(x *view.SessionView) entry {
		return entry{shelf: year(x.Date), name: year(x.Date), weight: 1}
	})
}

func sessionsSheets(s *site) []sheet {
	all := s.v.Sessions
	lead := s.Say("%d sessions", len(all)) + ", " + s.Span(all[0].Date, all[len(all)-1].Date)
	return s.list.sheets(func(v volume) sheet {
		return sheet{heading: v.heading(s, "Sessions"), description: s.Say("Every session of %s: %s", s.v.Name, lead), main: func(p *leaf) { sessionsPage(p, p.list.in(v), lead) }}
	})
}

// leadOf says when and in how many sessions the work was done; "" where there is none.
func leadOf(s *site) string {
	all := s.v.Sessions
	if len(all) == 0 {
		return ""
	}
	return s.Span(all[0].Date, all[len(all)-1].Date) + ", " + s.Say("%d sessions", len(all))
}

var hoursByWeek = markup.Around(`<section aria-labelledby="_h-hours"><h2 id="_h-hours">{Hours by week}</h2>
`, "</section>\n")

func sessionsPage(p *leaf, list []*view.SessionView, lead string) {
	months := runs(list, func(x *view.SessionView) string { return monthID(x.Date) })
	p.Raw(`<header class="head">
<p class="eyebrow">`).Text(lead).Raw(`</p>
`)
	writeHeading(p.W, p.heading)
	p.volumes(p.list.book)
	markup.Each(p.W, months, `<p class="jump">`, func(m []*view.SessionView) {
		writeLink(p.W, Link{Text: p.Month(m[0].Date), Href: "#" + monthID(m[0].Date)}).Raw(" ")
	}, "</p>")
	p.Raw("\n</header>\n")
	for _, m := range months {
		sessionMonth(p, m)
	}
	p.chart(hoursChart(p.site, list[0].Date, list[len(list)-1].Date), hoursByWeek)
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
		p.link(p.session(p.path, x.Name), x.Title).Raw(`</h3>
<p class="about">`).Quote("", title(x.Stage), "")
		p.private(x.Private)
		if n := len(x.Opened); n > 0 {
			p.Raw(" · ").Text(p.Say("%d opened", n))
		}
		if n := len(x.Cleared); n > 0 {
			p.Raw(" · ").Text(p.Say("%d cleared", n))
		}
		p.Raw("</p>\n")
		if first := firstSentence(bare(x.Body)); first != "" {
			p.Raw(`<p class="first"`).Typed().Raw(">").Text(first).Raw("</p>\n")
		}
		p.Raw(`</div>
<p class="figures"><span>`).Text(p.some(x.Minutes)).Raw("</span> <span>")
		if x.Spent != nil && !x.Spent.IsZero() {
			p.Text(p.sum(*x.Spent))
		}
		p.Raw("</span></p>")
		if list := bodyPictures(p.site, p.path, x.Body); len(list) > 0 {
			writeImage(p.Raw(`<a class="thumb" tabindex="-1" aria-hidden="true"`).Href(p.session(p.path, x.Name)).Raw(">"), "", p.inTurn(list[0]), "9rem").Raw("</a>")
		}
		p.Raw("</li>\n")
	}
	p.Raw("</ol>\n</section>\n")
}

// firstSentence is that of a text, or as much of it as a row has room for.
func firstSentence(s string) string {
	for at := range s {
		if at > 0 && s[at] == ' ' && strings.ContainsRune(".!?", rune(s[at-1])) && at > minSentence {
			s = s[:at]
			break
		}
	}
	return shorten(s, 180)
}

// minSentence is how long a sentence is at least; what ends before is taken for an abbreviation.
const minSentence = 12
