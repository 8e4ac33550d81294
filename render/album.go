package render

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
	"guidecoat/render/markup"
)

// The album holds every picture once, by the day that first shows it. Each has a page of its own.

// shotWords are what a picture shows; it is just a picture where the notes have no words for it.
func (s *voice) shotWords(x *shot) string { return title(cmp.Or(x.alt, s.Say("Picture"))) }

// gatherAlbum finds the pictures of the notes, the earliest first, and those of no date last.
func (s *site) gatherAlbum() {
	s.shots = map[string]*shot{}
	dated := map[measure.Date]int{}
	add := func(x shot, session *view.SessionView, date measure.Date, place string) {
		if s.shots[x.file.at] != nil {
			return
		}
		x.session, x.date, x.place = session, date, place
		name := cmp.Or(date.String(), "undated") // the name of a file may tell what nobody is to know
		dated[date]++
		x.page = albumFolder + name + "-" + strconv.Itoa(dated[date]) + ".html"
		s.shots[x.file.at] = &x
		s.album = append(s.album, &x)
	}
	with := s.clauseShots()
	for _, x := range s.v.Sessions {
		for _, in := range shotsIn(s, x.Body) {
			in.told = true
			add(in, x, x.Date, x.System)
		}
		for _, of := range with[x.Name] {
			add(of, x, x.Date, of.place)
		}
	}
	undated := pick.Map(s.v.Pages, func(x *view.PageView) *view.Body { return x.Body })
	for _, b := range append([]*view.Body{s.v.About}, undated...) {
		for _, in := range shotsIn(s, b) {
			add(in, nil, 0, "")
		}
	}
	for _, of := range with[""] { // of lines whose session has no page
		add(of, nil, of.date, of.place)
	}
	const last = math.MaxInt32
	slices.SortStableFunc(s.album, func(a, b *shot) int { return cmp.Compare(cmp.Or(a.date, last), cmp.Or(b.date, last)) })
}

// clauseShots are the pictures of parts, snags and checks by the session that names them.
func (s *site) clauseShots() map[string][]shot {
	list := map[string][]shot{}
	add := func(session string, date measure.Date, system string, photos []string, alt string) {
		for _, p := range photos {
			if f := s.files[p]; f != nil && f.picture != nil {
				list[session] = append(list[session], shot{file: f, alt: alt, date: date, place: system})
			}
		}
	}
	for _, x := range s.v.Parts {
		for _, e := range x.Events {
			add(e.Session, e.Date, x.System, e.Photos, x.Description)
		}
	}
	for _, x := range s.v.Snags {
		for _, e := range x.Events {
			words := s.wordsOf(x)
			if e.What == fact.Cleared {
				words = cmp.Or(s.eventWords(e), words)
			}
			add(e.Session, e.Date, x.System, e.Photos, note.PlainWords(words))
		}
	}
	for _, c := range s.v.Checks {
		add(c.Session, c.Date, c.System, c.Photos, title(s.Name(c.Name)))
	}
	return list
}

// cure are the two pictures that tell the whole: the earliest, and the job card's once sold, else the newest.
func (s *site) cure() (crash, cured *shot) {
	list := pick.Where(s.album, func(x *shot) bool { return x.date != 0 && x.told })
	if len(list) == 0 {
		return nil, nil
	}
	crash = list[0]
	if s.v.SoldOn != 0 {
		for _, in := range shotsIn(s, s.v.About) {
			if x := s.shots[in.file.at]; x.date != 0 && x != crash {
				return crash, x
			}
		}
	}
	if newest := list[len(list)-1]; newest != crash {
		return crash, newest
	}
	return crash, nil
}

func (s *site) shot(at string, x *shot) *Picture { return s.picture(at, x.file, s.shotWords(x)) }

func nonNil(list ...*shot) []*shot {
	return pick.Where(list, func(x *shot) bool { return x != nil })
}

// bindAlbum binds the pictures twice: by month, and by the place of the vehicle.
func bindAlbum(s *site) {
	s.gatherAlbum()
	s.months = bind(binding{front: albumFront, taken: s.paths.taken}, s.album, func(x *shot) entry {
		name := s.undated(x, s.Year)
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
	list := s.months.sheets(s, "Pictures", s.Say("Every picture of %s, by date.", s.v.Name), func(p *leaf, v volume) {
		albumPage(p, p.months.book, p.months.in(v), func(x *shot) string { return s.undated(x, s.Month) })
	})
	told := s.Say("Every picture of %s, by the place of the vehicle that it shows.", s.v.Name)
	return append(list, s.places.sheets(s, "Pictures by place", told, func(p *leaf, v volume) {
		albumPage(p, p.places.book, p.places.in(v), func(x *shot) string { return s.placeName(x.place) })
	})...)
}

// albumPage shows pictures small, under headings.
func albumPage(p *leaf, b *book, list []*shot, under func(*shot) string) {
	p.begin().Raw(`<p class="jump">`)
	for _, l := range []Link{{Text: p.Say("By date"), Href: albumFront}, {Text: p.Say("By place"), Href: placesFront}} {
		if l.Href == b.front {
			l.Current = "true"
		}
		l.Href = root(p.path) + l.Href
		writeLink(p.W, l).Raw(" ")
	}
	p.Raw("</p>\n")
	p.volumes(b).Raw("</header>\n")
	for _, same := range runsOf(list, under) {
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
		p.quoted(p.toSession(p.path, x.session.Name), x.session.Title).Raw(" · ")
	}
	p.Raw("<a").Href(root(p.path) + p.months.front).Raw(">{All pictures}</a></p>\n</article>\n")
	neighbours(p, neighbouringShots, p.album, i, func(x *shot) string { return root(p.path) + x.page }, func(x *shot) {
		p.With(" · ", p.Day(x.date), "").Raw("</small> <span>").Quote("", p.shotWords(x), "")
	})
}

var neighbouringShots = markup.Around("<nav class=\"neighbours\" aria-label=\"{Neighbouring pictures}\">\n", "</nav>\n")

// onTape writes a picture with the day it is of on a piece of tape; sizes says how wide it is shown.
func onTape(p *leaf, x *shot, sizes string) {
	pic := p.shot(p.path, x)
	writeImage(p.Raw("<figure><a").Href(pic.Href).Raw(">"), "", p.inTurn(pic), sizes).Raw("</a><figcaption>")
	if x.date != 0 {
		writeTime(p.Raw(`<span class="tape">`), x.date, p.Day(x.date)).Raw("</span> ")
	}
	p.Quote("", pic.Alt, "").Raw("</figcaption></figure>\n")
}
