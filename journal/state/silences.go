package state

import (
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/speech"
)

var silences = []func(*silence) []speech.Phrase{
	(*silence).inspection, (*silence).structure, (*silence).equipment, (*silence).seeing, (*silence).fasteners, (*silence).hours, (*silence).systems, (*silence).fitting,
	(*silence).instead, (*silence).used, (*silence).results, (*silence).limits, (*silence).gradedDown, (*silence).putRight, (*silence).boxes, (*silence).scan,
	(*silence).before, (*silence).ahead,
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
			if nothing := d.asks != nil && len(d.asks) == 0; d.damage || nothing {
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

// safety lists the safety systems that were worked on and of which that holds.
func (s *silence) safety(holds func(system string, last *journal.Session) bool) []any {
	var list []any
	for _, system := range note.Systems {
		if last := s.worked[system]; last != nil && note.IsSafety(system) && holds(system, last) {
			list = append(list, speech.Term(system))
		}
	}
	return list
}

func of(say func(names speech.Phrase) speech.Phrase, list []any) []speech.Phrase {
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
	return []speech.Phrase{say(names)}
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
	list := of(func(names speech.Phrase) speech.Phrase {
		return speech.Of("no official inspection since the work on %s", names)
	},
		s.safety(func(_ string, last *journal.Session) bool { return last.Place > newest.Session.Place }))
	if list == nil && s.began != nil && s.began.Place > newest.Session.Place {
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
func (s *silence) fasteners() []speech.Phrase {
	list := s.safety(func(system string, _ *journal.Session) bool { return !s.listed[system] })
	var parts []string
	for _, system := range note.Systems {
		if note.IsSafety(system) && s.listed[system] {
			parts = append(parts, s.bare[system]...)
		}
	}
	for _, id := range once(parts) {
		list = append(list, speech.Part(id))
	}
	return of(func(names speech.Phrase) speech.Phrase {
		return speech.Of("no fasteners listed for the work on %s", names)
	}, list)
}

// hours names the safety systems in whose stages somebody worked, and nothing says on what.
func (s *silence) hours() []speech.Phrase {
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
	var list []any
	for _, system := range note.Systems {
		if note.IsSafety(system) && known[system] && s.worked[system] == nil {
			list = append(list, speech.Term(system))
		}
	}
	return of(func(names speech.Phrase) speech.Phrase {
		return speech.Of("which part or job the work on %s was", names)
	}, list)
}

// systems names that of which nobody can tell which checks it asks for.
func (s *silence) systems() []speech.Phrase {
	var list []any
	for _, d := range s.Build.Card.Damage {
		if len(d.Systems) == 0 && !d.Flood {
			list = append(list, d.Place)
		}
	}
	for _, p := range s.Parts {
		if p.System == "" && !fact.EndsRound(p.State) && !p.Private && !s.asksNothing(p) {
			list = append(list, speech.Part(p.ID))
		}
	}
	for _, x := range s.Snags {
		if x.Kind != "" && !x.Open && x.System == "" && x.Asks == nil && !x.Private {
			list = append(list, speech.Quote(x.Label()))
		}
	}
	return of(func(names speech.Phrase) speech.Phrase { return speech.Of("which system it is of: %s", names) }, list)
}

func (s *silence) asksNothing(p *Part) bool {
	return slices.ContainsFunc(p.Lines, func(l *journal.PartLine) bool { return l.Asks != nil })
}

// fitting names parts that are still to be fitted. Those of safety systems stop the sale.
func (s *silence) fitting() []speech.Phrase {
	var list []any
	for _, p := range s.Parts {
		if !p.Fitted() && !fact.EndsRound(p.State) && !p.IsSafety() && !p.Private {
			list = append(list, speech.Part(p.ID))
		}
	}
	return of(func(names speech.Phrase) speech.Phrase { return speech.Of("the fitting of %s", names) }, list)
}

// instead names parts of safety systems that never came or came off again, where nothing
// else of that system was fitted later.
func (s *silence) instead() []speech.Phrase {
	var list []any
	for _, p := range s.Parts {
		if !fact.EndsRound(p.State) || !p.IsSafety() || p.Private {
			continue
		}
		ended, wasOn := p.Lines[len(p.Lines)-1], slices.ContainsFunc(p.Lines, func(l *journal.PartLine) bool { return onVehicle(l.State) })
		spare := ended.State == "sold" && !wasOn
		if !spare && !slices.ContainsFunc(p.Systems, func(system string) bool { return s.since(system, ended.Session) }) {
			list = append(list, speech.Part(p.ID))
		}
	}
	return of(func(names speech.Phrase) speech.Phrase { return speech.Of("what was done instead of %s", names) }, list)
}
