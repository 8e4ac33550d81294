package journal

import (
	"slices"

	"guidecoat/journal/fact"
	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/source"
)

// The items of all notes, taken one after the other.

func resolveItems(b *Build) {
	for _, it := range b.items {
		checkNames(b, it.Line)
		checkWaits(b, it)
	}
	f := &judge{b: b, byID: map[string]*judged{}, begun: map[string][]string{}, unsure: map[string]bool{}, plains: plainItems{begins: map[string][]*judged{}}}
	f.run()
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
		// said of a surcharge; see ledger.go
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
		if like := f.b.nearID(it.ID); like != "" && (f.b.ids[like] == nil || f.b.ids[like].sort != checkSort || near.Distance(it.ID, like, 1) <= 1) {
			f.fault(it, source.Fault{Flaw: NearID, Span: it.IDSpan, Word: it.ID, Near: []string{like}})
			return
		}
		f.open(it, nil)
	}
}

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
