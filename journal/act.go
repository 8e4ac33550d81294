package journal

import (
	"slices"

	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"
)

// An Item is a task-list item with the session it stands in. Its id may be known only when others are.
type Item struct {
	Session *Session
	*note.Item
	ID     string // "" where it has none
	IDSpan source.Span

	words *note.Text // nil where they are as they were read
}

func (it *Item) Words() note.Text {
	if it.words != nil {
		return *it.words
	}
	return it.Item.Words()
}

// Private tells whether the item or its session is.
func (it *Item) Private() bool { return it.Session.Private || it.Has("private") }

// changes tells whether the item says more of its snag than words, which are hidden on their own.
func (it *Item) changes() bool {
	return slices.ContainsFunc(it.Clauses, func(c note.Found) bool { return c.Word != "private" && c.Word != "photo" && c.Word != "sure" })
}

// collectItems takes in the items and the ids they open, which nothing else may name again.
func collectItems(b *Build) {
	b.openings, b.snagFirst = map[string]*Item{}, map[string]bool{}
	for _, s := range b.Sessions {
		begin := len(b.items)
		b.items = append(b.items, inspectionItems(s)...)
		items := make([]Item, len(s.Note.Items))
		for i, it := range s.Note.Items {
			items[i] = Item{Session: s, Item: it, ID: it.ID, IDSpan: it.IDSpan}
			b.items = append(b.items, &items[i])
		}
		for _, it := range b.items[begin:] {
			if it.ID != "" && b.openings[it.ID] == nil && (it.Kind != "" || !it.Ticked && !it.Again && !it.BareID) {
				b.openings[it.ID] = it
				b.near.openings.Add(it.ID)
			}
		}
	}
}

func resolveItems(b *Build) {
	for _, it := range b.items {
		checkNames(b, it.Line)
		checkWaits(b, it)
	}
	f := &judge{b: b, byID: map[string]*judged{}, begun: map[string][]string{}, unsure: map[string]bool{}, plains: plainItems{begins: map[string][]*judged{}}}
	f.run()
}

// checkWaits rejects a `waits for` that names nothing in the whole build.
func checkWaits(b *Build, it *Item) {
	for _, c := range it.Clauses {
		id, _ := c.Value.(string)
		if c.Word != "waits for" || id == "" || b.isPart(id) || b.ids[id] != nil || b.openings[id] != nil {
			continue
		}
		b.reject(it.Line, source.Fault{Flaw: UnknownWaitsFor, Span: c.Arg.Whole(), Word: id, Near: b.nearAny(id)})
	}
}

type Act struct {
	*Item
	What fact.EventKind // a ticked item that opens a snag clears it at once
	Of   *Act           // of an item without an id that clears another: what opened that
	fact.Standing
}

// standing is what the lines about a snag have said of it so far, with what they left open.
type standing struct {
	fact.Standing
	given note.Severity // what the notes say; NoSeverity: the default holds
}

// IsWork tells whether clearing it asks for checks: a job or temporary fix of a safety system, or one that says so.
func (a *Act) IsWork() bool {
	s := &a.Standing
	return (s.Kind == "" || s.Kind == "job" || s.Kind == "temporary") && (note.IsSafety(s.Own) || s.Asks != nil)
}

func (s *standing) settle(b *Build) {
	s.System = s.Own
	if s.System == "" {
		s.System = b.SystemOf(s.Stage)
	}
	s.Severity = s.given
	if s.Severity == note.NoSeverity {
		s.Severity = defaultSeverity(s.Kind, s.System)
	}
}

// defaultSeverity is major for a temporary fix and for safety systems.
func defaultSeverity(kind, system string) note.Severity {
	return pick.Either(kind == "temporary" || note.IsSafety(system), note.Major, note.Minor)
}

func countLeftOut(b *Build) {
	count := func(lines []*note.Line) {
		for _, l := range lines {
			if b.LeftOut(l) {
				b.LinesLeftOut++
			}
		}
	}
	count(b.Card.Note.Lines)
	b.LinesLeftOut += b.Card.Note.Lost
	for _, s := range b.Sessions {
		count(s.Note.Lines)
		for _, it := range s.Note.Items {
			if b.LeftOut(it.Line) {
				b.LinesLeftOut++
			}
		}
	}
}

// ofChecks are the clauses of an item on a check or reading: how it is carried out. The rest follows from the work.
var ofChecks = []string{"takes", "due", "waits for", "photo", "disclose", "private", "sure"}

// aside takes an item that says something of a check or a reading.
func (f *judge) aside(it *Item) {
	for _, c := range it.Clauses {
		if !slices.Contains(ofChecks, c.Word) {
			f.fault(it, source.Fault{Flaw: note.UnknownClause, Span: c.Span, Word: c.Word, Near: ofChecks, Help: "An item on a " + f.b.ids[it.ID].sort + " says when it will be carried out and how long it takes; the rest follows by itself."})
			return
		}
	}
	next := standing{Standing: fact.Standing{Words: it.Words().S}, given: f.b.WorstOf(it.ID)}
	if c := f.b.failed[it.ID]; c != nil && c.Severity != note.NoSeverity {
		next.given = c.Severity
	}
	for _, r := range f.b.Readings {
		if ReadingID(r.Name) == it.ID && r.Session.Place <= it.Session.Place && (next.given == note.NoSeverity || r.Line.Choice("severity") != nil) {
			next.given = r.Severity
		}
	}
	if f.clauses(it, &next) {
		list := &f.b.Asides
		if f.b.ids[it.ID].sort == readingSort {
			list = &f.b.OfReadings
		}
		*list = append(*list, &Act{Item: it, What: fact.Remarked, Standing: next.Standing})
	}
}
