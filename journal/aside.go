package journal

import (
	"slices"

	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/source"
)

// ofChecks are the clauses that an item on the id of a check or a reading may have: what it
// says of carrying it out. How grave it is and when it is settled follow from the work.
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
