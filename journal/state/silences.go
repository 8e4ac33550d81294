package state

import (
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/speech"
)

var silences = []func(*silence) []speech.Phrase{
	(*silence).inspection, (*silence).structure, (*silence).fasteners, (*silence).systems, (*silence).fitting, (*silence).instead,
	(*silence).gradedDown, (*silence).takenOff, (*silence).boxes, (*silence).scan, (*silence).before,
}

// A silence is a state with the last session that worked on each system.
type silence struct {
	*State
	worked map[string]*journal.Session
	listed map[string]bool // a system of which fasteners are listed for a part that was worked on
}

// NotRecorded says what the record is silent about: silence is no good sign.
func (st *State) NotRecorded() []speech.Phrase {
	s := &silence{st, map[string]*journal.Session{}, map[string]bool{}}
	deeds := st.deeds()
	for _, session := range st.Sessions {
		for _, d := range deeds[session] {
			if nothing := d.asks != nil && len(d.asks) == 0; d.damage || nothing {
				continue
			}
			for _, system := range d.systems {
				s.worked[system], s.listed[system] = session, s.listed[system] || len(st.Build.Card.FastenersOf(d.part)) > 0
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

func (s *silence) inspection() []speech.Phrase {
	newest := s.NewestInspection()
	if newest == nil {
		return []speech.Phrase{speech.Of("no official inspection")}
	}
	return of(func(names speech.Phrase) speech.Phrase {
		return speech.Of("no official inspection since the work on %s", names)
	},
		s.safety(func(_ string, last *journal.Session) bool { return last.Place > newest.Session.Place }))
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

func (s *silence) fasteners() []speech.Phrase {
	return of(func(names speech.Phrase) speech.Phrase { return speech.Of("no fasteners for the work on %s", names) },
		s.safety(func(system string, _ *journal.Session) bool { return !s.listed[system] }))
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

// instead names parts of safety systems that were needed and never came, with nothing fitted in their place.
func (s *silence) instead() []speech.Phrase {
	var list []any
	for _, p := range s.Parts {
		if p.State != "cancelled" || !p.IsSafety() || p.Private || slices.ContainsFunc(p.Lines, func(l *journal.PartLine) bool { return onVehicle(l.State) }) {
			continue
		}
		ended := p.Lines[len(p.Lines)-1].Session
		if !slices.ContainsFunc(p.Systems, func(system string) bool { return s.worked[system] != nil && s.worked[system].Place >= ended.Place }) {
			list = append(list, speech.Part(p.ID))
		}
	}
	return of(func(names speech.Phrase) speech.Phrase { return speech.Of("what was done instead of %s", names) }, list)
}

// gradedDown names what is open and called less grave than it was, or than its check is.
func (s *silence) gradedDown() []speech.Phrase {
	worst := map[string]note.Severity{}
	for _, a := range s.Build.Acts {
		if s.Counts(a.Session.Date) && a.ID != "" {
			if a.What == fact.Opened || a.What == fact.Reopened {
				worst[a.ID] = note.NoSeverity
			}
			worst[a.ID] = max(worst[a.ID], a.Standing.Severity)
		}
	}
	var list []speech.Phrase
	for _, x := range s.Snags {
		grave := worst[x.ID]
		if x.Source == fact.FromCheck {
			grave = s.Build.WorstOf(x.ID)
		}
		if x.Open && !x.Private && grave > x.Severity && grave >= note.Major {
			list = append(list, speech.Of("why %s is %s, and not %s", speech.Name(x.ID), speech.Term(x.Severity.String()), speech.Term(grave.String())))
		}
	}
	return list
}

// takenOff names temporary fixes that were written as put on and put right in one line.
func (s *silence) takenOff() []speech.Phrase {
	var list []any
	for _, x := range s.Snags {
		if x.Kind == "temporary" && !x.Open && !x.Private && !slices.ContainsFunc(x.Events, func(e *Event) bool { return e.Item != x.Events[0].Item }) {
			list = append(list, speech.Quote(x.Label()))
		}
	}
	return of(func(names speech.Phrase) speech.Phrase { return speech.Of("how it was put right: %s", names) }, list)
}

func (s *silence) boxes() []speech.Phrase {
	open := pick.Count(s.Build.Card.Note.Items, func(it *note.Item) bool { return !it.Ticked })
	if open == 0 {
		return nil
	}
	return []speech.Phrase{speech.Of("what became of the open boxes on the job card (%d)", open)}
}

func (s *silence) scan() []speech.Phrase {
	last := s.worked["restraints"]
	if last == nil || slices.ContainsFunc(s.Build.Scans, func(sc *journal.Scan) bool {
		return s.Counts(sc.Session.Date) && sc.Session.Place >= last.Place && note.SystemOfUnit(sc.Name) == "restraints"
	}) {
		return nil
	}
	return []speech.Phrase{speech.Of("no fault scan after the work on restraints")}
}

// before tells what should have come before work, and is not written down.
func (s *silence) before() []speech.Phrase {
	var list []speech.Phrase
	known := map[string]bool{}
	for _, u := range s.Unprepared() {
		if text := speech.Of("no %s before work on %s", speech.Name(u.Rule.Name), speech.Term(u.System)); !known[text.String()] && !u.Sure {
			known[text.String()] = true
			list = append(list, text)
		}
	}
	return list
}
