package view

import (
	"cmp"

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

// ShownTo tells what words of the build as it stood the audience is shown.
func ShownTo(st *state.State, to Audience) *Shown {
	v := newViewer(st, to)
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
