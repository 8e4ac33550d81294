package state

import (
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/speech"
)

// silences are what the record may be silent about, in the order in which it is told.
var silences = []func(*silence) []speech.Phrase{
	(*silence).inspection,
	(*silence).structure,
	(*silence).equipment,
	(*silence).seeing,
	naming(speech.Of("no fasteners listed for the work on %s"), (*silence).fasteners),
	naming(speech.Of("which part or job the work on %s was"), (*silence).hours),
	naming(speech.Of("which system it is of: %s"), (*silence).systems),
	naming(speech.Of("the fitting of %s"), (*silence).fitting),
	naming(speech.Of("what was done instead of %s"), (*silence).instead),
	naming(speech.Of("where the used parts come from: %s"), (*silence).used),
	naming(speech.Of("the result of %s"), (*silence).results),
	naming(speech.Of("the limits of %s"), (*silence).limits),
	(*silence).gradedDown,
	naming(speech.Of("how it was put right: %s"), (*silence).putRight),
	(*silence).boxes,
	(*silence).scan,
	(*silence).before,
	(*silence).ahead,
}

// A silence is a state with what was worked on.
type silence struct {
	*State
	began  *journal.Session            // the first that worked on anything
	worked map[string]*journal.Session // the last that worked on a system
	listed map[string]bool             // a system of which fasteners are listed for a part that was worked on
	bare   map[string][]string         // the other parts of a system
}

// NotRecorded says what the record is silent about: silence is no good sign.
func (st *State) NotRecorded() []speech.Phrase {
	s := &silence{State: st, worked: map[string]*journal.Session{}, listed: map[string]bool{}, bare: map[string][]string{}}
	deeds := st.deeds()
	for _, session := range st.Sessions {
		for _, d := range deeds[session] {
			if d.damage || d.asks.None() {
				continue
			}
			if s.began == nil {
				s.began = session
			}
			fasteners := len(st.Build.Card.FastenersOf(d.part)) > 0
			for _, system := range d.systems {
				if s.worked[system] = session; fasteners {
					s.listed[system] = true
				} else if d.part != "" && !d.private {
					s.bare[system] = append(s.bare[system], d.part)
				}
			}
		}
	}
	var list []speech.Phrase
	for _, of := range silences {
		list = append(list, of(s)...)
	}
	return list
}

// naming says something of names, which are the last argument of what it says; nothing where there are none.
func naming(of speech.Phrase, names func(*silence) []any) func(*silence) []speech.Phrase {
	return func(s *silence) []speech.Phrase { return sayOf(of, names(s)) }
}

func sayOf(of speech.Phrase, list []any) []speech.Phrase {
	if len(list) == 0 {
		return nil
	}
	const most = 5
	names := speech.Of("%s", list[0])
	for _, name := range list[1:min(len(list), most)] {
		names = speech.Of("%s, %s", names, name)
	}
	if more := len(list) - most; more > 0 {
		names = speech.Of("%s and %d more", names, more)
	}
	return []speech.Phrase{of.Besides(names)}
}

// safety lists the safety systems of which that holds, by the last session that worked on one; nil where none did.
func (s *silence) safety(holds func(system string, last *journal.Session) bool) []any {
	systems := pick.Where(note.Systems, func(system string) bool { return note.IsSafety(system) && holds(system, s.worked[system]) })
	return pick.Map(systems, func(system string) any { return speech.Term(system) })
}

// parts names the parts that anybody may read of and that lack something.
func (s *silence) parts(lacks func(*Part) bool) []any {
	parts := pick.Where(s.Parts, func(p *Part) bool { return !p.Private && lacks(p) })
	return pick.Map(parts, func(p *Part) any { return speech.Part(p.ID) })
}

// named is its id, or its words where it has none.
func (s *Snag) named() any {
	if s.ID == "" {
		return speech.Quote(s.Label())
	}
	return speech.Name(s.ID)
}

// since tells whether a system was worked on in that session or later.
func (s *silence) since(system string, session *journal.Session) bool {
	return s.worked[system] != nil && s.worked[system].Place >= session.Place
}

func (s *silence) inspection() []speech.Phrase {
	newest := s.NewestInspection()
	if newest == nil {
		return []speech.Phrase{speech.Of("no official inspection")}
	}
	later := func(session *journal.Session) bool { return session != nil && session.Place > newest.Session.Place }
	list := sayOf(speech.Of("no official inspection since the work on %s"), s.safety(func(_ string, last *journal.Session) bool { return later(last) }))
	if list == nil && later(s.began) {
		list = append(list, speech.Of("no official inspection since the work began"))
	}
	if newest.By == "" {
		list = append(list, speech.Of("who carried out the inspection of %s", newest.Session.Date))
	}
	if newest.Until != 0 && newest.Until < s.Today {
		list = append(list, speech.Of("a certificate that is still valid, since the last ended on %s", newest.Until))
	}
	return list
}

// structure tells of a salvage category given for the structure, and of notes that say nothing of that.
func (s *silence) structure() []speech.Phrase {
	d, _ := s.Build.Card.Detail("category")
	category := journal.SalvageOf(d.Value)
	hit := slices.ContainsFunc(s.Build.Card.Damage, func(d *journal.Damage) bool { return slices.Contains(d.Systems, "structure") })
	if category == nil || category.Letter != "S" || hit || s.worked["structure"] != nil {
		return nil
	}
	return []speech.Phrase{speech.Of("what of the structure was hit, as category S says")}
}

// fasteners names the systems of which none are listed, and of others the parts without.
func (s *silence) fasteners() []any {
	list := s.safety(func(system string, last *journal.Session) bool { return last != nil && !s.listed[system] })
	var parts []string
	for _, system := range note.Systems {
		if note.IsSafety(system) && s.listed[system] {
			parts = append(parts, s.bare[system]...)
		}
	}
	return append(list, pick.Map(once(parts), func(id string) any { return speech.Part(id) })...)
}

// hours names the safety systems in whose stages somebody worked, and nothing says on what.
func (s *silence) hours() []any {
	known := map[string]bool{}
	for _, w := range s.Work {
		if !w.Line.Has("sure") {
			known[s.Build.SystemOf(w.Stage)] = true
		}
	}
	for _, x := range s.Snags {
		if (x.Kind == "job" || x.Kind == "temporary") && !x.Open && x.Asks == nil {
			known[x.System] = true
		}
	}
	return s.safety(func(system string, last *journal.Session) bool { return last == nil && known[system] })
}

// systems names that of which nobody can tell which checks it asks for.
func (s *silence) systems() []any {
	var list []any
	for _, d := range s.Build.Card.Damage {
		if len(d.Systems) == 0 && !d.Flood {
			list = append(list, d.Place)
		}
	}
	says := func(l *journal.PartLine) bool { return l.Asks != nil }
	list = append(list, s.parts(func(p *Part) bool {
		return p.System == "" && !fact.EndsRound(p.State) && !slices.ContainsFunc(p.Lines, says)
	})...)
	for _, x := range s.Snags {
		if x.Kind != "" && !x.Open && x.System == "" && x.Asks == nil && !x.Private {
			list = append(list, speech.Quote(x.Label()))
		}
	}
	return list
}

// fitting names parts that are still to be fitted. Those of safety systems stop the sale.
func (s *silence) fitting() []any {
	return s.parts(func(p *Part) bool { return !p.Fitted() && !fact.EndsRound(p.State) && !p.IsSafety() })
}

// instead names parts of safety systems that never came or came off again, where nothing
// else of that system was fitted later.
func (s *silence) instead() []any {
	return s.parts(func(p *Part) bool {
		if !fact.EndsRound(p.State) || !p.IsSafety() {
			return false
		}
		ended, wasOn := p.Lines[len(p.Lines)-1], slices.ContainsFunc(p.Lines, func(l *journal.PartLine) bool { return onVehicle(l.State) })
		spare := ended.State == "sold" && !wasOn
		return !spare && !slices.ContainsFunc(p.Systems, func(system string) bool { return s.since(system, ended.Session) })
	})
}

// used names used parts of safety systems of which nobody says where they come from.
func (s *silence) used() []any {
	return s.parts(func(p *Part) bool {
		return p.Condition == "used" && p.Donor == "" && p.Supplier == "" && p.IsSafety() && p.Fitted()
	})
}
