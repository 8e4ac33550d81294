package journal

import (
	"slices"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/source"
)

// The flaws of snags.
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

// A fold takes the task-list items of a build in order and keeps the snags they
// make. The first fold, over all items, reports what does not fit together and
// marks those items bad; later ones run over the sound items up to a date.
type fold struct {
	b     *Build
	snags []*Snag
	byID  map[string]*Snag
	// report is nil in later folds.
	report  func(it *item, f source.Fault)
	waiting []*item // lines about an id that the same note opens below
	// unsure are the ids of which a tick was left out for another mistake. That
	// they are opened again then is not said to be wrong.
	unsure    map[string]bool
	waitedFor map[string]bool // the ids that a snag waits for
}

// collectItems takes in the task-list items and what they open, which parts and what
// follows by itself may not name again.
func (b *Build) collectItems() {
	b.openings, b.snagFirst = map[string]*item{}, map[string]bool{}
	for _, s := range b.Sessions {
		for _, it := range s.Note.Items {
			i := &item{s, it}
			b.items = append(b.items, i)
			if it.ID != "" && b.openings[it.ID] == nil && (it.Kind != "" || !it.Ticked && !it.Again && !it.BareID) {
				b.openings[it.ID] = i
				b.near.openings.Add(it.ID)
			}
		}
	}
}

// resolveItems runs the first fold.
func (b *Build) resolveItems() {
	for _, it := range b.items {
		b.checkNames(it.Line)
		b.checkWaits(it)
	}
	f := &fold{b: b, report: func(it *item, fault source.Fault) { b.reject(it.Line, fault) }}
	f.run(b.items)
}

// checkWaits rejects a `waits for` that names nothing in the whole build.
func (b *Build) checkWaits(it *item) {
	for _, c := range it.Clauses {
		id, _ := c.Value.(string)
		if c.Word != "waits for" || id == "" || b.isPart(id) || b.ids[id] != nil || b.openings[id] != nil {
			continue
		}
		b.reject(it.Line, source.Fault{Flaw: UnknownWaitsFor, Span: c.Arg.Whole(), Word: id, Near: b.nearAny(id)})
	}
}

// run takes the sound ones of the items in, session by session.
func (f *fold) run(items []*item) {
	f.byID, f.unsure, f.waitedFor = map[string]*Snag{}, map[string]bool{}, map[string]bool{}
	for i, it := range items {
		if !it.Bad {
			f.take(it)
		} else if it.Ticked {
			f.unsure[it.ID] = true
		}
		if i+1 == len(items) || items[i+1].session != it.session {
			waiting := f.waiting
			for _, it := range waiting {
				f.take(it)
			}
			f.waiting = nil
		}
	}
}

func (f *fold) fault(it *item, fault source.Fault) {
	if f.report != nil {
		f.report(it, fault)
	}
}

func (f *fold) warn(fault source.Fault) {
	if f.report != nil {
		f.b.fault(fault)
	}
}

// take brings one item in.
func (f *fold) take(it *item) {
	known := f.byID[it.ID]
	switch {
	case it.ID == "":
		f.plain(it)
	case f.report != nil && it.BareID && f.b.ids[it.ID] == nil && f.b.openings[it.ID] == nil && f.b.nearID(it.ID) == "":
		it.TakeAsWords() // nobody opens it, so it is no id
		f.plain(it)
	case it.Kind != "" || it.Again:
		f.opening(it, known)
	case known == nil && f.b.ids[it.ID] != nil && f.b.ids[it.ID].sort == "surcharge":
		// said of a surcharge; see surcharge.go
	case known == nil && f.b.badID[it.ID] && !f.b.snagFirst[it.ID]:
		it.Bad = true // what it hangs on was reported
	case known == nil:
		f.unknown(it)
	case it.Ticked && !known.Open:
		f.warn(source.Fault{Flaw: ClearedAgain, Span: it.IDSpan, Word: it.ID, Other: known.ClearedBy().Span})
	case it.Ticked:
		f.clear(it, known)
	case known.Open:
		f.remark(it, known)
	default:
		f.warn(source.Fault{Flaw: ReopenedByItself, Span: it.IDSpan, Word: it.ID, Other: known.ClearedBy().Span})
		f.open(it, known)
	}
}

// plain takes an item that has no id: a job of its own.
func (f *fold) plain(it *item) {
	if f.report != nil && it.ID == "" && it.Kind == "" && it.Colon {
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
	if it.Kind == "temporary" && !it.Ticked {
		f.warn(source.Fault{Flaw: TemporaryWithoutID, Span: it.HeadSpan(), Word: it.Words().S, Near: []string{suggestID(it.Words().S)}})
	}
	f.open(it, nil)
}

// opening takes an item whose kind, or `again`, says that it opens something.
func (f *fold) opening(it *item, known *Snag) {
	other := f.b.taken(it.ID)
	switch {
	case known != nil && known.Open && f.unsure[it.ID]:
		f.open(it, known)
	case known != nil && known.Open:
		help := "Leave out what stands before the id if this is a remark."
		if it.Ticked {
			help = "Write \"- [x] " + it.ID + ": \" if this clears it."
		}
		f.fault(it, source.Fault{Flaw: OpenedTwice, Span: it.IDSpan, Word: it.ID, Other: known.Span, Help: help})
	case known == nil && it.Again:
		f.fault(it, source.Fault{Flaw: UnknownSnag, Span: it.IDSpan, Word: it.ID, Near: f.b.nearAny(it.ID)})
	case known == nil && other != nil:
		f.fault(it, source.Fault{Flaw: IDTaken, Span: it.IDSpan, Word: it.ID, Why: other.sort, Other: other.span})
	default:
		if known != nil && !known.Open && !it.Again {
			f.warn(source.Fault{Flaw: ReopenedByItself, Span: it.IDSpan, Word: it.ID, Other: known.ClearedBy().Span})
		}
		f.open(it, known)
	}
}

// unknown takes an item about an id that nothing above has opened.
func (f *fold) unknown(it *item) {
	opening := f.b.openings[it.ID]
	if opening == it { // opens it itself, as a job
		opening = nil
	}
	other := f.b.taken(it.ID)
	switch {
	case opening != nil && opening.session == it.session && !contains(f.waiting, it) && !opening.Bad:
		f.waiting = append(f.waiting, it)
	case opening != nil && opening.Bad:
		it.Bad = true // the opening was reported, and this hangs on it
	case it.Ticked && opening != nil:
		f.fault(it, source.Fault{Flaw: ClearedBeforeOpened, Span: it.IDSpan, Word: it.ID, Other: opening.IDSpan})
	case it.Ticked && other == nil && f.b.isCode(it.ID):
		f.fault(it, source.Fault{Flaw: UnknownSnag, Span: it.IDSpan, Word: it.ID, Why: "scan"})
	case it.Ticked && other != nil:
		f.fault(it, source.Fault{Flaw: UnknownSnag, Span: it.IDSpan, Word: it.ID, Why: other.sort})
	case it.Ticked:
		f.fault(it, source.Fault{Flaw: UnknownSnag, Span: it.IDSpan, Word: it.ID, Near: f.b.nearAny(it.ID)})
	case other != nil:
		f.fault(it, source.Fault{Flaw: IDTaken, Span: it.IDSpan, Word: it.ID, Why: other.sort, Other: other.span})
	default:
		if f.report != nil {
			if like := f.b.nearID(it.ID); like != "" {
				f.fault(it, source.Fault{Flaw: NearID, Span: it.IDSpan, Word: it.ID, Near: []string{like}})
				return
			}
		}
		f.open(it, nil)
	}
}

// open opens a snag, a new one where known is nil, and clears it again where the
// item is ticked.
func (f *fold) open(it *item, known *Snag) {
	s, what := known, Reopened
	if s == nil {
		s, what = &Snag{ID: it.ID, Source: FromNote}, Opened
	}
	next := *s
	if it.Kind != "" {
		next.Kind = it.Kind
	} else if next.Kind == "" {
		next.Kind = "job"
	}
	if it.Words().S != "" || known == nil {
		next.Words = it.Words().S
	}
	next.Open, next.Cleared, next.Opened = true, 0, it.session.Date
	next.Span, next.Session = it.HeadSpan(), it.session
	if known == nil {
		next.Stage = it.session.Stage
	}
	next.Private = next.Private || it.private()
	if !f.clauses(it, &next) {
		return
	}
	*s = next
	s.say(what, it)
	if known == nil {
		f.snags = append(f.snags, s)
		if s.ID != "" {
			f.byID[s.ID] = s
			if f.report != nil && f.b.ids[s.ID] == nil {
				f.b.identify(s.ID, &identity{sort: snagSort, span: it.IDSpan})
			}
		}
	}
	if it.Ticked {
		s.Open, s.Cleared = false, it.session.Date
		s.say(Cleared, it)
	}
}

func (f *fold) remark(it *item, s *Snag) {
	next := *s
	if f.clauses(it, &next) {
		*s = next
		s.say(Remarked, it)
	}
}

func (f *fold) clear(it *item, s *Snag) {
	next := *s
	if !f.clauses(it, &next) {
		return
	}
	next.settle(f.b)
	if next.Severity == note.Dangerous && it.Words().S == "" {
		f.warn(source.Fault{Flaw: SilentlyCleared, Span: it.IDSpan, Word: s.ID})
	}
	*s = next
	s.Open, s.Cleared = false, it.session.Date
	s.say(Cleared, it)
}

func (s *Snag) say(what EventKind, it *item) {
	s.Events = append(s.Events, &Event{What: what, Session: it.session, Date: it.session.Date, Words: it.Words().S,
		Span: it.HeadSpan(), Item: it.Item, Private: it.private()})
}

func (it *item) private() bool { return it.session.Private || it.Has("private") }

// changes tells whether the item says more of its snag than words: the snag would
// then show what is private. Words are hidden on their own.
func (it *item) changes() bool {
	return slices.ContainsFunc(it.Clauses, func(c note.Found) bool { return c.Word != "private" && c.Word != "photo" })
}

// clauses takes the clauses of an item into the snag; false where they do not fit.
func (f *fold) clauses(it *item, s *Snag) bool {
	if c := it.Choice("severity"); c != nil {
		s.given = note.SeverityOf(c.Word)
	}
	set(&s.own, it.Line, "system")
	set(&s.Stage, it.Line, "stage")
	set(&s.Takes, it.Line, "takes")
	s.Disclose = s.Disclose || it.Has("disclose")
	s.Private = s.Private || it.private() && it.changes()
	if due, ok := note.Arg[note.Due](it.Line, "due"); ok {
		s.Due, s.DueAt = due.Date, nil
		if due.Date == 0 {
			if from := it.session.Running; from != nil {
				at := measure.AddDistance(*from, due.Distance)
				s.DueAt = &at
			} else {
				f.warn(source.Fault{Flaw: DueWithoutOdometer, Span: it.Clause("due").Span, Word: it.Clause("due").Arg.S})
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
		f.fault(it, source.Fault{Flaw: DiscloseNotMinor, Span: at, Why: why})
		return false
	}
	return f.waits(it, s)
}

// waits takes what the snag waits for, and rejects a circle where it closes.
func (f *fold) waits(it *item, s *Snag) bool {
	for _, c := range it.Clauses {
		id, ok := c.Value.(string)
		if c.Word != "waits for" || !ok || contains(s.WaitsFor, id) {
			continue
		}
		// Only what something waits for can close a circle; most is opened before that.
		if s.ID != "" && f.report != nil && (id == s.ID || f.waitedFor[s.ID]) && f.leadsTo(id, s.ID) {
			f.fault(it, source.Fault{Flaw: WaitsInCircle, Span: c.Arg.Whole(), Word: id, Near: []string{s.ID}})
			return false
		}
		s.WaitsFor = append(s.WaitsFor[:len(s.WaitsFor):len(s.WaitsFor)], id)
		f.waitedFor[id] = true
	}
	return true
}

// leadsTo tells whether waiting for id means waiting for target in the end.
func (f *fold) leadsTo(id, target string) bool {
	seen := map[string]bool{id: true}
	for ids := []string{id}; len(ids) > 0; {
		last := ids[len(ids)-1]
		if last == target {
			return true
		}
		ids = ids[:len(ids)-1]
		if s := f.byID[last]; s != nil {
			for _, next := range s.WaitsFor {
				if !seen[next] {
					seen[next] = true
					ids = append(ids, next)
				}
			}
		}
	}
	return false
}
