package state

import (
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
	st       *State
	rules    map[string][]journal.DueRule // by name
	byName   map[string]*checkItem
	bySystem map[string][]*journal.DueRule
	flood    []*journal.DueRule
	early    map[string][]*journal.Act // said of checks that nothing has made due so far
	list     []*checkItem
	told     func(CheckToTell)
}

// A CheckToTell is a check, or an item about one, that settles nothing, or came later than it should.
type CheckToTell struct {
	Name string
	At   source.Span
	Why  string
	Help string
	Late bool // it does settle what was due
}

// checkItems follows parts, jobs and checks up to the date of the state, and tells of CheckToTells.
func checkItems(st *State, told func(CheckToTell)) []*checkItem {
	rules := slices.DeleteFunc(st.Build.DueRules(), func(r journal.DueRule) bool { return r.Before })
	f := &checkFollower{st: st, rules: pick.By(rules, func(r journal.DueRule) string { return r.Name }), byName: map[string]*checkItem{},
		bySystem: map[string][]*journal.DueRule{}, early: map[string][]*journal.Act{}, told: told}
	for i, r := range rules {
		for _, system := range r.Systems {
			f.bySystem[system] = append(f.bySystem[system], &rules[i])
		}
		if r.Flood {
			f.flood = append(f.flood, &rules[i])
		}
	}
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
			f.newCluster(s.Odometer)
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
			told(CheckToTell{Name: name, At: a.HeadSpan(), Why: "nothing makes it due", Help: "Give the item another id if it is a job of its own."})
		}
	}
	return f.list
}

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
	if w.asks == nil {
		asked := map[*journal.DueRule]bool{}
		ask := func(rules []*journal.DueRule) {
			for _, r := range rules {
				if asked[r] {
					continue
				}
				asked[r] = true
				due := &dueWork{deed: w, rule: *r}
				if w.damage {
					due.rule.Far = nil
				}
				f.due(due)
			}
		}
		for _, system := range w.systems {
			ask(f.bySystem[system])
		}
		if w.flood {
			ask(f.flood)
		}
		return
	}
	for _, name := range w.asks {
		rules := f.rules[name]
		if rules == nil {
			rules = []journal.DueRule{{Name: name, Systems: w.systems, Severity: note.Major}}
		}
		for _, r := range rules {
			f.due(&dueWork{deed: w, rule: r})
		}
	}
}

// newCluster counts distances from what a new cluster reads: at least so much was driven since.
func (f *checkFollower) newCluster(at *measure.Quantity) {
	for _, it := range f.list {
		for _, w := range it.pending {
			w.from = at
		}
	}
}

func (f *checkFollower) due(w *dueWork) {
	w.from = w.session.Running
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
		f.told(CheckToTell{Name: c.Name, At: c.Line.NameSpan(), Why: "it failed on " + it.failed.Session.Date.String() + ", and only \"passed\" settles that", Help: "Write \"passed\" and how you know, once it has."})
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
		f.told(CheckToTell{Name: c.Name, At: c.Line.NameSpan(), Why: inVain, Help: "Write \"; at DISTANCE\" with what the odometer read, or carry it out again."})
	case late.Some():
		f.told(CheckToTell{Name: c.Name, At: c.Line.NameSpan(), Why: late.String(), Late: true})
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

// checksDue are the snags of checks that are due or have failed.
func checksDue(st *State) []*Snag {
	items := checkItems(st, func(c CheckToTell) { st.ChecksToTell = append(st.ChecksToTell, c) })
	return pick.Map(items, func(it *checkItem) *Snag { return it.snag })
}
