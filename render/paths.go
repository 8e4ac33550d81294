package render

import (
	"path"
	"strconv"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
)

// namedLength is how much of a snag's words stands for it where only its id is written.
const namedLength = 60

// named is what a part or snag is called for people; its id where neither is shown.
func (s *site) named(id string) string {
	if x := s.paths.snagOf[id]; x != nil {
		return shorten(note.PlainWords(s.wordsOf(x)), namedLength)
	}
	if words := s.paths.partOf[id]; words != "" {
		return words
	}
	return id
}

type paths struct {
	sessions map[string]string         // by the session's Name
	pages    map[string]string         // by the note's path
	noteOf   map[string]string         // the note's path, by the session's Name
	notes    map[string]string         // raw notes, by their path
	byNote   map[string]string         // the page that is made of a note, by the note's path
	snags    map[*view.SnagView]string // anchors
	ids      map[string]string         // of parts and snags, by their id; settled when both are bound
	snagOf   map[string]*view.SnagView // likewise
	partOf   map[string]string         // the description of a part, by its id
	taken    map[string]int            // all paths of pages that are settled; see unique
}

func (s *site) namePaths() {
	p := &s.paths
	p.sessions, p.noteOf, p.pages, p.notes, p.byNote = map[string]string{}, map[string]string{}, map[string]string{}, map[string]string{}, map[string]string{}
	taken := map[string]int{"sessions/index.html": 1, "notes/index.html": 1, pagesFront: 1}
	p.taken = taken
	for _, x := range s.v.Sessions {
		if isEmpty(s, x) { // it stands in the list of sessions, and leads nowhere
			continue
		}
		s.sessions = append(s.sessions, x)
		at := unique(taken, "sessions/", path.Base(x.Name), ".html")
		p.sessions[x.Name], p.byNote[x.Path], p.noteOf[x.Name] = at, at, x.Path
	}
	for _, x := range s.v.Pages {
		at := unique(taken, "pages/", x.Title, ".html")
		p.pages[x.Path], p.byNote[x.Path] = at, at
	}
	for _, n := range s.o.Notes {
		p.notes[n.File.Path] = unique(taken, "notes/", strings.TrimSuffix(n.File.Path, ".md"), ".html")
	}
	p.byNote[path.Join(s.v.BuildPath, "build.md")] = "index.html"
	p.snags, p.ids = map[*view.SnagView]string{}, map[string]string{}
	p.snagOf, p.partOf = map[string]*view.SnagView{}, map[string]string{}
	anchors := map[string]int{}
	for _, x := range s.v.Snags {
		id := x.ID
		if id == "" { // ids of the notes hold no underscore
			id = "_" + slug(strings.TrimSuffix(x.Note, ".md")) + "_" + strconv.Itoa(x.Line)
		}
		p.snags[x] = unique(anchors, "", id, "")
		if x.ID != "" {
			p.snagOf[x.ID] = x
		}
	}
	for _, x := range s.v.Parts {
		p.partOf[x.ID] = x.Description
	}
	s.bindLists()
	for id, x := range p.snagOf {
		p.ids[id] = s.snags.to("", p.snags[x])
	}
	for id := range p.partOf {
		p.ids[id] = s.parts.to("", id)
	}
}

// bindLists binds every list that may be too long for one page.
func (s *site) bindLists() {
	bindSessions(s)
	bindLedger(s)
	bindSnags(s)
	bindParts(s)
	bindMeasured(s)
	bindNotes(s)
}

// unique makes a path out of a name; one that is taken gets a number, the next after the last given.
func unique(taken map[string]int, before, name, after string) string {
	if after != "" {
		name = slug(name)
	}
	first := before + name + after
	at := first
	for taken[at] > 0 {
		taken[first]++
		at = before + name + "-" + strconv.Itoa(taken[first]) + after
	}
	taken[at] = 1
	return at
}

// plain are letters that do not come apart into a plain one and a mark.
var plain = strings.NewReplacer("ø", "o", "æ", "ae", "œ", "oe", "ß", "ss", "đ", "d", "ð", "d", "þ", "th", "ł", "l", "ı", "i")

// slug makes a file name out of any words: small letters, digits and hyphens.
func slug(name string) string {
	var b strings.Builder
	for _, r := range norm.NFD.String(plain.Replace(strings.ToLower(name))) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		case unicode.Is(unicode.Mn, r):
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= 80 {
			break
		}
	}
	out := strings.Trim(b.String(), "-")
	return pick.Either(out == "" || reserved[out], "x"+out, out)
}

// reserved are names that Windows does not give to files, and "index", which is ours.
var reserved = func() map[string]bool {
	names := map[string]bool{"con": true, "prn": true, "aux": true, "nul": true, "index": true}
	for n := range 10 {
		names["com"+strconv.Itoa(n)], names["lpt"+strconv.Itoa(n)] = true, true
	}
	return names
}()

// root leads from a page to the top of the site: "", or "../" for each folder.
func root(at string) string { return strings.Repeat("../", strings.Count(at, "/")) }

// A lineKey is where a line of money is written.
type lineKey struct {
	note string
	line int
}

// nameLines gives the lines of money their anchors, and finds those of each supplier.
func (s *site) nameLines() {
	s.lines, s.bySupplier, s.listed = map[lineKey]string{}, map[string][]*view.MoneyLine{}, map[[2]string]bool{}
	if s.v.Money == nil {
		return
	}
	for i, l := range s.v.Money.Lines {
		s.lines[lineKey{l.Note, l.Line}] = "line-" + strconv.Itoa(i+1)
		stage, category := lineGroup(l)
		s.listed[[2]string{stage}], s.listed[[2]string{stage, category}] = true, true
		if l.Supplier != "" && !l.Credit {
			s.bySupplier[l.Supplier] = append(s.bySupplier[l.Supplier], l)
		}
	}
}

// session leads to a session, "" where it has no page.
func (s *site) session(at, name string) string {
	if to := s.paths.sessions[name]; to != "" {
		return root(at) + to
	}
	return ""
}

func (s *site) snag(at string, x *view.SnagView) string {
	if a := s.paths.snags[x]; a != "" {
		return s.snags.to(at, a)
	}
	return ""
}

// id leads to the part or snag of that id, "" where neither is shown.
func (s *site) id(at, id string) string {
	if to := s.paths.ids[id]; to != "" {
		return root(at) + to
	}
	return ""
}
