package journal

import (
	"slices"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/source"
	"guidecoat/journal/speech"
)

const (
	NearID              source.Flaw = "near-id"
	UnknownSnag         source.Flaw = "unknown-snag"
	UnknownWaitsFor     source.Flaw = "unknown-waits-for"
	OpenedTwice         source.Flaw = "opened-twice"
	ClearedBeforeOpened source.Flaw = "cleared-before-opened"
	ClearedAgain        source.Flaw = "cleared-again"
	ReopenedByItself    source.Flaw = "reopened-without-again"
	WaitsInCircle       source.Flaw = "waits-in-circle"
	DiscloseNotMinor    source.Flaw = "disclose-not-minor"
	DueWithoutOdometer  source.Flaw = "due-without-odometer"
	SilentlyCleared     source.Flaw = "silently-cleared"
	TemporaryWithoutID  source.Flaw = "temporary-without-id"
)

// A judge takes the items in order, reports what does not fit and keeps what each of the others does.
type judge struct {
	b       *Build
	byID    map[string]*judged
	begun   map[string][]string // the ids of byID, by their first words
	plains  plainItems
	earlier int            // how many of plains were open when the session began
	inVain  []source.Fault // ticks that clear nothing
	waiting []*Item        // lines about an id that the same note opens below
	late    bool           // it is those that are taken
	// unsure are the ids of which a tick was left out for another mistake: they may be opened again.
	unsure      map[string]bool
	inspections []string        // the ids of what inspections have opened, in order
	circle      map[string]bool // the ids that a circle of waiting may go through
	steps       int             // left for finding circles
}

type judged struct {
	standing
	open            bool
	opened, cleared source.Span // its last ones
	words           string      // of one without an id, as plainKey has them
	opening         *Act        // its first
	inspected       bool        // an inspection opened it last
	advisory        bool        // and no more than advised
}

// run takes the sound ones of the items in, session by session.
func (f *judge) run() {
	items := f.b.items
	f.circle, f.steps = circling(items), mostSteps
	for i, it := range items {
		if !f.b.LeftOut(it.Line) {
			f.take(it)
		} else if it.Ticked {
			f.unsure[it.ID] = true
		}
		if i+1 == len(items) || items[i+1].Session != it.Session {
			f.late = true
			for _, it := range f.waiting {
				f.take(it)
			}
			f.late, f.waiting, f.earlier = false, nil, f.plains.open
		}
	}
	for _, fault := range f.inVain {
		if len(fault.Near) == 0 || f.byID[fault.Near[0]].open {
			f.b.fault(fault)
		}
	}
}

func (f *judge) fault(it *Item, fault source.Fault) { f.b.reject(it.Line, fault) }

func (f *judge) take(it *Item) {
	if lead := it.Lead().S; it.ID == "" && it.Kind == "" && (f.b.ids[lead] != nil && f.b.ids[lead].sort == checkSort || f.byID[lead] != nil && f.byID[lead].inspected) {
		id, words := it.AsID() // the name of a check, or of what an inspection found, needs no hyphen
		it.ID, it.IDSpan, it.words = id.S, id.Whole(), &words
	}
	known := f.byID[it.ID]
	switch {
	case isInspection(it.Line):
		f.inspected(it)
	case it.ByInspection():
		f.found(it)
	case it.ID == "":
		f.plain(it)
	case it.BareID && f.b.ids[it.ID] == nil && f.b.openings[it.ID] == nil && f.b.nearID(it.ID) == "":
		it.ID, it.words = "", new(it.Lead()) // nobody opens it, so it is none
		f.plain(it)
	case it.Kind != "" || it.Again:
		f.opening(it, known)
	case known == nil && f.b.ids[it.ID] != nil && f.b.ids[it.ID].sort == surchargeSort:
		// said of a surcharge; see surcharge.go
	case known == nil && !it.Ticked && f.b.ids[it.ID] != nil && (f.b.ids[it.ID].sort == checkSort || f.b.ids[it.ID].sort == readingSort):
		f.aside(it)
	case known == nil && f.b.badID[it.ID] && !f.b.snagFirst[it.ID]:
		f.b.leaveOut(it.Line) // what it hangs on was reported
	case known == nil:
		f.unknown(it)
	case it.Ticked && !known.open:
		f.b.fault(source.Fault{Flaw: ClearedAgain, Span: it.IDSpan, Word: it.ID, Other: known.cleared})
	case it.Ticked:
		f.clear(it, known)
	case known.open:
		f.remark(it, known)
	default:
		f.b.fault(source.Fault{Flaw: ReopenedByItself, Span: it.IDSpan, Word: it.ID, Other: known.cleared, Fix: &source.Fix{Span: it.IDSpan.Part(0, 0), Text: "again "}})
		f.open(it, known)
	}
}

// plain takes an item that has no id: a job of its own.
func (f *judge) plain(it *Item) {
	if it.ID == "" && it.Kind == "" && it.Colon {
		if lead := it.Lead().S; len(lead) > 0 && !hasSpace(lead) {
			// The id of a fault code has capitals, which no snag's id has.
			if code := f.b.taken(lead); it.Ticked && code != nil && code.sort == "scan" {
				f.fault(it, source.Fault{Flaw: UnknownSnag, Span: it.Lead().Whole(), Word: lead, Why: code.sort})
				return
			}
			if like := f.b.nearID(lead); like != "" {
				f.fault(it, source.Fault{Flaw: NearID, Span: it.Lead().Whole(), Word: lead, Near: []string{like}})
				return
			}
		}
	}
	if it.Ticked && f.tickInWords(it) {
		return
	} else if !it.Ticked {
		f.aboutOpen(it)
	}
	if it.Kind == "temporary" && !it.Ticked {
		id, fix := f.withID(it)
		f.b.fault(source.Fault{Flaw: TemporaryWithoutID, Span: it.HeadSpan(), Word: it.Words().S, Near: []string{id}, Fix: fix})
	}
	if s := f.open(it, nil); s != nil && s.open {
		f.plains.add(s)
	}
}

// opening takes an item whose kind, or `again`, says that it opens something.
func (f *judge) opening(it *Item, known *judged) {
	other := f.b.taken(it.ID)
	switch {
	case known != nil && known.open && f.unsure[it.ID]:
		f.open(it, known)
	case known != nil && known.open:
		help := "Leave out what stands before the id if this is a remark."
		if it.Ticked {
			help = "Write \"- [x] " + it.ID + ": \" if this clears it."
		}
		f.fault(it, source.Fault{Flaw: OpenedTwice, Span: it.IDSpan, Word: it.ID, Other: known.opened, Help: help})
	case known == nil && it.Again:
		f.fault(it, source.Fault{Flaw: UnknownSnag, Span: it.IDSpan, Word: it.ID, Near: f.b.nearAny(it.ID)})
	case known == nil && other != nil:
		f.fault(it, source.Fault{Flaw: IDTaken, Span: it.IDSpan, Word: it.ID, Why: other.sort, Other: other.span})
	default:
		if known != nil && !known.open && !it.Again {
			f.b.fault(source.Fault{Flaw: ReopenedByItself, Span: it.IDSpan, Word: it.ID, Other: known.cleared})
		}
		f.open(it, known)
	}
}

// unknown takes an item about an id that nothing above has opened.
func (f *judge) unknown(it *Item) {
	opening := f.b.openings[it.ID]
	if opening == it { // opens it itself, as a job
		opening = nil
	}
	other := f.b.taken(it.ID)
	if !it.Ticked && other == nil && opening == nil && f.b.isCode(it.ID) {
		other = &identity{sort: scanSort}
	}
	switch {
	case opening != nil && opening.Session == it.Session && !f.late && !f.b.LeftOut(opening.Line):
		f.waiting = append(f.waiting, it)
	case opening != nil && f.b.LeftOut(opening.Line):
		f.b.leaveOut(it.Line) // the opening was reported, and this hangs on it
	case it.Ticked && opening != nil:
		f.fault(it, source.Fault{Flaw: ClearedBeforeOpened, Span: it.IDSpan, Word: it.ID, Other: opening.IDSpan})
	case it.Ticked && other == nil && f.b.isCode(it.ID):
		f.fault(it, source.Fault{Flaw: UnknownSnag, Span: it.IDSpan, Word: it.ID, Why: "scan"})
	case it.Ticked && other != nil:
		f.fault(it, source.Fault{Flaw: UnknownSnag, Span: it.IDSpan, Word: it.ID, Why: other.sort, Help: checkHelp(it, other)})
	case it.Ticked:
		f.fault(it, source.Fault{Flaw: UnknownSnag, Span: it.IDSpan, Word: it.ID, Near: f.b.nearAny(it.ID)})
	case other != nil:
		fault := source.Fault{Flaw: IDTaken, Span: it.IDSpan, Word: it.ID, Why: other.sort, Other: other.span}
		if other.sort == scanSort {
			fault.Help = "What a scan lists is open until a later scan does not list it; an item cannot say more of it."
		}
		f.fault(it, fault)
	default:
		if like := f.b.nearID(it.ID); like != "" {
			f.fault(it, source.Fault{Flaw: NearID, Span: it.IDSpan, Word: it.ID, Near: []string{like}})
			return
		}
		f.open(it, nil)
	}
}

// checkHelp writes the line of a check that was ticked, "" of anything else.
func checkHelp(it *Item, known *identity) string {
	if known.sort != checkSort {
		return ""
	}
	words := note.PlainWords(it.Words().S)
	if first, _, _ := strings.Cut(words, " "); !slices.Contains(note.Results, strings.TrimRight(first, ",:.")) {
		words = strings.TrimSpace("done " + words)
	}
	return "Write \"" + it.ID + ": " + words + "\" under \"checks\"."
}

// open opens a snag, a new one where known is nil; nil is returned where the item cannot stand.
func (f *judge) open(it *Item, known *judged) *judged {
	what, next := fact.Opened, standing{Standing: fact.Standing{Stage: it.Session.Stage}}
	if known != nil {
		what, next = fact.Reopened, known.standing
	}
	if it.Kind != "" {
		next.Kind = it.Kind
	} else if next.Kind == "" {
		next.Kind = "job"
	}
	if it.Words().S != "" || known == nil {
		next.Words, next.Said = it.Words().S, speech.Phrase{}
	}
	next.Private = next.Private || it.Private()
	if !f.clauses(it, &next) {
		return nil
	}
	if known == nil {
		known = &judged{}
		if it.ID != "" {
			f.byID[it.ID] = known
			first, _, _ := strings.Cut(it.ID, "-")
			f.begun[first] = append(f.begun[first], it.ID)
			if f.b.ids[it.ID] == nil {
				f.b.identify(it.ID, &identity{sort: snagSort, span: it.IDSpan})
			}
		}
	}
	known.standing, known.open, known.opened, known.inspected = next, true, it.HeadSpan(), false
	if it.Ticked {
		known.open, known.cleared = false, it.HeadSpan()
	}
	a := f.act(what, it, next)
	if known.opening == nil {
		known.opening = a
	}
	return known
}

func (f *judge) remark(it *Item, s *judged) {
	next := s.standing
	if f.clauses(it, &next) {
		s.standing = next
		f.act(fact.Remarked, it, next)
	}
}

func (f *judge) clear(it *Item, s *judged) {
	next := s.standing
	if !f.clauses(it, &next) {
		return
	}
	if next.Severity == note.Dangerous && it.Words().S == "" {
		f.b.fault(source.Fault{Flaw: SilentlyCleared, Span: it.IDSpan, Word: it.ID})
	}
	s.standing, s.open, s.cleared = next, false, it.HeadSpan()
	if a := f.act(fact.Cleared, it, next); it.ID == "" {
		a.Of = s.opening
	}
}

func (f *judge) act(what fact.EventKind, it *Item, after standing) *Act {
	a := &Act{Item: it, What: what, Standing: after.Standing}
	f.b.Acts = append(f.b.Acts, a)
	return a
}

// clauses takes the clauses of an item into the snag; false where they do not fit.
func (f *judge) clauses(it *Item, s *standing) bool {
	if c := it.Choice("severity"); c != nil {
		s.given = note.SeverityOf(c.Word)
	}
	note.Set(&s.Own, it.Line, "system")
	note.Set(&s.Asks, it.Line, "asks for")
	note.Set(&s.Stage, it.Line, "stage")
	note.Set(&s.Takes, it.Line, "takes")
	s.Disclose = s.Disclose || it.Has("disclose")
	s.Private = s.Private || it.Private() && it.changes()
	if due, ok := note.Arg[note.Due](it.Line, "due"); ok {
		s.Due, s.DueAt = due.Date, nil
		if due.Date == 0 {
			if from := it.Session.Running; from != nil {
				s.DueAt = new(measure.AddDistance(*from, due.Distance))
			} else {
				f.b.fault(source.Fault{Flaw: DueWithoutOdometer, Span: it.Clause("due").Span, Word: it.Clause("due").Arg.S})
			}
		}
	}
	s.settle(f.b)
	if s.Disclose && (s.Kind == "temporary" || s.Severity > note.Minor) {
		why := s.Severity.String()
		if s.Kind == "temporary" {
			why = "temporary"
		}
		at := it.HeadSpan()
		if c := it.Clause("disclose"); c != nil {
			at = c.Span
		}
		system := ""
		if s.given == note.NoSeverity {
			system = s.System
		}
		f.fault(it, source.Fault{Flaw: DiscloseNotMinor, Span: at, Why: why, Word: system})
		return false
	}
	return f.waits(it, s)
}
