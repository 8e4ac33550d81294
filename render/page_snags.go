package render

import (
	"cmp"
	"slices"

	"guidecoat/journal/pick"
	"guidecoat/journal/view"
	"guidecoat/render/markup"
)

// The page of snags: what is outstanding first, and folded behind it by year and system what was cleared.

// bindSnags puts in front what is outstanding, and behind it by year and system what was cleared.
func bindSnags(s *site) {
	list := slices.Clone(s.v.Snags)
	slices.SortStableFunc(list, func(a, b *view.SnagView) int {
		if a.Open || b.Open {
			return standing(a) - standing(b)
		}
		return cmp.Or(b.Cleared.Time().Year()-a.Cleared.Time().Year(), cmp.Compare(systemRank(a), systemRank(b)), cmp.Compare(b.Cleared, a.Cleared))
	})
	s.snags = bind(binding{front: snagsFront, taken: s.paths.taken}, list, func(x *view.SnagView) entry {
		e := entry{shelf: "outstanding", name: s.Word("Outstanding"), weight: 2 + len(worthTelling(x)) + len(x.Photos()), anchors: []string{s.paths.snags[x], snagGroups[standing(x)].id}}
		if !x.Open {
			e.shelf, e.name = s.Year(x.Cleared), s.Say("Cleared in %s", s.Year(x.Cleared))
		}
		return e
	})
}

func snagsSheets(s *site) []sheet {
	counted := snagsOn(s)
	told := s.Say("What is outstanding on %s and what was put right.", s.v.Name)
	list := s.snags.sheets(s, "Snags", told, func(p *leaf, v volume) { snagsPage(p, v, counted(v)) })
	for i, v := range s.snags.volumes {
		list[i].description += " " + counted(v)
	}
	return list
}

// snagsOn says how many snags there are, or how many another page goes on with.
func snagsOn(s *site) func(volume) string {
	all := map[string]int{} // those outstanding by "", the others by the year
	of := func(x *view.SnagView) string {
		if x.Open {
			return ""
		}
		return s.Year(x.Cleared)
	}
	for _, x := range s.snags.list {
		all[of(x)]++
	}
	return func(v volume) string {
		if list := s.snags.in(v); !v.front {
			n, of, in := len(list), all[of(list[0])], s.Year(list[0].Cleared)
			switch open := list[0].Open; {
			case open && n == of:
				return s.Say("%d outstanding.", n)
			case open:
				return s.Say("%d of the %d outstanding.", n, of)
			case n == of:
				return s.Say("%d cleared in %s.", n, in)
			}
			return s.Say("%d of the %d cleared in %s.", n, of, in)
		}
		switch t := tallyOf(s); {
		case t.unseen > 0:
			return s.Say("%d outstanding, %d of them not shown here; %d cleared", t.open, t.unseen, t.cleared) + s.toldWords(t) + "."
		case t.open > 0:
			return s.Say("%d outstanding, %d cleared", t.open, t.cleared) + s.toldWords(t) + "."
		default:
			return s.Say("Nothing is outstanding; %d cleared", t.cleared) + s.toldWords(t) + "."
		}
	}
}

func snagsPage(p *leaf, v volume, count string) {
	groups := runsOf(p.snags.in(v), standing)
	var chart *Chart
	if v.front {
		chart = openChart(p.site)
	}
	p.Raw(`<header class="head split">
<div>`)
	writeHeading(p.W, p.heading).Raw(`<p class="lead">`).Text(count).If(v.front, " <small>{This counts what the notes say is to be done, checks due or failed, readings outside their limits, fault codes and surcharges to come back.}</small>").Raw("</p>\n")
	if jump := snagJump(p.site, groups, chart); len(jump) > 1 {
		markup.Each(p.W, jump, `<p class="jump">`, func(l Link) { writeLink(p.W, l).Raw(" ") }, "</p>\n")
	}
	p.volumes(p.snags.book)
	if v.front {
		p.writeWithheld()
	}
	p.Raw("</div>\n")
	if v.front {
		t := tallyOf(p.site)
		p.makeDial(t.cleared, t.open+t.cleared).write(p.W)
	}
	p.Raw("\n</header>\n")
	for _, g := range groups {
		if at := standing(g[0]); at != atCleared {
			id := snagGroups[at].id
			p.Raw(`<section id="`).Text(id).Raw(`" aria-labelledby="_h`).Text(id).Raw(`"><h2 id="_h`).Text(id).Raw(`">`).Text(p.Called(snagGroups[at].name))
			markup.Each(p.W, g, "</h2>\n<ul class=\"items\">\n", p.openSnag, "</ul></section>\n")
		}
	}
	if v.front {
		p.strip()
	}
	p.chart(chart, markup.Around(`<section aria-labelledby="_h-time"><h2 id="_h-time">{Open snags over time}</h2>
`, "</section>\n"))
	if n := len(groups); n > 0 && standing(groups[n-1][0]) == atCleared {
		markup.Each(p.W, runsOf(groups[n-1], systemRank), `<section id="_cleared" aria-labelledby="_h-cleared"><h2 id="_h-cleared">{Cleared}</h2>
`, func(same []*view.SnagView) {
			p.Raw("<details class=\"fold\"><summary><h3>").Text(p.systemName(systemOf(same[0]))).Raw("</h3> <small>").Text(p.Grouped(len(same)))
			markup.Each(p.W, same, "</small></summary>\n<ul class=\"items cleared\">\n", p.clearedSnag, "</ul></details>\n")
		}, "</section>\n")
	}
}

func snagJump(s *site, groups [][]*view.SnagView, chart *Chart) []Link {
	list := pick.Map(groups, func(g []*view.SnagView) Link {
		of := snagGroups[standing(g[0])]
		return Link{Text: s.Word(of.name), Href: "#" + of.id}
	})
	if chart != nil { // it stands before what was cleared
		open := pick.Count(groups, func(g []*view.SnagView) bool { return standing(g[0]) != atCleared })
		list = slices.Insert(list, open, Link{Text: s.Say("Over time"), Href: "#_h-time"})
	}
	return list
}
