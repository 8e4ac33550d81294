package view

import (
	"cmp"
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/source"
	"guidecoat/journal/state"
)

// Shown is where in the notes the words stand that an audience is shown, noted as the
// view takes them in.
type Shown struct {
	Lines  map[*note.Line][]source.Span // of front matter
	Bodies map[*note.Note]bool          // whose body is shown, but for its hidden items
	Hidden map[*note.Item]bool
}

// ShownTo tells what words of the build as it stood the audience is shown; of some notes
// only, by their paths, unless that is nil.
func ShownTo(st *state.State, to Audience, only map[string]bool) *Shown {
	v := newViewer(st, to)
	v.only = only
	v.shown = &Shown{map[*note.Line][]source.Span{}, map[*note.Note]bool{}, map[*note.Item]bool{}}
	v.view()
	for _, b := range v.bodies {
		v.shown.Bodies[b.note] = true
		for at := range b.hidden() {
			v.shown.Hidden[at] = true
		}
		for _, l := range b.note.Lines {
			v.showsHead(l)
		}
	}
	return v.shown
}

// narrow leaves of the state what those notes tell of, once it is known what is hidden.
func (v *viewer) narrow() {
	st := *v.st
	in := func(s *journal.Session) bool { return v.only[s.Path] }
	st.Sessions = kept(st.Sessions, in)
	st.Money = kept(st.Money, func(m *journal.Money) bool { return in(m.Session) })
	st.Work = kept(st.Work, func(w *journal.Work) bool { return in(w.Session) })
	st.Parts = kept(st.Parts, func(p *state.Part) bool {
		return slices.ContainsFunc(p.Lines, func(l *journal.PartLine) bool { return in(l.Session) })
	})
	st.Snags = kept(st.Snags, func(s *state.Snag) bool {
		return slices.ContainsFunc(s.Events, func(e *state.Event) bool { return in(e.Session) })
	})
	v.st = &st
}

func kept[T any](list []T, keep func(T) bool) []T {
	return slices.DeleteFunc(slices.Clone(list), func(x T) bool { return !keep(x) })
}

// shows notes which words of a line are shown, where somebody asks.
func (v *viewer) shows(l *note.Line, texts ...note.Text) {
	if v.shown == nil {
		return
	}
	var places []source.Span
	for _, t := range texts {
		if t.S != "" {
			places = append(places, t.Whole())
		}
	}
	v.shown.Lines[l] = places
}

// showsHead notes the lines that every page made of their note shows.
func (v *viewer) showsHead(l *note.Line) {
	switch {
	case v.st.Build.LeftOut(l):
	case l.Kind.Key == "build", l.Kind.Key == "page", l.Kind.Key == "title", l.Kind.Key == "stage":
		v.shows(l, l.Words())
	case l.Kind.Key == "stages":
		v.shown.Lines[l] = []source.Span{l.NameSpan()}
	case l.Kind.Key == "due checks" && v.snagsSeen:
		v.shows(l, cmp.Or(textOf(l, "because"), l.Words()))
	}
}

// textOf is what is written behind a clause.
func textOf(l *note.Line, clause string) note.Text {
	if c := l.Clause(clause); c != nil {
		return c.Arg
	}
	return note.Text{}
}
