package state

import (
	"cmp"
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/speech"

	"github.com/shopspring/decimal"
)

// Snags that follow by themselves from other lines than those of checks.

type Fastener struct {
	*journal.Fastener
	Snag *Snag // nil where its part was never fitted
}

// looseFasteners are the snags of fasteners whose part was fitted, until each is tightened as asked.
func looseFasteners(st *State) []*Snag {
	if len(st.Build.Card.Fasteners) == 0 {
		return nil
	}
	byID, ofPart := map[string]*Fastener{}, map[string][]*Fastener{}
	for _, f := range st.Build.Card.Fasteners {
		at := &Fastener{Fastener: f}
		byID[f.ID], ofPart[f.Part] = at, append(ofPart[f.Part], at)
		st.Fasteners = append(st.Fasteners, at)
	}
	works := st.deeds()
	tightened := pick.By(st.Build.Tightenings, func(t *journal.Tightening) *journal.Session { return t.Session })
	var list []*Snag
	for _, s := range st.Sessions {
		for _, w := range works[s] {
			if w.part == "" || w.asks.None() {
				continue
			}
			for _, f := range ofPart[w.part] {
				if f.Snag == nil {
					f.Snag = &Snag{Snag: fact.Snag{ID: f.ID, Source: fact.FromFastener}, Part: w.part}
					list = append(list, f.Snag)
				}
				f.loosened(w)
			}
		}
		for _, t := range tightened[s] {
			if f := byID[t.ID]; f != nil {
				f.tighten(t)
			}
		}
	}
	return list
}

func (f *Fastener) loosened(w *deed) {
	s := f.Snag
	s.Stage, s.System, s.Severity = w.stage, f.System, note.Major
	for _, system := range w.systems {
		if s.System == "" || f.System == "" && note.IsSafety(system) {
			s.System = system
		}
	}
	if note.IsSafety(s.System) {
		s.Severity = note.Dangerous
	}
	words := speech.Of("%s not tightened since %s", speech.Name(f.ID), w.since())
	s.Tell(speech.Of("%s: %s", words, f.Fastening))
	s.event(true, w.session, w.span, words, w.private)
}

// tighten takes in how it was tightened. The newest line counts, also of a tight one: it was undone since.
func (f *Fastener) tighten(t *journal.Tightening) {
	if f.Snag == nil {
		return // its part was never fitted
	}
	words := speech.Of("%s", t.Fastening)
	if t.Words != "" {
		words = speech.Of("%s %s", t.Fastening, t.Words)
	}
	lacks := f.Lacks(t)
	if lacks.Some() {
		f.Snag.Tell(speech.Of("%s: asked for %s, tightened to %s on %s: %s", speech.Name(f.ID), f.Fastening, t.Fastening, t.Session.Date, lacks))
		words = speech.Of("%s: %s", words, lacks)
	}
	if !lacks.Some() && !f.Snag.Open {
		return
	}
	f.Snag.event(lacks.Some(), t.Session, t.Line.HeadSpan(), words, t.Private)
}

// firedParts are the snags of what has fired and was replaced by something not new, or given up.
func firedParts(st *State) []*Snag {
	var list []*Snag
	for _, p := range st.Parts {
		if p.Fired == nil {
			continue
		}
		s := &Snag{Snag: fact.Snag{ID: journal.FiredID(p.ID), Source: fact.FromDamage}, Part: p.ID}
		s.Severity, s.Stage, s.System = note.Dangerous, p.Stage, "restraints"
		var so Part // as the lines so far tell it
		for _, pl := range p.Lines {
			so.take(pl)
			switch {
			case so.Fitted() && so.Condition == "new":
				s.event(false, pl.Session, pl.Line.HeadSpan(), speech.Of("%s, new", speech.Term(pl.State)), pl.Private)
			case so.Fitted():
				s.Tell(speech.Of("%s has fired, and the one fitted is not recorded as new", speech.Part(p.ID)))
				s.event(true, pl.Session, pl.Line.HeadSpan(), s.Said, pl.Private)
			case fact.EndsRound(pl.State):
				s.Tell(speech.Of("%s has fired, and the part that was to replace it is %s", speech.Part(p.ID), speech.Term(pl.State)))
				s.event(true, pl.Session, pl.Line.HeadSpan(), s.Said, pl.Private)
			}
		}
		if s.Opened != 0 {
			list = append(list, s)
		}
	}
	return list
}

type surcharge struct {
	amount decimal.Decimal // charged since it was last opened
	owed   decimal.Decimal
	snag   *Snag
}

// surchargesDue are the snags of what is to be returned, in order of their first charge.
func surchargesDue(st *State) []*Snag {
	var snags []*Snag
	moves := counting(st, st.Build.Moves, func(m *journal.Move) measure.Date { return m.Date })
	for _, of := range pick.Groups(moves, (*journal.Move).ID) {
		first, c := of[0].Money, st.Build.Card.Currency
		snag := &Snag{Snag: fact.Snag{ID: of[0].ID(), Source: fact.FromSurcharge}, Part: first.Part}
		snag.Severity, snag.Stage = note.Minor, first.Stage
		s := &surcharge{snag: snag}
		for _, m := range of {
			s.take(m)
		}
		snag.Tell(speech.Of("surcharge of %s on %s, to come back for the old part", speech.Money(s.amount, c), speech.Part(snag.Part)))
		if snag.Open && s.owed.LessThan(s.amount) {
			snag.Tell(speech.Of("%s of the surcharge of %s on %s, to come back for the old part", speech.Money(s.owed, c), speech.Money(s.amount, c), speech.Part(snag.Part)))
		}
		if snag.Open {
			st.SurchargeDue = st.SurchargeDue.Add(s.owed)
		}
		snags = append(snags, snag)
	}
	return snags
}

func (s *surcharge) take(m *journal.Move) {
	s.owed = m.Owed
	what := fact.Remarked
	switch {
	case m.Money != nil && !m.Money.Credit:
		what = s.charge(m.Money)
	case s.snag.Open && !s.owed.IsPositive():
		s.snag.Open, s.snag.Cleared, what = false, m.Date, fact.Cleared
	}
	if m.Item != nil {
		if what == fact.Cleared || !m.Item.Ticked {
			s.snag.say(what, m.Item)
		}
		return
	}
	s.snag.Events = append(s.snag.Events, &Event{What: what, Session: m.Money.Session, Date: m.Date, Words: m.Money.Description(),
		Span: m.Money.Line.HeadSpan(), Private: m.Money.Private})
}

func (s *surcharge) charge(m *journal.Money) fact.EventKind {
	what := fact.Remarked
	if !s.snag.Open {
		s.snag.Opened, s.snag.Span, s.snag.Session = m.Date, m.Line.HeadSpan(), m.Session
		s.snag.Open, s.snag.Cleared, s.snag.Due, s.amount = true, 0, 0, decimal.Zero
		if what = fact.Opened; len(s.snag.Events) > 0 {
			what = fact.Reopened
		}
	}
	s.amount = s.amount.Add(m.Surcharge)
	if m.Due != 0 {
		s.snag.Due = m.Due
	}
	s.snag.Private = s.snag.Private || m.Private
	return what
}

// flooded are the restraints from a donor that stood in water: nobody can tell whether they will work.
func (st *State) flooded() []*Snag {
	var list []*Snag
	for _, d := range st.Build.Donors {
		for _, t := range d.Taken {
			p := st.Part(t.Line.ID)
			if !d.Flood || t.Build != st.Build || p == nil || !slices.Contains(p.Systems, "restraints") || p.Donor != d.Name || !p.InHand() {
				continue
			}
			s := &Snag{Snag: fact.Snag{ID: journal.FloodedID(p.ID), Source: fact.FromDamage}, Part: p.ID}
			s.System, s.Stage, s.Severity = "restraints", p.Stage, note.Dangerous
			s.Tell(speech.Of("%s comes from %s, which stood in water: restraints of it are not to be used", speech.Part(p.ID), d.Name))
			s.event(true, t.Line.Session, t.Line.Line.HeadSpan(), s.Said, t.Line.Private)
			list = append(list, s)
		}
	}
	return list
}

// readingItems are the snags of readings outside their limits. The newest counts; limits and severity carry forward.
func readingItems(st *State) []*Snag {
	var list []*Snag
	for _, readings := range st.readings() {
		var s *Snag
		limits, severity := note.Limits{}, note.NoSeverity
		for _, r := range readings {
			if limits = r.Limits.After(limits); severity == note.NoSeverity || r.Line.Choice("severity") != nil {
				severity = r.Severity
			}
			outside := limits.Outside(r.Value)
			switch {
			case outside.Some():
				if s == nil {
					s = &Snag{Snag: fact.Snag{ID: journal.ReadingID(r.Name), Source: fact.FromReading}}
					list = append(list, s)
				}
				s.Severity, s.System, s.Stage = severity, cmp.Or(r.System, st.Build.SystemOf(r.Session.Stage)), r.Session.Stage
				s.Tell(speech.Of("%s is %s, %s", speech.Name(r.Name), r.Value, outside))
				s.event(true, r.Session, r.Line.HeadSpan(), s.Said, r.Private)
			case s != nil:
				s.event(false, r.Session, r.Line.HeadSpan(), speech.Of("%s is %s, within its limits", speech.Name(r.Name), r.Value), r.Private)
			}
		}
	}
	for _, a := range st.Build.OfReadings {
		for _, s := range list {
			if s.ID == a.ID && s.Open && st.Counts(a.Session.Date) && a.Session.Place >= s.Session.Place {
				takeAside(&s.Standing, a)
				s.say(fact.Remarked, a.Item)
			}
		}
	}
	return list
}

// readings are those that count, of each name apart.
func (st *State) readings() [][]*journal.Reading {
	counted := counting(st, st.Build.Readings, func(r *journal.Reading) measure.Date { return r.Session.Date })
	return pick.Groups(counted, func(r *journal.Reading) string { return r.Name })
}

// Newest are the newest readings of each name with the limits that hold for them, in order of names.
func (st *State) Newest() []*journal.Reading {
	return pick.Map(st.readings(), func(of []*journal.Reading) *journal.Reading {
		newest := *of[len(of)-1]
		newest.Limits = note.Limits{}
		for _, r := range of {
			newest.Limits = r.Limits.After(newest.Limits)
		}
		return &newest
	})
}

// scanItems are the snags of fault codes, until a later scan of the same unit no longer lists them.
func scanItems(st *State) []*Snag {
	var list []*Snag
	scans := counting(st, st.Build.Scans, func(sc *journal.Scan) measure.Date { return sc.Session.Date })
	for _, of := range pick.Groups(scans, func(sc *journal.Scan) string { return sc.Name }) {
		known, before := map[string]*Snag{}, []*Snag(nil) // by code, and those that the scan before lists
		for _, sc := range of {
			listed, open := map[*Snag]bool{}, []*Snag(nil)
			for _, c := range sc.Codes {
				s := known[c.Code]
				if s == nil {
					s = &Snag{Snag: fact.Snag{ID: fact.ScanID(sc.Name, c.Code), Source: fact.FromScan, Standing: fact.Standing{Severity: note.Major}, Unit: sc.Name, Code: c.Code}}
					known[c.Code], list = s, append(list, s)
				}
				if listed[s] {
					continue
				}
				listed[s], open = true, append(open, s)
				if s.Tell(speech.Of("%s %s", speech.Name(sc.Name), c.Code)); c.Words != "" {
					s.Tell(speech.Of("%s %s", s.Said, c.Words))
				}
				s.Stage, s.System = sc.Session.Stage, st.Build.SystemOf(sc.Session.Stage)
				s.event(true, sc.Session, c.Span, speech.Typed(c.Words), sc.Session.Private)
			}
			for _, s := range before {
				if !listed[s] {
					s.event(false, sc.Session, sc.Span, speech.Of("no longer listed"), sc.Session.Private)
				}
			}
			before = open
		}
	}
	return list
}

// papers are the newest of each name, in the order of the names, as long as the vehicle is not sold.
func (st *State) papers() []*journal.Paper {
	if st.Sale != nil {
		return nil // they are the buyer's matter
	}
	papers := pick.Groups(counting(st, st.Build.Papers, (*journal.Paper).Since), (*journal.Paper).ID)
	return pick.Map(papers, func(of []*journal.Paper) *journal.Paper { return of[len(of)-1] })
}

func paperSnags(st *State) []*Snag {
	var list []*Snag
	for _, p := range st.papers() {
		from := p.Until.AddDays(-p.Warn)
		if st.Today < from {
			continue
		}
		s := &Snag{Snag: fact.Snag{ID: p.ID(), Source: fact.FromPaper, Open: true, Opened: max(from, p.Since())}, Span: p.At, Session: p.Session}
		s.Severity, s.Due, s.Private = note.Minor, p.Until, p.Private
		s.Tell(speech.Of("%s runs out", p.Name))
		if p.Until < st.Today {
			s.Tell(speech.Of("%s has run out", p.Name))
		}
		if words := p.Line.Words().S; words != "" && p.Line.Kind.Key == "papers" {
			s.Tell(speech.Of("%s: %s", s.Said, words))
		}
		list = append(list, s)
	}
	return list
}
