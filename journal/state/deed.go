package state

import (
	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/source"
	"guidecoat/journal/speech"
)

// A deed is what makes checks due: a part that was fitted, or a job that was done.
type deed struct {
	session *journal.Session
	span    source.Span
	on      string        // the id of what was worked on
	since   speech.Phrase // "disc was fitted"
	part    string        // the id, where it is a part
	stage   string
	systems []string
	asks    note.Asks // the checks it asks for; nil: those of the table
	private bool
	sure    bool
	// damage says that it was hit, not worked on: no distance is to be driven before it is looked at.
	damage, flood bool
}

func (st *State) deeds() map[*journal.Session][]*deed {
	list := map[*journal.Session][]*deed{}
	add := func(w *deed) { list[w.session] = append(list[w.session], w) }
	for _, d := range st.Build.Card.Damage {
		if len(st.Sessions) > 0 {
			since := speech.Of("%s was hit", d.Place)
			if d.Flood {
				since = speech.Of("the flood (%s)", d.Place)
			}
			add(&deed{session: st.Sessions[0], span: d.Line.NameSpan(), on: d.Place, since: since, systems: d.Systems, damage: true, flood: d.Flood})
		}
	}
	for _, p := range st.Parts {
		for _, pl := range p.Lines {
			if onVehicle(pl.State) {
				add(&deed{session: pl.Session, span: pl.Line.HeadSpan(), on: p.ID, since: speech.Of("%s was %s", speech.Part(p.ID), speech.Term(pl.State)), part: p.ID, stage: p.Stage,
					systems: p.touched(st.Build, pl), asks: pl.Asks, private: pl.Private, sure: pl.Line.Has("sure")})
			}
		}
	}
	for _, a := range st.Build.Acts {
		if !st.Counts(a.Session.Date) {
			break
		}
		if a.Ticked && a.IsWork() {
			name, on := any(speech.Name(a.ID)), a.ID
			if a.ID == "" {
				quote := speech.Quote(note.PlainWords(a.Standing.Words))
				name, on = quote, quote.String()
			}
			add(&deed{session: a.Session, span: a.HeadSpan(), on: on, since: speech.Of("%s was done", name), stage: a.Stage, systems: []string{a.Own}, asks: a.Asks, private: a.Item.Private()})
		}
	}
	return list
}
