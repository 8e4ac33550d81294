package state

import (
	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/speech"
)

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
	tightened := by(st.Build.Tightenings, func(t *journal.Tightening) *journal.Session { return t.Session })
	var list []*Snag
	for _, s := range st.Sessions {
		for _, w := range works[s] {
			if nothing := w.asks != nil && len(w.asks) == 0; w.part == "" || nothing {
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
