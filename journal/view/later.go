package view

import (
	"net/url"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/note"
)

// A toldThen says which files the sessions show that count on the day
// that is told of, and whether others come after it.
type toldThen struct {
	goesOn bool // there are sessions after that day
	then   map[string]bool
}

func (v *viewer) toldThen() toldThen {
	t := toldThen{then: map[string]bool{}}
	for _, s := range v.st.Build.Sessions {
		if !v.st.Counts(s.Date) {
			t.goesOn = true
			continue
		}
		if v.st.AsOf != 0 {
			for _, ref := range pictured(s) {
				t.then[v.find(ref, dirOf(s.Path))] = true
			}
		}
	}
	return t
}

// mayBeLater tells whether a picture of the job card or a page may be from after the day:
// the work goes on after it, and no session shows the picture by then.
func (t toldThen) mayBeLater(file string) bool { return t.goesOn && !t.then[file] }

// pictured are the targets of the pictures that a session shows.
func pictured(s *journal.Session) []string {
	var list []string
	for _, r := range s.Note.Refs {
		target, _, _ := strings.Cut(r.Target, "#")
		if target, err := url.PathUnescape(target); err == nil && r.Picture {
			list = append(list, target)
		}
	}
	lines := s.Note.Lines
	for _, it := range s.Note.Items {
		if it.Line != nil {
			lines = append(lines[:len(lines):len(lines)], it.Line)
		}
	}
	for _, l := range lines {
		list = append(list, photosOf(l)...)
	}
	return list
}

func photosOf(l *note.Line) []string {
	var list []string
	for _, c := range l.Clauses {
		if c.Word == "photo" {
			list = append(list, c.Arg.S)
		}
	}
	return list
}

func (b *Body) leaveOut(target string) {
	if b.Later == nil {
		b.Later = map[string]bool{}
	}
	b.Later[target] = true
}
