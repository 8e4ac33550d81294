package view

import (
	"iter"
	"net/url"
	"path"
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"

	"github.com/shopspring/decimal"
)

// vehicle returns the details, numbers that identify it as far as they may be shown.
func (v *viewer) vehicle() []Detail {
	var list []Detail
	for _, d := range v.st.Build.Card.Vehicle {
		switch kind := d.Kind(); {
		case kind == journal.VIN && v.vin != "masked" && v.vin != "full", kind == journal.Registration && !v.plate, kind == journal.Contact && !v.contact:
			continue
		case kind == journal.VIN && v.vin == "masked":
			d.Value = maskVIN(d.Value)
		default:
			v.shows(d.Line, d.Line.Words())
		}
		list = append(list, Detail{d.Name, d.Value, d.Kind() == journal.Contact})
	}
	return list
}

// maskVIN leaves the first three characters, which name the maker and no vehicle.
func maskVIN(vin string) string {
	runes := []rune(vin)
	first := min(3, len(runes))
	return string(runes[:first]) + strings.Repeat("•", len(runes)-first)
}

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
			target, _, _ := strings.Cut(r.Target, "#") // a.pdf#page=2 is a.pdf
			target, err := url.PathUnescape(target)
			switch {
			case err != nil:
			case nb.undated && r.Picture && told.mayBeLater(v.find(target, nb.body.Dir)):
				nb.body.Later[target] = true
			default:
				v.use(target, nb.body.Dir)
			}
		}
	}
}

func (v *viewer) photos(l *note.Line, dir string) []string {
	used := pick.Map(photosOf(l), func(ref string) string { return v.use(ref, dir) })
	return pick.Where(used, func(p string) bool { return p != "" })
}

func (v *viewer) viewSessions(out *View) {
	byName := map[string]*SessionView{}
	for _, s := range v.st.Sessions {
		if _, ok := v.names[s]; !ok {
			continue
		}
		w := v.session(s)
		byName[w.Name] = w
		out.Sessions = append(out.Sessions, w)
	}
	for _, m := range v.st.Money {
		w := byName[v.names[m.Session]]
		if w == nil || !v.lines || !v.moneySeen(m) {
			continue
		}
		if w.Spent == nil {
			w.Spent = new(decimal.Decimal)
		}
		sum := m.Sum.Build
		if m.Credit {
			sum = sum.Neg()
		}
		*w.Spent = w.Spent.Add(sum)
		if l := v.line(m); l != nil {
			w.Money = append(w.Money, l)
		}
	}
	for _, x := range v.st.Work {
		if !v.hours {
			break
		}
		if v.ofPurchase(x.Stage) {
			continue
		}
		out.Minutes += x.Minutes
		if w := byName[v.names[x.Session]]; w != nil {
			w.Minutes += x.Minutes
			if v.private || !x.Private {
				v.shows(x.Line, x.Line.Words())
				w.Work = append(w.Work, WorkView{x.Minutes, x.Line.Words().S, x.Stage, x.Private})
			}
		}
	}
	for _, p := range out.Parts {
		for _, e := range p.Events {
			if w := byName[e.Session]; w != nil {
				w.Parts = append(w.Parts, e)
				w.Safety = w.Safety || note.IsSafety(p.System)
			}
		}
	}
	inSession(byName, out.Checks, func(c *CheckView) string { return c.Session }, func(w *SessionView) *[]*CheckView { return &w.Checks })
	for _, f := range slices.Concat(out.Fasteners, out.Unlisted) {
		inSession(byName, f.Tightened, func(t TighteningView) string { return t.Session }, func(w *SessionView) *[]TighteningView { return &w.Fasteners })
	}
	inSession(byName, out.Readings, func(r *ReadingView) string { return r.Session }, func(w *SessionView) *[]*ReadingView { return &w.Readings })
	inSession(byName, out.Scans, func(s *ScanView) string { return s.Session }, func(w *SessionView) *[]*ScanView { return &w.Scans })
	v.viewItems(byName)
}

func inSession[T any](byName map[string]*SessionView, list []T, of func(T) string, to func(*SessionView) *[]T) {
	for _, x := range list {
		if w := byName[of(x)]; w != nil {
			*to(w) = append(*to(w), x)
		}
	}
}

func (v *viewer) session(s *journal.Session) *SessionView {
	system := v.st.Build.SystemOf(s.Stage)
	w := &SessionView{Path: s.Path, Name: v.names[s], Date: s.Date, Title: s.Title, Stage: s.Stage, System: system, Private: s.Private,
		Body: v.body(s.Note, dirOf(s.Path), true), Safety: note.IsSafety(system)}
	if s.Odometer != nil {
		w.Odometer = s.Odometer.String()
	}
	if v.private { // lines in error have no snag to speak for them
		for _, it := range s.Note.Items {
			if v.st.Build.LeftOut(it.Line) {
				w.Body.Items[it.At] = &ItemView{Ticked: it.Ticked, Words: it.Text.S}
			}
		}
	}
	return w
}

// viewItems tells each body what its items have become, and each session what it opened and cleared.
func (v *viewer) viewItems(byName map[string]*SessionView) {
	for _, s := range v.st.Snags {
		w := v.snags[s]
		if w == nil {
			continue
		}
		for _, e := range s.Events {
			page := byName[v.names[e.Session]]
			if page == nil || e.Private && !v.private {
				continue
			}
			page.Safety = page.Safety || note.IsSafety(s.System)
			if e.Item != nil {
				page.Body.Items[e.Item.At] = &ItemView{What: e.What, Ticked: e.Item.Ticked, Words: e.Words, Snag: w}
			}
			switch e.What {
			case fact.Opened, fact.Reopened:
				page.Opened = append(page.Opened, w)
			case fact.Cleared:
				page.Cleared = append(page.Cleared, w)
			}
		}
	}
}
