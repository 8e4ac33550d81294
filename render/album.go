package render

import (
	"cmp"
	"slices"
	"strconv"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
)

// The album holds every picture once, by the day that first shows it. Each has a page of its own.

// A shot is a picture as it is shown first.
type shot struct {
	file    *file
	alt     string
	date    measure.Date // 0 where no session shows it
	session *view.SessionView
	place   string // the system of the vehicle that it is of; "" for the whole
	told    bool   // it stands in the story, not with a part, a snag or a check
	alone   bool   // it is all that its paragraph holds
	page    string // the path of its page
}

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
	for _, b := range s.undatedBodies() {
		for _, in := range shotsIn(s, b) {
			add(in, nil, 0, "")
		}
	}
	for _, of := range with[""] { // of lines whose session has no page
		add(of, nil, of.date, of.place)
	}
	slices.SortStableFunc(s.album, func(a, b *shot) int {
		if (a.date == 0) != (b.date == 0) {
			return cmp.Compare(b.date, a.date)
		}
		return cmp.Compare(a.date, b.date)
	})
}

func (s *site) undatedBodies() []*view.Body {
	list := []*view.Body{s.v.About}
	list = append(list, pick.Map(s.v.Pages, func(x *view.PageView) *view.Body { return x.Body })...)
	return list
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
	list := slices.DeleteFunc(slices.Clone(s.album), func(x *shot) bool { return x.date == 0 || !x.told })
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
