package render

import (
	"cmp"
	"slices"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/render/markup"
)

const (
	albumFolder = "album/"
	albumFront  = albumFolder + "index.html"
	placesFront = albumFolder + "places.html"
)

// placeName is what a system of the vehicle is called in the album.
func (s *voice) placeName(system string) string {
	return title(cmp.Or(s.Name(system), s.Say("The whole vehicle")))
}

// bindAlbum binds the pictures twice: by month, and by the place of the vehicle.
func bindAlbum(s *site) {
	s.gatherAlbum()
	s.months = bind(binding{front: albumFront, taken: s.paths.taken}, s.album, func(x *shot) entry {
		name := s.undated(x, year)
		return entry{shelf: slug(name), name: name, weight: 2}
	})
	places := slices.Clone(s.album)
	slices.SortStableFunc(places, func(a, b *shot) int {
		return cmp.Compare(slices.Index(note.Systems, a.place), slices.Index(note.Systems, b.place)) // the whole first
	})
	s.places = bind(binding{front: placesFront, taken: s.paths.taken}, places, func(x *shot) entry {
		return entry{shelf: "place-" + slug(cmp.Or(x.place, "whole")), name: s.placeName(x.place), weight: 2}
	})
}

// undated is what a picture stands under: its date, or nothing where no session shows it.
func (s *voice) undated(x *shot, date func(measure.Date) string) string {
	if x.date == 0 {
		return s.Say("Without a date")
	}
	return date(x.date)
}

func hasAlbum(s *site) bool { return len(s.album) > 0 }

func albumSheets(s *site) []sheet {
	list := s.months.sheets(func(v volume) sheet {
		return sheet{heading: v.heading(s, "Pictures"), description: s.Say("Every picture of %s, by date.", s.v.Name), main: func(p *leaf) {
			albumPage(p, p.months.book, p.months.in(v), func(x *shot) string { return s.undated(x, s.Month) })
		}}
	})
	return append(list, s.places.sheets(func(v volume) sheet {
		return sheet{heading: v.heading(s, "Pictures by place"), description: s.Say("Every picture of %s, by the place of the vehicle that it shows.", s.v.Name), main: func(p *leaf) {
			albumPage(p, p.places.book, p.places.in(v), func(x *shot) string { return s.placeName(x.place) })
		}}
	})...)
}

// albumPage shows pictures small, under headings.
func albumPage(p *leaf, b *book, list []*shot, under func(*shot) string) {
	p.begin().Raw(`<p class="jump">`)
	for _, l := range []Link{{Text: p.Say("By date"), Href: albumFront}, {Text: p.Say("By place"), Href: placesFront}} {
		if l.Href == b.front() {
			l.Current = "true"
		}
		l.Href = root(p.path) + l.Href
		writeLink(p.W, l).Raw(" ")
	}
	p.Raw("</p>\n")
	p.volumes(b)
	p.Raw("</header>\n")
	for _, same := range runs(list, under) {
		p.Raw("<section><h2>").Text(under(same[0]))
		markup.Each(p.W, same, "</h2>\n<ul class=\"album\">\n", func(x *shot) { smallShot(p, p.shot(p.path, x), x) }, "</ul></section>\n")
	}
}

func smallShot(p *leaf, pic *Picture, x *shot) {
	writeImage(p.Raw("<li><figure><a").Href(pic.Href).Raw(">"), "", p.inTurn(pic), "(min-width: 40em) 14rem, 45vw").Raw(`</a><figcaption aria-hidden="true">`)
	p.Quote("", pic.Alt, "").With(" · ", p.ShortDay(x.date, p.inYears), "").Raw("</figcaption></figure></li>\n")
}

func shotSheets(s *site) []sheet {
	var list []sheet
	for i, x := range s.album {
		list = append(list, sheet{path: x.page, heading: s.shotWords(x), description: s.shotWords(x), typed: true, calm: true, main: func(p *leaf) { shotPage(p, i, x) }})
	}
	return list
}

func shotPage(p *leaf, i int, x *shot) {
	pic := p.shot(p.path, x)
	p.Raw(`<article class="shot">
<header class="head">
<p class="eyebrow">`).Text(p.Say("Picture %d of %d", i+1, len(p.album))).Raw(" · ").With("", p.Day(x.date), " · ").Text(p.placeName(x.place)).Raw("</p>\n")
	typedHeading(p.W, p.heading).Raw("</header>\n<p class=\"large\"><a").Href(pic.File).Raw(` title="{The picture alone}">`)
	writeImage(p.W, "", p.inTurn(pic), "94vw").Raw("</a></p>\n<p class=\"from\">")
	if x.session != nil {
		p.Raw("{From the session} ")
		p.quoted(p.session(p.path, x.session.Name), x.session.Title).Raw(" · ")
	}
	p.Raw("<a").Href(root(p.path) + p.months.front()).Raw(">{All pictures}</a></p>\n</article>\n")
	if len(p.album) == 1 {
		return
	}
	p.Raw("<nav class=\"neighbours\" aria-label=\"{Neighbouring pictures}\">\n")
	if i > 0 {
		neighbourShot(p, p.album[i-1], p.Raw(`<a class="prev"`), "prev", "Earlier")
	}
	if i+1 < len(p.album) {
		neighbourShot(p, p.album[i+1], p.Raw(`<a class="next"`), "next", "Later")
	}
	p.Raw("</nav>\n")
}

func neighbourShot(p *leaf, x *shot, w *markup.W, rel, label string) {
	w.Href(root(p.path)+x.page).Raw(` rel="`).Text(rel).Raw(`"><small>`).Text(w.Called(label)).With(" · ", p.Day(x.date), "").Raw("</small> <span>").Quote("", p.shotWords(x), "").Raw("</span></a>\n")
}
