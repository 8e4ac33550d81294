package render

import (
	"html/template"

	"guidecoat/journal/problem"
	"guidecoat/journal/view"
)

type extraPage struct {
	Frame
	Body template.HTML
}

func (s *site) extraSheets() []sheet {
	var list []sheet
	for _, x := range s.v.Pages {
		at := s.paths.pages[x.Path]
		list = append(list, sheet{at, func() (any, error) {
			body, err := s.body(at, x.Body, x.Title)
			p := extraPage{s.frame(at, "extra", x.Title, bare(x.Body)), body}
			return p, err
		}})
	}
	return list
}

// pagesFront leads to all extra pages, where there are too many for the navigation.
const pagesFront = "pages/index.html"

type notesPage struct {
	Frame
	Rows []NoteRow
}

// A NoteRow is one raw note, or extra page, in their list.
type NoteRow struct {
	Link             template.HTML
	Errors, Warnings string
}

func (s *site) bindNotes() {
	s.notes = bind(binding{front: "notes/index.html", taken: s.paths.taken}, s.o.Notes, func(RawNote) entry {
		return entry{shelf: "page", name: "All", weight: 1}
	})
	s.extra = bind(binding{front: pagesFront, taken: s.paths.taken}, s.v.Pages, func(*view.PageView) entry {
		return entry{shelf: "page", name: "All", weight: 1}
	})
}

func (s *site) notesSheets() []sheet {
	list := s.extra.sheets(len(s.v.Pages) > mostPages, func(v volume) (any, error) {
		at := v.path
		p := notesPage{Frame: s.frame(at, "notes", v.heading("All pages"), "Every page of this site besides those of its notes.")}
		p.Volumes = s.extra.nav(at)
		for _, x := range s.extra.in(v) {
			p.Rows = append(p.Rows, NoteRow{Link: link(root(at)+s.paths.pages[x.Path], x.Title)})
		}
		return p, nil
	})
	return append(list, s.notes.sheets(len(s.o.Notes) > 0, func(v volume) (any, error) {
		at := v.path
		p := notesPage{Frame: s.frame(at, "notes", v.heading("The notes as typed"), "Every note of this build as it was typed, with what is wrong with it.")}
		p.Volumes = s.notes.nav(at)
		for _, n := range s.notes.in(v) {
			p.Rows = append(p.Rows, s.noteRow(at, n))
		}
		return p, nil
	})...)
}

type notePage struct {
	Frame
	Row  NoteRow
	Page template.HTML // the page made of it
	Body template.HTML
}

func (s *site) noteSheets() []sheet {
	var list []sheet
	for _, n := range s.o.Notes {
		at := s.paths.notes[n.File.Path]
		list = append(list, sheet{at, func() (any, error) {
			p := notePage{Frame: s.frame(at, "note", n.File.Path, "The note "+n.File.Path+" as it was typed."), Row: s.noteRow(at, n),
				Body: s.md.Note(n.File, n.Problems)}
			if to := s.paths.byNote[n.File.Path]; to != "" {
				p.Page = link(root(at)+to, "The page made of it")
			}
			return p, nil
		}})
	}
	return list
}

func (s *site) noteRow(at string, n RawNote) NoteRow {
	row := NoteRow{Link: link(root(at)+s.paths.notes[n.File.Path], n.File.Path)}
	errors, warnings := problem.Count(n.Problems)
	if errors > 0 {
		row.Errors = count(errors, "error")
	}
	if warnings > 0 {
		row.Warnings = count(warnings, "warning")
	}
	return row
}
