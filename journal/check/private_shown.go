package check

import (
	"cmp"
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/source"
	"guidecoat/journal/state"
)

// publicWords knows which words of the notes the public page shows.
type publicWords struct {
	public journal.Public
	hidden map[*note.Item]bool // what is said of private snags
}

func shownTo(st *state.State) *publicWords {
	w := &publicWords{public: st.Build.Card.Public, hidden: map[*note.Item]bool{}}
	for _, s := range st.Snags {
		for _, e := range s.Events {
			if e.Item != nil && (s.Private || e.Private) {
				w.hidden[e.Item] = true
			}
		}
	}
	return w
}

// of are the words of a line of front matter that are shown.
func (w *publicWords) of(l *note.Line) (list []source.Span) {
	if l.Bad || l.Has("private") {
		return nil
	}
	add := func(t note.Text) {
		if t.S != "" {
			list = append(list, t.Whole())
		}
	}
	switch l.Kind.Key {
	case "time":
		if w.public.Hours {
			add(l.Words())
		}
	case "cost", "credit":
		if w.public.Money == "lines" {
			add(l.Words())
		}
	case "due checks":
		if c := l.Clause("because"); w.public.Snags && c != nil {
			add(c.Arg)
		} else if w.public.Snags {
			add(l.Words())
		}
	case "vehicle":
		if (journal.Detail{Name: l.Name}).Kind() == "" {
			add(l.Words())
		}
	case "stages":
		list = append(list, l.NameSpan())
	case "parts":
		add(l.Words())
		for _, word := range []string{"number", "donor"} {
			if c := l.Clause(word); c != nil {
				add(c.Arg)
			}
		}
	case "build", "page", "title", "stage", "checks", "readings":
		add(l.Words())
	}
	return list
}

// gaps are the parts of a body that are not shown, in order: the items of hidden
// snags with all that hangs on them, and what clauses say.
func (w *publicWords) gaps(n *note.Note) (gaps []source.Span) {
	for _, it := range n.Items {
		if it.Bad || !w.public.Snags || it.Has("private") || w.hidden[it] {
			gaps = append(gaps, n.File.Span(it.At, it.End))
			continue
		}
		for _, c := range it.Clauses {
			gaps = append(gaps, c.Span)
		}
	}
	slices.SortFunc(gaps, func(a, b source.Span) int { return cmp.Compare(a.Start, b.Start) })
	return gaps
}
