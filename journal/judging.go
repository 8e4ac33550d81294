package journal

import (
	"cmp"
	"slices"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"
	"guidecoat/journal/speech"
)

// What an item does to a snag: opens, remarks, clears.

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

// plainItems are the open snags without an id, by each beginning of their words.
type plainItems struct {
	fresh  []*judged // added since words were looked for: most builds tick few
	begins map[string][]*judged
	open   int
}

// ofChecks are the clauses of an item on a check or reading: how it is carried out. The rest follows from the work.
var ofChecks = []string{"takes", "due", "waits for", "photo", "disclose", "private", "sure"}

func (f *judge) fault(it *Item, fault source.Fault) { f.b.reject(it.Line, fault) }

// open opens a snag, a new one where known is nil; nil is returned where the item cannot stand.
func (f *judge) open(it *Item, known *judged) *judged {
	what, next := fact.Opened, standing{Standing: fact.Standing{Stage: it.Session.Stage}}
	if known != nil {
		what, next = fact.Reopened, known.standing
	}
	next.Kind = cmp.Or(it.Kind, next.Kind, "job")
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
	s.given = cmp.Or(it.Severity(), s.given)
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

func (s *standing) settle(b *Build) {
	s.System = cmp.Or(s.Own, b.SystemOf(s.Stage))
	s.Severity = cmp.Or(s.given, defaultSeverity(s.Kind, s.System))
}

// defaultSeverity is major for a temporary fix and for safety systems.
func defaultSeverity(kind, system string) note.Severity {
	return pick.Either(kind == "temporary" || note.IsSafety(system), note.Major, note.Minor)
}

// IsWork tells whether clearing it asks for checks: a job or temporary fix of a safety system, or one that says so.
func (a *Act) IsWork() bool {
	s := &a.Standing
	return (s.Kind == "" || s.Kind == "job" || s.Kind == "temporary") && (note.IsSafety(s.Own) || s.Asks != nil)
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

// waits takes what the snag waits for, and rejects a circle where it closes.
func (f *judge) waits(it *Item, s *standing) bool {
	for _, c := range it.Clauses {
		id, ok := c.Value.(string)
		if c.Word != "waits for" || !ok {
			continue
		}
		if f.circle[it.ID] && f.circle[id] && f.leadsTo(id, it.ID) {
			f.fault(it, source.Fault{Flaw: WaitsInCircle, Span: c.Arg.Whole(), Word: id, Near: []string{it.ID}})
			return false
		}
		s.WaitsFor = append(s.WaitsFor, id) // may be said twice; a state tells it once
	}
	return true
}

// leadsTo tells whether waiting for id means waiting for target in the end.
func (f *judge) leadsTo(id, target string) bool {
	seen := map[string]bool{id: true}
	for ids := []string{id}; len(ids) > 0 && f.steps > 0; f.steps-- {
		last := ids[len(ids)-1]
		if last == target {
			return true
		}
		ids = ids[:len(ids)-1]
		if s := f.byID[last]; s != nil {
			for _, next := range s.WaitsFor {
				if f.circle[next] && !seen[next] {
					seen[next] = true
					ids = append(ids, next)
				}
			}
		}
	}
	return false
}

// mostSteps bounds the ways of waiting that are followed in search of circles.
const mostSteps = 100_000

// circling are the ids that circles go through: what is left when ids without a way on or back are taken away.
func circling(items []*Item) map[string]bool {
	var edges [2]map[string][]string // what an id waits for, and what waits for it
	edges[0], edges[1] = map[string][]string{}, map[string][]string{}
	left := map[string]bool{}
	for _, it := range items {
		for _, c := range it.Clauses {
			if id, _ := c.Value.(string); c.Word == "waits for" && it.ID != "" {
				edges[0][it.ID], edges[1][id] = append(edges[0][it.ID], id), append(edges[1][id], it.ID)
				left[it.ID], left[id] = true, true
			}
		}
	}
	for way := range edges {
		count := map[string]int{}
		var free []string
		for id := range left {
			for _, next := range edges[way][id] {
				if left[next] {
					count[id]++
				}
			}
			if count[id] == 0 {
				free = append(free, id)
			}
		}
		for ; len(free) > 0; free = free[1:] {
			delete(left, free[0])
			for _, next := range edges[1-way][free[0]] {
				if count[next]--; count[next] == 0 {
					free = append(free, next)
				}
			}
		}
	}
	return left
}
