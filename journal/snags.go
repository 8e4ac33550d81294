package journal

import (
	"cmp"
	"slices"
	"sort"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// A Snag is something outstanding, or something that was.
type Snag struct {
	ID       string // "" for one that has none
	Kind     string // of notes only; "" for what follows by itself
	Source   Source
	Severity note.Severity
	// ToDrive is the severity that counts before the vehicle is driven: that of the
	// snag, but for a check that can only be done after driving some distance.
	ToDrive note.Severity
	Words   string // inline Markdown
	Unit    string // the control unit of a fault code; "" for any other snag
	Code    string // the fault code it is of; "" for any other
	Stage   string // "" where it belongs to none
	System  string
	Open    bool
	Opened  measure.Date // of its last opening
	Cleared measure.Date // 0 while it is open
	Due     measure.Date
	// DueAt is the odometer reading by which it is due; nil where it has none.
	DueAt *measure.Quantity
	// NotBefore is the odometer reading from which it can be done; nil: at once.
	NotBefore *measure.Quantity
	WaitsFor  []string
	Takes     measure.Minutes // 0 where it is not said
	Disclose  bool
	Private   bool
	Span      source.Span // the line of its last opening
	Session   *Session    // of its last opening
	Events    []*Event    // all that was said of it, in order

	// Overdue and Doable are as of the state's date.
	Overdue, Doable bool
	// Failed is when the check failed that it comes from; 0 for none.
	Failed measure.Date

	amount decimal.Decimal // of a surcharge

	part  string        // the id of the part whose work or surcharge it follows from
	given note.Severity // what the notes say; NoSeverity: the default holds
	own   string        // its own system
}

// Source is where a snag comes from.
type Source string

const (
	FromNote      Source = "note"
	FromDue       Source = "due"
	FromCheck     Source = "check"
	FromReading   Source = "reading"
	FromScan      Source = "scan"
	FromSurcharge Source = "surcharge"
)

// An Event is one thing that was said of a snag.
type Event struct {
	What    EventKind
	Session *Session
	Date    measure.Date
	Words   string // inline Markdown
	Span    source.Span
	Private bool
	Item    *note.Item // nil where it follows by itself

	part string // the id of the part that its words name
}

// EventKind is what happened to a snag.
type EventKind string

const (
	Opened   EventKind = "opened"
	Remarked EventKind = "remarked"
	Cleared  EventKind = "cleared"
	Reopened EventKind = "reopened"
)

// PlainWords is the snag's text without markup.
func (s *Snag) PlainWords() string { return note.PlainWords(s.Words) }

// ClearedBy returns the event that cleared it, or nil while it is open.
func (s *Snag) ClearedBy() *Event {
	if s.Open {
		return nil
	}
	for i := len(s.Events) - 1; i >= 0; i-- {
		if s.Events[i].What == Cleared {
			return s.Events[i]
		}
	}
	return nil
}

// Line is the line in its file of the last opening, from 1.
func (s *Snag) Line() int { return s.Span.Begin().Line }

// An item is a task-list item with the session it stands in.
type item struct {
	session *Session
	*note.Item
}

// snagsAt works out what was outstanding, from every source.
func (st *State) snagsAt() {
	f := &fold{b: st.Build}
	f.run(st.items())
	st.Snags = f.snags
	for _, s := range st.Snags {
		s.settle(st.Build)
	}
	for _, derive := range derivations {
		st.Snags = append(st.Snags, derive(st)...)
	}
	st.snagByID = map[string]*Snag{}
	for _, s := range st.Snags {
		if s.ID != "" {
			st.snagByID[s.ID] = s
		}
	}
	for _, s := range st.Snags {
		if s.Source != FromDue && s.Source != FromCheck {
			s.ToDrive = s.Severity
		}
		s.Overdue = s.Open && (s.Due != 0 && s.Due < st.Today || s.DueAt != nil && st.Odometer != nil && st.Odometer.Compare(*s.DueAt) > 0)
		s.Doable = s.Open && st.driven(s.NotBefore) && !slices.ContainsFunc(s.WaitsFor, func(id string) bool { return !st.ready(id) })
	}
	slices.SortStableFunc(st.Snags, CompareSnags)
}

// items are the task-list items that count, in order.
func (st *State) items() []*item {
	items := st.Build.items
	end := sort.Search(len(items), func(i int) bool { return !st.counts(items[i].session.Date) })
	return items[:end]
}

// derivations are what follows by itself: each makes snags of one source.
var derivations = []func(*State) []*Snag{
	(*State).surcharges,
	(*State).checksDue,
	(*State).readingItems,
	(*State).scanItems,
}

// ready tells whether what a snag waits for is there: a part in hand, a snag cleared.
func (st *State) ready(id string) bool {
	if p := st.Part(id); p != nil {
		return p.InHand()
	}
	s := st.snagByID[id]
	return s != nil && !s.Open
}

// driven tells whether the odometer has reached a reading.
func (st *State) driven(to *measure.Quantity) bool {
	return to == nil || st.Odometer != nil && st.Odometer.Compare(*to) >= 0
}

// event says something of a snag that follows by itself, and opens or clears it.
func (s *Snag) event(open bool, in *Session, at source.Span, words string, private bool) {
	what := Remarked
	switch {
	case open && !s.Open:
		if what = Opened; len(s.Events) > 0 {
			what = Reopened
		}
		s.Opened, s.Cleared, s.Span, s.Session, s.Private = in.Date, 0, at, in, private
	case !open && s.Open:
		what, s.Cleared = Cleared, in.Date
	case !open:
		return
	}
	s.Open = open
	s.Private = s.Private || private && what != Cleared // which tells nothing of what was found
	s.Events = append(s.Events, &Event{What: what, Session: in, Date: in.Date, Words: words, Span: at, Private: private})
}

// CompareSnags orders snags: worst first, then oldest, then by id, those without
// one last, then by place.
func CompareSnags(a, b *Snag) int {
	return cmp.Or(
		-cmp.Compare(a.Severity, b.Severity),
		cmp.Compare(a.Opened, b.Opened),
		compareIDs(a.ID, b.ID),
		cmp.Compare(a.Span.File.Path, b.Span.File.Path),
		cmp.Compare(a.Span.Start, b.Span.Start))
}

func compareIDs(a, b string) int {
	if (a == "") != (b == "") {
		return -cmp.Compare(a, b)
	}
	return cmp.Compare(a, b)
}

// settle works out what the lines left open: system and severity.
func (s *Snag) settle(b *Build) {
	s.System = s.own
	if s.System == "" {
		s.System = b.systemOf(s.Stage)
	}
	s.Severity = s.given
	if s.Severity == note.NoSeverity {
		s.Severity = defaultSeverity(s.Kind, s.System)
	}
}

// defaultSeverity is major for a temporary fix and for safety systems.
func defaultSeverity(kind, system string) note.Severity {
	if kind == "temporary" || note.IsSafety(system) {
		return note.Major
	}
	return note.Minor
}
