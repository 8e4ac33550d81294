package state

import (
	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/speech"
)

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
