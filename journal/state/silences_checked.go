package state

import (
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/speech"
)

// What the record is silent about in what was checked, measured and put right.

// equipment tells that the card says nothing of what the vehicle has, where work would ask
// for more checks, or says it in words that turn no checks on.
func (s *silence) equipment() []speech.Phrase {
	if _, told := s.Build.Card.Detail("equipment"); !told {
		asks := func(r journal.DueRule) bool {
			return r.Equipment != "" && slices.ContainsFunc(r.Systems, func(system string) bool { return s.worked[system] != nil })
		}
		if slices.ContainsFunc(journal.BuiltInDueRules(), asks) {
			return []speech.Phrase{speech.Of("what equipment it has")}
		}
	}
	var list []any
	has := s.Build.Card.Equipment()
	for _, words := range has {
		if meant := speech.Term(journal.EquipmentIn(words)); meant != "" && !slices.Contains(has, string(meant)) && !slices.Contains(list, any(meant)) {
			list = append(list, meant)
		}
	}
	return sayOf(speech.Of("whether it has %s"), list)
}

// seeing tells of checks of what looks out of the vehicle, where its body was worked on and
// nothing has asked for them: many a radar sits behind the bumper (common practice, no source).
func (s *silence) seeing() []speech.Phrase {
	var list []any
	for _, r := range s.Build.DueRules() {
		done := slices.ContainsFunc(s.Build.Checks, func(c *journal.CheckLine) bool { return c.Name == r.Name && s.Counts(c.Session.Date) })
		if r.Equipment != "" && slices.Contains(r.Systems, "visibility") && s.worked["body"] != nil && s.Snag(r.Name) == nil && !done {
			list = append(list, speech.Name(r.Name))
		}
	}
	said := sayOf(speech.Of("no %s since the work on %s"), list)
	for i := range said { // which names the system behind them
		said[i] = said[i].Besides(speech.Term("body"))
	}
	return said
}

// results names the dangerous checks of which is only said that they were done.
func (s *silence) results() []any {
	var list []any
	known := map[string]bool{}
	for _, c := range slices.Backward(s.Build.Checks) {
		if !s.Counts(c.Session.Date) || c.Denied || known[c.Name] {
			continue
		}
		known[c.Name] = true
		x := s.Snag(c.Name)
		if c.Result == "done" && s.Build.WorstOf(c.Name) == note.Dangerous && !c.Private && (x == nil || !x.Open) {
			list = append(list, speech.Name(c.Name))
		}
	}
	slices.Reverse(list)
	return list
}

// limits names what was measured and has no limits, so that nobody can judge it.
func (s *silence) limits() []any {
	bare := pick.Where(s.Newest(), func(r *journal.Reading) bool { return r.Limits.Min == nil && r.Limits.Max == nil && !r.Private })
	return pick.Map(bare, func(r *journal.Reading) any { return speech.Name(r.Name) })
}

// gradedDown names what is open and called less grave than it was, than its check is, or
// than it would be if the builder said nothing.
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
	down := map[[2]note.Severity][]any{}
	for _, x := range s.Snags {
		grave := worst[x.ID]
		switch {
		case x.Source == fact.FromCheck:
			grave = s.Build.WorstOf(x.ID)
		case x.Source == fact.FromReading, x.Source == fact.FromNote && note.IsSafety(x.System):
			grave = max(grave, note.Major) // which it is where nobody says otherwise
		}
		if pair := [2]note.Severity{x.Severity, grave}; x.Open && !x.Private && grave > x.Severity {
			down[pair] = append(down[pair], x.named())
		}
	}
	var list []speech.Phrase
	for _, pair := range [][2]note.Severity{{note.Major, note.Dangerous}, {note.Minor, note.Dangerous}, {note.Minor, note.Major}} {
		why := speech.Of("why %s, and not %s: %s", speech.Term(pair[0].String()), speech.Term(pair[1].String()))
		list = append(list, sayOf(why, down[pair])...)
	}
	return list
}

// putRight names what is cleared of which nobody wrote how: temporary fixes that were put
// on and put right in one line, what an inspection found or a scan listed and a later one
// does not, and what is dangerous and asks for no check.
func (s *silence) putRight() []any {
	var list []any
	for _, x := range s.Snags {
		if x.Open || x.Private {
			continue
		}
		system, by, untold := x.System, x.ClearedBy(), false
		switch x.Source {
		case fact.FromInspection:
			untold = by.Item == nil && (x.Severity == note.Dangerous || x.Severity == note.Major && note.IsSafety(system))
		case fact.FromScan:
			system = note.SystemOfUnit(x.Unit)
			untold = note.IsSafety(system)
		default:
			untold = x.Kind == "temporary" && !slices.ContainsFunc(x.Events, func(e *Event) bool { return e.Item != x.Events[0].Item })
			system = ""
		}
		if untold && !s.since(system, x.Session) || x.Severity == note.Dangerous && x.Asks.None() {
			list = append(list, x.named())
		}
	}
	return list
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

// ahead tells of notes that are dated later than today and count all the same.
func (s *silence) ahead() []speech.Phrase {
	ahead := pick.Count(s.Sessions, func(session *journal.Session) bool { return session.Date > s.Today })
	if ahead == 0 {
		return nil
	}
	return []speech.Phrase{speech.Of("whether it has happened what is noted for after today (notes: %d)", ahead)}
}
