package view

import (
	"iter"
	"net/url"
	"path"
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/state"
)

// The files that the notes refer to, and the bodies that show them.

// use notes that a file is referred to, and returns its path; "" where the build has no such file.
func (v *viewer) use(ref, dir string) string {
	p := v.find(ref, dir)
	if p != "" {
		v.files[p] = true
	}
	return p
}

func (v *viewer) find(ref, dir string) string {
	for _, base := range []string{dir, v.st.Build.Path} {
		p := path.Join(base, ref)
		if strings.HasSuffix(p, ".md") {
			return "" // a note leads to its page, if it has one; as a file it would tell what is private
		}
		if p = v.st.Build.Find(p); ref != "" && p != "" {
			return p
		}
	}
	return ""
}

// fileOf is the file that a link of a note leads to, "" where it is none.
func fileOf(r note.Ref) string {
	file, _, _ := strings.Cut(r.Target, "#") // a.pdf#page=2 is a.pdf
	file, _ = url.PathUnescape(file)
	return file
}

func dirOf(notePath string) string { return path.Dir(notePath) }

func (v *viewer) body(n *note.Note, dir string, snags bool) *Body {
	if n.Unread {
		return nil
	}
	b := &Body{Doc: n.Doc, Source: n.File.Data, Lead: n.Lead, Snags: snags, Dir: dir, Later: map[string]bool{}}
	if len(n.Items) > 0 {
		b.Items = make(map[int]*ItemView, len(n.Items))
	}
	v.bodies = append(v.bodies, noteBody{n, b, !snags})
	return b
}

type noteBody struct {
	note    *note.Note
	body    *Body
	undated bool // it is of the job card or a page
}

func (b noteBody) hidden() iter.Seq[*note.Item] {
	return func(yield func(*note.Item) bool) {
		for _, it := range b.note.Items {
			if b.body.Snags && b.body.Items[it.At] == nil && !yield(it) {
				return
			}
		}
	}
}

// useRefs notes the files that shown bodies refer to, but not from hidden items.
func (v *viewer) useRefs() {
	told := v.toldThen()
	for _, nb := range v.bodies {
		hidden := map[int]bool{}
		for it := range nb.hidden() {
			hidden[it.At] = true
		}
		for _, r := range nb.note.Refs {
			if slices.ContainsFunc(r.Within, func(at int) bool { return hidden[at] }) {
				continue
			}
			if file := fileOf(r); nb.undated && r.Picture && told.mayBeLater(v.find(file, nb.body.Dir)) {
				nb.body.Later[file] = true
			} else {
				v.use(file, nb.body.Dir)
			}
		}
	}
}

func (v *viewer) photos(l *note.Line, dir string) []string {
	used := pick.Map(photosOf(l), func(ref string) string { return v.use(ref, dir) })
	return pick.Where(used, func(p string) bool { return p != "" })
}

// attached tells whether a picture stands with what was said, and whether another file does.
func (v *viewer) attached(e *state.Event) (picture, file bool) {
	if e.Item == nil {
		return false, false
	}
	dir := dirOf(e.Session.Path)
	picture = len(v.photos(e.Item.Line, dir)) > 0
	for _, r := range e.Session.Note.Refs {
		if slices.Contains(r.Within, e.Item.At) && v.find(fileOf(r), dir) != "" {
			picture, file = picture || r.Picture, file || !r.Picture
		}
	}
	return picture, file
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
		if r.Picture {
			list = append(list, fileOf(r))
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
