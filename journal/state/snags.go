package state

import (
	"cmp"
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/source"
	"guidecoat/journal/speech"
)

// A Snag is something outstanding, or something that was, with what was said of it.
type Snag struct {
	fact.Snag
	Span    source.Span      // the line of its last opening
	Session *journal.Session // of its last opening
	Events  []*Event         // all that was said of it, in order
	Part    string           // the id of the part whose work or surcharge it follows from; else ""
}

type Event struct {
	What    fact.EventKind
	Session *journal.Session
	Date    measure.Date
	Words   string        // inline Markdown
	Said    speech.Phrase // the same, where they are the program's own
	Span    source.Span
	Private bool
	Item    *note.Item // nil where it follows by itself
}

// PlainWords is the snag's text without markup.
func (s *Snag) PlainWords() string { return note.PlainWords(s.Words) }

// ClearedBy returns the event that cleared it, or nil while it is open.
func (s *Snag) ClearedBy() *Event {
	if s.Open {
		return nil
	}
	for i := len(s.Events) - 1; i >= 0; i-- {
		if s.Events[i].What == fact.Cleared {
			return s.Events[i]
		}
	}
	return nil
}

// Line is the line in its file of the last opening, from 1.
func (s *Snag) Line() int { return s.Span.Begin().Line }

func (st *State) snagsAt() {
	st.Snags = st.fold()
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
		if s.Source != fact.FromDue && s.Source != fact.FromCheck {
			s.ToDrive = s.Severity
		}
		s.Overdue = s.Open && (s.Due != 0 && s.Due < st.Today || s.DueAt != nil && st.Odometer != nil && st.Odometer.Compare(*s.DueAt) > 0)
		s.TooEarly = !st.driven(s.NotBefore)
		s.Doable = s.Open && !s.TooEarly && !slices.ContainsFunc(s.WaitsFor, func(id string) bool { return !st.ready(id) })
	}
	slices.SortStableFunc(st.Snags, compareSnags)
}

// fold brings together what the task-list items that count do.
func (st *State) fold() []*Snag {
	var snags []*Snag
	byID, byOpening := map[string]*Snag{}, map[*journal.Act]*Snag{}
	for _, a := range st.Build.Acts {
		if !st.Counts(a.Session.Date) {
			break // the acts are in the order of the sessions
		}
		s := byID[a.ID]
		if a.Of != nil {
			s = byOpening[a.Of]
		}
		if s == nil {
			s = &Snag{Snag: fact.Snag{ID: a.ID, Source: fact.FromNote}}
			if snags = append(snags, s); a.ID != "" {
				byID[a.ID] = s
			} else {
				byOpening[a] = s
			}
		}
		s.take(a)
	}
	for _, s := range snags { // what it waits for may have been said twice
		s.WaitsFor = once(s.WaitsFor)
	}
	return snags
}

// once leaves out what has come before in a list.
func once(list []string) []string {
	if len(list) < 2 {
		return list
	}
	said := map[string]bool{}
	return slices.DeleteFunc(slices.Clone(list), func(id string) bool {
		again := said[id]
		said[id] = true
		return again
	})
}

func (s *Snag) take(a *journal.Act) {
	s.Standing = a.Standing
	if a.What == fact.Opened || a.What == fact.Reopened {
		if s.Source = fact.FromNote; a.ByInspection() {
			s.Source = fact.FromInspection
		}
		s.Open, s.Cleared, s.Opened = true, 0, a.Session.Date
		s.Span, s.Session = a.HeadSpan(), a.Session
	}
	s.say(a.What, a.Item)
	if a.What == fact.Cleared || a.Ticked && s.Open {
		s.Open, s.Cleared = false, a.Session.Date
		if a.What != fact.Cleared {
			s.Undated = s.ID == ""
			s.say(fact.Cleared, a.Item)
		}
	}
}

// takeAside takes in what an item says of what follows by itself.
func takeAside(s *fact.Standing, a *journal.Act) {
	note.Set(&s.Takes, a.Line, "takes")
	if a.Has("due") {
		s.Due, s.DueAt = a.Due, a.DueAt
	}
	s.WaitsFor = append(s.WaitsFor, a.WaitsFor...)
	s.Disclose = s.Disclose || a.Disclose
	s.Private = s.Private || a.Standing.Private
}

func (s *Snag) say(what fact.EventKind, it *journal.Item) {
	e := &Event{What: what, Session: it.Session, Date: it.Session.Date, Words: it.Words().S, Span: it.HeadSpan(), Private: it.Private()}
	if !it.ByInspection() {
		e.Item = it.Item
	}
	s.Events = append(s.Events, e)
}

// derivations are what follows by itself: each makes snags of one source.
var derivations = []func(*State) []*Snag{
	surchargesDue, checksDue, readingItems, scanItems, paperSnags, firedParts, looseFasteners, (*State).flooded,
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
func (s *Snag) event(open bool, in *journal.Session, at source.Span, words speech.Phrase, private bool) {
	what := fact.Remarked
	switch {
	case open && !s.Open:
		if what = fact.Opened; s.Opened != 0 {
			what = fact.Reopened
		}
		s.Opened, s.Cleared, s.Span, s.Session, s.Private = in.Date, 0, at, in, private
	case !open && s.Open:
		what, s.Cleared = fact.Cleared, in.Date
	case !open:
		return
	}
	s.Open = open
	s.Private = s.Private || private && what != fact.Cleared // which tells nothing of what was found
	s.Events = append(s.Events, &Event{What: what, Session: in, Date: in.Date, Words: words.String(), Said: words, Span: at, Private: private})
}

func compareSnags(a, b *Snag) int {
	if c := fact.CompareSnags(&a.Snag, &b.Snag); c != 0 {
		return c
	}
	return cmp.Or(cmp.Compare(a.Span.File.Path, b.Span.File.Path), cmp.Compare(a.Span.Start, b.Span.Start))
}
