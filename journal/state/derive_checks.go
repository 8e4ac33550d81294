package state

import (
	"cmp"
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
)

// Work makes checks due, and a check that was carried out settles or fails them.

// A checkItem follows one check of the table, or one that only ever failed.
type checkItem struct {
	name    string
	rules   []journal.DueRule
	pending []*dueWork
	failed  *journal.CheckLine
	snag    *Snag
}

// dueWork is a piece of work that has made a check due.
type dueWork struct {
	line *journal.PartLine
	part *Part
	rule journal.DueRule
}

// checkItems follows parts and checks in the order of the sessions, up to the date
// of the state. Warn is told of checks that settle nothing.
func (st *State) checkItems(warn func(*journal.CheckLine, string)) []*checkItem {
	rules := st.Build.DueRules()
	f := &checkFollower{st: st, rules: by(rules, func(r journal.DueRule) string { return r.Name }), byName: map[string]*checkItem{}, bySystem: map[string][]journal.DueRule{}, warn: warn}
	for _, r := range rules {
		for _, system := range r.After {
			f.bySystem[system] = append(f.bySystem[system], r)
		}
	}
	work, checks := map[*journal.Session][]*dueWork{}, map[*journal.Session][]*journal.CheckLine{}
	for _, p := range st.Parts {
		for _, pl := range p.Lines {
			if pl.State == "fitted" || pl.State == "refitted" {
				for _, r := range f.bySystem[p.System] {
					work[pl.Session] = append(work[pl.Session], &dueWork{pl, p, r})
				}
			}
		}
	}
	for _, c := range st.Build.Checks {
		if !c.Denied {
			checks[c.Session] = append(checks[c.Session], c)
		}
	}
	for _, s := range st.Sessions {
		for _, w := range work[s] {
			f.due(w)
		}
		for _, c := range checks[s] {
			f.carriedOut(c)
		}
	}
	for _, it := range f.list {
		if it.snag.Open {
			it.describe(st)
		}
	}
	return f.list
}

type checkFollower struct {
	st       *State
	rules    map[string][]journal.DueRule // by name
	byName   map[string]*checkItem
	bySystem map[string][]journal.DueRule
	list     []*checkItem
	warn     func(*journal.CheckLine, string)
}

func (f *checkFollower) item(name string) *checkItem {
	it := f.byName[name]
	if it == nil {
		it = &checkItem{name: name, rules: f.rules[name], snag: &Snag{Snag: fact.Snag{ID: name}}}
		f.byName[name] = it
		f.list = append(f.list, it)
	}
	return it
}

func (f *checkFollower) due(w *dueWork) {
	it := f.item(w.rule.Name)
	it.pending = append(it.pending, w)
	it.snag.event(true, w.line.Session, w.line.Line.HeadSpan(), "due since "+w.part.ID+" was "+w.line.State, w.line.Private)
	it.snag.Events[len(it.snag.Events)-1].Part = w.part.ID
}

// carriedOut takes a check in.
func (f *checkFollower) carriedOut(c *journal.CheckLine) {
	it := f.byName[c.Name]
	if c.Result == "failed" {
		it = f.item(c.Name)
		it.failed = c
		it.snag.event(true, c.Session, c.Line.HeadSpan(), told(c), c.Private)
		return
	}
	if it == nil {
		return // a check that nothing made due is fine
	}
	if it.snag.Open {
		it.describe(f.st) // as it stood before it was settled
	}
	it.failed = nil
	why := ""
	it.pending = slices.DeleteFunc(it.pending, func(w *dueWork) bool {
		reason := w.unsettled(c)
		if reason != "" {
			why = reason
		}
		return reason == ""
	})
	if why != "" {
		f.warn(c, why)
	}
	if len(it.pending) > 0 {
		return
	}
	it.snag.event(false, c.Session, c.Line.HeadSpan(), told(c), c.Private)
}

// told is the result with the remark behind it.
func told(c *journal.CheckLine) string {
	return strings.TrimSuffix(c.Result+": "+c.Line.Words().S, ": ")
}

// unsettled says why a check does not settle the work; "" where it does.
func (w *dueWork) unsettled(c *journal.CheckLine) string {
	if w.rule.Distance == nil {
		return ""
	}
	from := w.line.Session.Running
	switch {
	case c.At == nil:
		return "it does not say at what odometer it was done"
	case from == nil:
		return "no odometer is noted for the work on " + w.part.ID
	case c.At.Compare(*from) < 0:
		return "it was done at " + c.At.String() + ", which is less than the " + from.String() + " of the work on " + w.part.ID
	case c.At.Compare(measure.AddDistance(*from, far(w.rule, *from))) < 0:
		return "it was done before " + far(w.rule, *from).String() + " were driven since the work on " + w.part.ID + " at " + from.String()
	}
	return ""
}

// far returns the distance to be driven since an odometer reading. Round miles hold
// where the odometer reads miles.
func far(r journal.DueRule, from measure.Quantity) measure.Quantity {
	if r.Miles != nil && from.Unit == r.Miles.Unit {
		return *r.Miles
	}
	return *r.Distance
}

// from is the odometer reading from which the check can settle the work; nil where
// it can be done at once, or where no odometer tells.
func (w *dueWork) from() *measure.Quantity {
	if w.rule.Distance == nil || w.line.Session.Running == nil {
		return nil
	}
	from := *w.line.Session.Running
	at := measure.AddDistance(from, far(w.rule, from))
	return &at
}

// describe words what is outstanding: the earliest work, of several on one day that on
// the part whose id comes first, since names of files tell nothing; the worst severity.
func (it *checkItem) describe(st *State) {
	s := it.snag
	s.Severity, s.NotBefore, s.ToDrive, s.Part = note.NoSeverity, nil, note.NoSeverity, ""
	if len(it.pending) > 0 {
		it.describeDue(st)
	}
	if it.failed != nil {
		it.describeFailed()
	}
}

func (it *checkItem) describeDue(st *State) {
	s, first := it.snag, slices.MinFunc(it.pending, func(a, b *dueWork) int {
		return cmp.Or(cmp.Compare(a.line.Session.Date, b.line.Session.Date), cmp.Compare(a.part.ID, b.part.ID))
	})
	s.Source, s.System, s.Stage, s.Part = fact.FromDue, first.part.System, first.part.Stage, first.part.ID
	s.Opened, s.Span, s.Session = first.line.Session.Date, first.line.Line.HeadSpan(), first.line.Session
	s.Words = it.name + ", due since " + first.part.ID + " was " + first.line.State
	if first.rule.Because != "" {
		s.Words += ": " + first.rule.Because
	}
	unknown := false
	for _, w := range it.pending {
		s.Severity = max(s.Severity, w.rule.Severity)
		from := w.from()
		if from != nil && (s.NotBefore == nil || from.Compare(*s.NotBefore) > 0) {
			s.NotBefore = from
		}
		// What asks for a distance cannot forbid to drive it.
		if from == nil || st.driven(from) {
			s.ToDrive = max(s.ToDrive, w.rule.Severity)
		}
		unknown = unknown || from == nil && w.rule.Distance != nil
	}
	if unknown {
		s.Words += "; no odometer is noted at that work or before it, and without one the distance cannot be told"
	}
}

func (it *checkItem) describeFailed() {
	s := it.snag
	s.Source, s.Failed = fact.FromCheck, it.failed.Session.Date
	s.Words = it.name + " " + told(it.failed)
	if len(it.pending) == 0 {
		s.Opened, s.Span, s.Session = it.failed.Session.Date, it.failed.Line.HeadSpan(), it.failed.Session
		s.System, s.Stage = it.failed.System, it.failed.Session.Stage
	}
	worst := note.NoSeverity
	for _, r := range it.rules {
		worst = max(worst, r.Severity)
	}
	if worst == note.NoSeverity {
		worst = note.Major
	}
	s.Severity, s.ToDrive = max(s.Severity, worst), max(s.ToDrive, worst)
}

// checksDue are the snags of checks that are due or have failed.
func (st *State) checksDue() []*Snag {
	var snags []*Snag
	for _, it := range st.checkItems(func(*journal.CheckLine, string) {}) {
		snags = append(snags, it.snag)
	}
	return snags
}

// A CheckInVain is a check that was carried out, but too soon after the work, or
// without an odometer that could tell.
type CheckInVain struct {
	*journal.CheckLine
	Why string
}

// ChecksInVain are those that settle nothing, in all notes whatever the date.
func ChecksInVain(b *journal.Build) []CheckInVain {
	var list []CheckInVain
	st := &State{Build: b, Sessions: b.Sessions}
	st.partsAt()
	st.checkItems(func(c *journal.CheckLine, why string) { list = append(list, CheckInVain{c, why}) })
	return list
}
