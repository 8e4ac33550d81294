package server

import (
	"cmp"
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"

	"github.com/creachadair/jrpc2"
)

// A mention is a place that names something of the build.
type mention struct {
	thing
	span source.Span
	// declares says that what is named begins there.
	declares bool
	line     *note.Line // nil in a scan
	session  *journal.Session
}

// A thing has a name among those of its sort.
type thing struct {
	sort sort
	name string
}

type sort string

const (
	anID       sort = "id" // of a part, a snag, a check or what follows by itself
	aReading   sort = "reading"
	aUnit      sort = "control unit"
	aStage     sort = "stage"
	aSupplier  sort = "supplier"
	surcharges      = "-surcharge"
	readings        = "reading-"
	scans           = "scan-"
)

// sortOfClause is what a clause names, by how the grammar writes its value.
var sortOfClause = map[string]sort{"STAGE": aStage, "SUPPLIER": aSupplier, "PART": anID, "ID": anID, "nothing or CHECK, CHECK": anID}

// sortOfLine is what the name of a named line names, by the key.
var sortOfLine = map[string]sort{"parts": anID, "checks": anID, "due checks": anID, "found": anID, "fasteners": anID, "donors": anID, "readings": aReading, "remaining": aStage, "stages": aStage}

// mentions are all of a build, in the order of the notes.
func (r *reading) mentions() []mention {
	r.once.Do(func() {
		if r.err != nil || r.state == nil {
			return
		}
		b := r.state.Build
		r.noteMentions(b.Card.Note, nil)
		for _, s := range b.Sessions {
			r.noteMentions(s.Note, s)
		}
	})
	return r.named
}

func (r *reading) noteMentions(n *note.Note, s *journal.Session) {
	first := len(r.named)
	add := func(sort sort, name string, at source.Span, l *note.Line, declares bool) {
		if name != "" {
			r.named = append(r.named, r.based(mention{thing{sort, name}, at, declares, l, s}))
		}
	}
	clauses := func(l *note.Line) {
		for i := range l.Clauses {
			c := &l.Clauses[i]
			if c.Clause.Value == nil {
				continue
			}
			sort, names := sortOfClause[c.Clause.Value.Name], []string{c.Arg.S}
			switch {
			case c.Word == "asks for":
				names = strings.Split(c.Arg.S, ",")
			case c.Word == "donor" && slices.ContainsFunc(r.state.Build.Donors, func(d *journal.Donor) bool { return d.Name == c.Arg.S }):
				sort = anID // otherwise it is described in words
			case sort == "":
				continue
			}
			at := 0
			for _, name := range names {
				word := strings.TrimSpace(name)
				start := at + strings.Index(name, word)
				if at += len(name) + 1; word != "nothing" {
					add(sort, word, c.Arg.Span(start, start+len(word)), l, false)
				}
			}
		}
	}
	for _, l := range n.Lines {
		if sort := sortOfLine[l.Kind.Key]; sort != "" {
			add(sort, l.Name, l.NameSpan(), l, l.Kind.Key != "checks" && l.Kind.Key != "remaining")
		}
		if l.Kind.Key == "stage" {
			add(aStage, l.Text.S, l.Text.Whole(), l, false)
		}
		clauses(l)
	}
	for _, it := range n.Items {
		add(anID, it.ID, it.IDSpan, it.Line, it.Kind != "" || !it.Ticked)
		clauses(it.Line)
	}
	for _, sc := range n.Scans {
		if at := strings.LastIndex(sc.Span.Text(), sc.Name); at >= 0 {
			add(aUnit, sc.Name, sc.Span.Part(at, at+len(sc.Name)), nil, true)
		}
	}
	slices.SortStableFunc(r.named[first:], func(a, b mention) int { return cmp.Compare(a.span.Start, b.span.Start) })
}

// based makes of the id of what follows by itself a mention of what it follows from: it
// has its name from that, and both change together.
func (r *reading) based(m mention) mention {
	snag := r.state.Snag(m.name)
	if m.sort != anID || snag == nil || m.span.Text() != m.name {
		return m
	}
	part := func(sort sort, start, end int) mention {
		m.thing, m.span, m.declares = thing{sort, m.name[start:end]}, m.span.Part(start, end), false
		return m
	}
	switch snag.Source {
	case fact.FromSurcharge:
		return part(anID, 0, len(m.name)-len(surcharges))
	case fact.FromReading:
		return part(aReading, len(readings), len(m.name))
	case fact.FromScan:
		return part(aUnit, len(scans), len(scans)+len(snag.Unit))
	}
	return m
}

// mentionAt is what is named at a place of an open file, nil where nothing is.
func (v shown) mentionAt(at position) *mention {
	offset := int32(v.at(at))
	var found *mention
	list := v.mentions()
	for i := range list {
		if m := &list[i]; m.span.File == v.file && m.span.Start <= offset && offset <= m.span.End && (found == nil || m.span.Start == offset) {
			found = m
		}
	}
	return found
}

// of are the mentions of a thing.
func (r *reading) of(t thing) []mention {
	return pick.Where(r.mentions(), func(m mention) bool { return m.thing == t })
}

// home is where a thing that is mentioned begins; where it follows by itself, what made it.
func (r *reading) home(t thing) source.Span {
	list := r.of(t)
	if at := slices.IndexFunc(list, func(m mention) bool { return m.declares }); at >= 0 {
		return list[at].span
	}
	if snag := r.state.Snag(t.name); t.sort == anID && snag != nil && snag.Span.File != nil {
		return snag.Span
	}
	return list[0].span
}

func (s *server) location(f *folder, at source.Span) location {
	return location{s.address(f, at.File.Path), s.page(f, at.File).span(at)}
}

// mentioned is what is named at a place, nil where nothing is, or the document is none of ours.
func (s *server) mentioned(p placeParams) (v shown, m *mention) {
	v, ok := s.see(p.Document.URI)
	if ok {
		m = v.mentionAt(p.Position)
	}
	return v, m
}

func (s *server) definition(p placeParams) (any, error) {
	v, m := s.mentioned(p)
	if m == nil {
		return nil, nil
	}
	return []location{s.location(v.folder, v.home(m.thing))}, nil
}

func (s *server) references(p referenceParams) (any, error) {
	list := []location{}
	if v, m := s.mentioned(p.placeParams); m != nil {
		home := v.home(m.thing)
		for _, m := range v.of(m.thing) {
			if p.Context.IncludeDeclaration || m.span != home {
				list = append(list, s.location(v.folder, m.span))
			}
		}
	}
	return list, nil
}

func (s *server) highlights(p placeParams) (any, error) {
	list := []highlight{}
	if v, m := s.mentioned(p); m != nil {
		for _, m := range v.of(m.thing) {
			if m.span.File == v.file {
				list = append(list, highlight{v.span(m.span)})
			}
		}
	}
	return list, nil
}

func (s *server) prepareRename(p placeParams) (any, error) {
	v, m := s.mentioned(p)
	if m == nil {
		return nil, nil
	}
	if why := v.fixed(m.thing); why != "" {
		return nil, jrpc2.Errorf(requestFailed, "%s", why)
	}
	return prepared{v.span(m.span), m.name}, nil
}

// fixed says why a thing cannot be called otherwise, "" where it can.
func (r *reading) fixed(t thing) string {
	for _, rule := range journal.BuiltInDueRules() {
		if t.sort == anID && rule.Name == t.name && !slices.ContainsFunc(r.state.Build.Card.DueRules, func(own journal.DueRule) bool { return own.Name == t.name }) {
			return "\"" + t.name + "\" is a check that work makes due, and has only that name."
		}
	}
	return ""
}

// rename is the edits that call a thing otherwise in every note. The editor makes them.
func (s *server) rename(p renameParams) (any, error) {
	v, m := s.mentioned(p.placeParams)
	switch {
	case m == nil && v.file == nil:
		return nil, nil
	case m == nil:
		return nil, jrpc2.Errorf(requestFailed, "Nothing that has a name stands here.")
	}
	name := strings.TrimSpace(p.NewName)
	if why := cmp.Or(v.fixed(m.thing), v.unfit(m.thing, name)); why != "" {
		return nil, jrpc2.Errorf(requestFailed, "%s", why)
	}
	edit := workspaceEdit{Changes: map[string][]textEdit{}}
	for _, m := range v.of(m.thing) {
		at := s.location(v.folder, m.span)
		edit.Changes[at.URI] = append(edit.Changes[at.URI], textEdit{at.Range, name})
	}
	return edit, nil
}

// unfit says why a thing cannot have a name, "" where it can. Only suppliers may come to
// share one: that puts right what was spelled in two ways.
func (r *reading) unfit(t thing, name string) string {
	snag := r.state.Snag(t.name)
	switch {
	case name == t.name:
		return ""
	case name == "" || strings.ContainsAny(name, ";\r\n") || t.sort != aSupplier && strings.Contains(name, ":"):
		return "A name is words without semicolon, colon or line break."
	case t.sort != aStage && t.sort != aSupplier && !note.IsID(name):
		return "An id is lower-case words joined by hyphens."
	case t.sort == anID && snag != nil && snag.Source == fact.FromNote && !strings.Contains(name, "-"):
		return "The id of a snag has a hyphen, so that it is no ordinary word."
	case t.sort != aSupplier && (r.of(thing{t.sort, name}) != nil || t.sort == anID && r.state.Snag(name) != nil):
		return "\"" + name + "\" is the name of another " + string(t.sort) + "."
	}
	return ""
}
