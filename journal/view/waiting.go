package view

import (
	"cmp"
	"net/url"
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
)

// mostSteps bounds the ways followed: where each of a thousand parts holds up the same thousand snags, no end comes.
const mostSteps = 100_000

// A Waiting follows what waits for what, as it stood.
type Waiting struct {
	snags map[string][]*SnagView // the open ones, by what they wait for
	steps int                    // left
}

func (v *View) Waiting() *Waiting {
	w := &Waiting{map[string][]*SnagView{}, mostSteps}
	for _, s := range v.Snags {
		for _, id := range s.WaitsFor {
			if s.Open {
				w.snags[id] = append(w.snags[id], s)
			}
		}
	}
	return w
}

// For returns the open snags that wait for something, directly or through others, worst first.
func (w *Waiting) For(id string) []*SnagView {
	seen := map[*SnagView]bool{}
	var list []*SnagView
	ids := []string{id}
	for i := 0; i < len(ids) && (i == 0 || w.steps > 0); i++ {
		for _, s := range w.snags[ids[i]] {
			if w.steps--; s.ID != id && !seen[s] {
				seen[s], list = true, append(list, s)
				if s.ID != "" {
					ids = append(ids, s.ID)
				}
			}
		}
	}
	slices.SortStableFunc(list, CompareSnags)
	return list
}

// A Holdup is a part that is still to come, and the snags that wait for it.
type Holdup struct {
	Part  *PartView
	Snags []*SnagView
}

// Holdups are the parts that hold up snags: most first, then by the worst of them, then by id.
func (v *View) Holdups() []Holdup {
	var list []Holdup
	waiting := v.Waiting()
	for _, p := range v.Parts {
		if p.InHand() {
			continue
		}
		if snags := waiting.For(p.ID); snags != nil {
			list = append(list, Holdup{p, snags})
		}
	}
	slices.SortStableFunc(list, func(a, b Holdup) int {
		return cmp.Or(-cmp.Compare(len(a.Snags), len(b.Snags)), -cmp.Compare(a.Snags[0].Severity, b.Snags[0].Severity), cmp.Compare(a.Part.ID, b.Part.ID))
	})
	return list
}

// A toldThen says which files the sessions up to the day show, and whether others come after it.
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

// mayBeLater tells whether a picture of a card or page may be from after the day.
func (t toldThen) mayBeLater(file string) bool { return t.goesOn && !t.then[file] }

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
	return pick.Map(pick.Where(l.Clauses, func(c note.Found) bool { return c.Word == "photo" }), func(c note.Found) string { return c.Arg.S })
}
