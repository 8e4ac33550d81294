package view

import (
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

// hidden are the items of a session that are not shown.
func (b noteBody) hidden() []*note.Item {
	return pick.Where(b.note.Items, func(it *note.Item) bool { return b.body.Snags && b.body.Items[it.At] == nil })
}

// useRefs notes the files that shown bodies refer to, but not from hidden items.
func (v *viewer) useRefs() {
	mayBeLater := v.mayBeLater()
	for _, nb := range v.bodies {
		hidden := map[int]bool{}
		for _, it := range nb.hidden() {
			hidden[it.At] = true
		}
		for _, r := range nb.note.Refs {
			if slices.ContainsFunc(r.Within, func(at int) bool { return hidden[at] }) {
				continue
			}
			if file := fileOf(r); nb.undated && r.Picture && mayBeLater(v.find(file, nb.body.Dir)) {
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

// mayBeLater tells whether a picture of a card or page may be from after the day: it is if there are sessions after it,
// and none up to then shows the picture.
func (v *viewer) mayBeLater() func(file string) bool {
	goesOn, shown := false, map[string]bool{}
	for _, s := range v.st.Build.Sessions {
		if !v.st.Counts(s.Date) {
			goesOn = true
			continue
		}
		if v.st.AsOf != 0 {
			for _, ref := range pictured(s) {
				shown[v.find(ref, dirOf(s.Path))] = true
			}
		}
	}
	return func(file string) bool { return goesOn && !shown[file] }
}

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
