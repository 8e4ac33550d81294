package state

import (
	"cmp"
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"
	"guidecoat/journal/speech"
)

// Work makes checks due, and a check that was carried out settles or fails them.

// A checkItem follows one check of the table, or one that only ever failed.
type checkItem struct {
	name    string
	rules   []journal.DueRule
	pending []*dueWork
	failed  *journal.CheckLine
	snag    *Snag
	aside   fact.Standing // what items said of it since it was last settled
}

// dueWork is a piece of work that has made a check due.
type dueWork struct {
	*deed
	rule journal.DueRule
	from *measure.Quantity // what a distance counts from; nil where no odometer tells
}

// A checkFollower follows work and checks in the order of the sessions.
type checkFollower struct {
	st     *State
	all    []journal.DueRule
	rules  map[string][]journal.DueRule // the same by name
	byName map[string]*checkItem
	early  map[string][]*journal.Act // said of checks that nothing has made due so far
	list   []*checkItem
}

// A CheckToTell is a check, or an item about one, that settles nothing, or came later than it should.
type CheckToTell struct {
	Name string
	At   source.Span
	Why  string
	Help string
	Late bool // it does settle what was due
}

// checksDue are the snags of checks that are due or have failed. It follows parts, jobs and checks, and tells of CheckToTells.
func checksDue(st *State) []*Snag {
	rules := slices.DeleteFunc(st.Build.DueRules(), func(r journal.DueRule) bool { return r.Before })
	f := &checkFollower{st: st, all: rules, rules: pick.By(rules, func(r journal.DueRule) string { return r.Name }),
		byName: map[string]*checkItem{}, early: map[string][]*journal.Act{}}
	works := st.deeds()
	asides := pick.By(st.Build.Asides, func(a *journal.Act) *journal.Session { return a.Session })
	checks := pick.By(st.Build.Checks, func(c *journal.CheckLine) *journal.Session { return c.Session })
	for _, i := range st.Build.Inspections {
		if i.Passed && i.Line.Name == "" { // one that is a check itself is there already
			checks[i.Session] = append(checks[i.Session], &journal.CheckLine{Session: i.Session, Line: i.Line, Name: journal.RoadworthinessTest, Result: "passed", At: i.At, Private: i.Private})
		}
	}
	for _, s := range st.Sessions {
		if l := s.Note.Line("odometer"); l != nil && l.Has("new cluster") {
			for _, it := range f.list { // distances count from what it reads: at least so much was driven
				for _, w := range it.pending {
					w.from = s.Odometer
				}
			}
		}
		for _, w := range works[s] {
			f.work(w)
		}
		for _, a := range asides[s] {
			f.aside(a)
		}
		for _, c := range checks[s] {
			f.carriedOut(c)
		}
	}
	missing := missingParts(st)
	for _, it := range f.list {
		if it.snag.Open {
			it.describe(st, missing)
		}
	}
	for name, list := range f.early {
		for _, a := range list {
			f.tell(CheckToTell{Name: name, At: a.HeadSpan(), Why: "nothing makes it due", Help: "Give the item another id if it is a job of its own."})
		}
	}
	return pick.Map(f.list, func(it *checkItem) *Snag { return it.snag })
}

func (f *checkFollower) tell(c CheckToTell) { f.st.ChecksToTell = append(f.st.ChecksToTell, c) }

// missingParts are the parts that are still to come, by the systems they touch.
func missingParts(st *State) map[string][]string {
	missing := map[string][]string{}
	for _, p := range st.Parts {
		for _, system := range p.Systems {
			if p.Waited() {
				missing[system] = append(missing[system], p.ID)
			}
		}
	}
	return missing
}

func (f *checkFollower) item(name string) *checkItem {
	it := f.byName[name]
	if it == nil {
		it = &checkItem{name: name, rules: f.rules[name], snag: &Snag{Snag: fact.Snag{ID: name}}}
		f.byName[name] = it
		f.list = append(f.list, it)
		for _, a := range f.early[name] {
			it.take(a)
		}
		delete(f.early, name)
	}
	return it
}

// work makes due what the table, or its own line, asks for after it.
func (f *checkFollower) work(w *deed) {
	asked := map[*journal.DueRule]bool{}
	ask := func(applies func(*journal.DueRule) bool) {
		for i := range f.all {
			if r := &f.all[i]; applies(r) && !asked[r] {
				asked[r] = true
				f.due(w, *r)
			}
		}
	}
	if w.asks == nil {
		for _, system := range w.systems {
			ask(func(r *journal.DueRule) bool { return slices.Contains(r.Systems, system) })
		}
		if w.flood {
			ask(func(r *journal.DueRule) bool { return r.Flood })
		}
		return
	}
	for _, name := range w.asks {
		rules := f.rules[name]
		if rules == nil {
			rules = []journal.DueRule{{Name: name, Systems: w.systems, Severity: note.Major}}
		}
		for _, r := range rules {
			f.due(w, r)
		}
	}
}

func (f *checkFollower) due(d *deed, rule journal.DueRule) {
	if d.damage {
		rule.Far = nil
	}
	w := &dueWork{d, rule, d.session.Running}
	it := f.item(w.rule.Name)
	it.pending = append(it.pending, w)
	if events := it.snag.Events; it.snag.Open && len(events) > 0 && events[len(events)-1].Span == w.span {
		return // another row of the same work
	}
	it.snag.event(true, w.session, w.span, notDone(it.name, w), w.private)
}

func (f *checkFollower) aside(a *journal.Act) {
	if it := f.byName[a.ID]; it != nil {
		it.take(a)
	} else {
		f.early[a.ID] = append(f.early[a.ID], a)
	}
}

func (it *checkItem) take(a *journal.Act) {
	takeAside(&it.aside, a)
	it.snag.say(fact.Remarked, a.Item)
}

func (f *checkFollower) carriedOut(c *journal.CheckLine) {
	it := f.byName[c.Name]
	if c.Denied {
		return
	}
	if c.Result == "failed" {
		it = f.item(c.Name)
		it.failed = c
		it.snag.event(true, c.Session, c.Line.HeadSpan(), told(c), c.Private)
		return
	}
	if it == nil || !it.snag.Open {
		return // a check that nothing made due is fine
	}
	if it.failed != nil && c.Result != "passed" {
		f.tell(CheckToTell{Name: c.Name, At: c.Line.NameSpan(), Why: "it failed on " + it.failed.Session.Date.String() + ", and only \"passed\" settles that", Help: "Write \"passed\" and how you know, once it has."})
		return
	}
	it.describe(f.st, nil) // as it stood before it was settled
	it.failed = nil
	words, late, inVain := told(c), speech.Phrase{}, ""
	it.pending = slices.DeleteFunc(it.pending, func(w *dueWork) bool {
		why, settles := w.judge(c)
		if !settles {
			inVain = why.String()
		} else if why.Some() {
			late = why
		}
		return settles
	})
	switch {
	case inVain != "":
		f.tell(CheckToTell{Name: c.Name, At: c.Line.NameSpan(), Why: inVain, Help: "Write \"; at DISTANCE\" with what the odometer read, or carry it out again."})
	case late.Some():
		f.tell(CheckToTell{Name: c.Name, At: c.Line.NameSpan(), Why: late.String(), Late: true})
		words = speech.Of("%s (%s)", words, late)
	}
	if len(it.pending) > 0 {
		return
	}
	it.snag.event(false, c.Session, c.Line.HeadSpan(), words, c.Private)
	it.aside = fact.Standing{Takes: it.aside.Takes}
}

// told is the result with the remark behind it.
func told(c *journal.CheckLine) speech.Phrase {
	if words := c.Line.Words().S; words != "" {
		return speech.Of("%s: %s", speech.Term(c.Result), words)
	}
	return speech.Of("%s", speech.Term(c.Result))
}

func notDone(check string, w *dueWork) speech.Phrase {
	return speech.Of("%s not done since %s", speech.Name(check), w.since())
}

// judge tells whether a check settles the work, and why it does not, or how it is late.
func (w *dueWork) judge(c *journal.CheckLine) (why speech.Phrase, settles bool) {
	if w.rule.Far == nil {
		return why, true
	}
	from := w.from
	switch {
	case c.At == nil:
		return speech.Of("it does not say at what odometer it was done"), false
	case from == nil:
		return speech.Of("no odometer is noted for the work on %s", w.on), false
	case c.At.Compare(*from) < 0:
		return speech.Of("it was done at %s, which is less than the %s of the work on %s", *c.At, *from, w.on), false
	}
	far := w.rule.Stretch(from.Unit)
	switch {
	case c.At.Compare(measure.AddDistance(*from, far.Least)) < 0:
		return speech.Of("it was done before %s were driven since the work on %s at %s", far.Least, w.on, *from), false
	case far.Most != nil && c.At.Compare(measure.AddDistance(*from, *far.Most)) > 0:
		return speech.Of("later than %s after the work on %s at %s", *far.Most, speech.Part(w.on), *from), true
	}
	return why, true
}

// between are the odometer readings from which and until which the check should settle the work, where any tell.
func (w *dueWork) between() (from, until *measure.Quantity) {
	at := w.from
	if w.rule.Far == nil || at == nil {
		return nil, nil
	}
	far := w.rule.Stretch(at.Unit)
	from = new(measure.AddDistance(*at, far.Least))
	if far.Most != nil {
		until = new(measure.AddDistance(*at, *far.Most))
	}
	return from, until
}

// describe words what is outstanding, by the earliest work and the worst severity.
func (it *checkItem) describe(st *State, missing map[string][]string) {
	s := it.snag
	s.Severity, s.NotBefore, s.ToDrive, s.Part, s.Failed = note.NoSeverity, nil, note.NoSeverity, "", 0
	s.Takes, s.Due, s.DueAt, s.Disclose = it.aside.Takes, it.aside.Due, it.aside.DueAt, it.aside.Disclose
	s.WaitsFor = once(it.aside.WaitsFor)
	s.Standing.Private = s.Standing.Private || it.aside.Private
	if len(it.pending) > 0 {
		it.describeDue(st, missing)
	}
	if it.failed != nil {
		it.describeFailed(st)
	}
}

func (it *checkItem) describeDue(st *State, missing map[string][]string) {
	s, first := it.snag, slices.MinFunc(it.pending, func(a, b *dueWork) int {
		return cmp.Or(cmp.Compare(a.session.Date, b.session.Date), cmp.Compare(a.on, b.on), cmp.Compare(a.since().String(), b.since().String()))
	})
	s.Source, s.System, s.Stage, s.Part = fact.FromDue, "", first.stage, first.part
	for _, system := range first.systems {
		if s.System == "" || !slices.Contains(first.rule.Systems, s.System) {
			s.System = system
		}
	}
	s.Opened, s.Span, s.Session = first.session.Date, first.span, first.session
	words := notDone(it.name, first)
	if first.rule.Because != "" {
		words = speech.Of("%s: %s", words, speech.Term(first.rule.Because))
	}
	unknown := false
	for _, w := range it.pending {
		s.Severity = max(s.Severity, w.rule.Severity)
		from, until := w.between()
		if from != nil && (s.NotBefore == nil || from.Compare(*s.NotBefore) > 0) {
			s.NotBefore = from
			if it.aside.Due == 0 && it.aside.DueAt == nil {
				s.DueAt = until
			}
		}
		// What asks for a distance cannot forbid to drive it.
		if from == nil || st.driven(from) {
			s.ToDrive = max(s.ToDrive, w.rule.Severity)
		}
		unknown = unknown || from == nil && w.rule.Far != nil
		for _, system := range w.rule.Systems {
			s.WaitsFor = append(s.WaitsFor, missing[system]...)
		}
	}
	s.WaitsFor = once(s.WaitsFor)
	if unknown {
		words = speech.Of("%s; no odometer reading is noted by then, so nobody can tell the distance", words)
	}
	s.Tell(words)
}

func (it *checkItem) describeFailed(st *State) {
	s := it.snag
	s.Source, s.Failed = fact.FromCheck, it.failed.Session.Date
	s.Tell(speech.Of("%s %s", speech.Name(it.name), told(it.failed)))
	if len(it.pending) == 0 {
		s.Opened, s.Span, s.Session = it.failed.Session.Date, it.failed.Line.HeadSpan(), it.failed.Session
		s.System, s.Stage = it.failed.System, it.failed.Session.Stage
		if s.System == "" && len(it.rules) > 0 && len(it.rules[0].Systems) > 0 {
			s.System = it.rules[0].Systems[0] // more than the stage tells of it
		}
	}
	worst := cmp.Or(it.failed.Severity, st.Build.WorstOf(it.name))
	s.Severity, s.ToDrive = max(s.Severity, worst), max(s.ToDrive, worst)
}
