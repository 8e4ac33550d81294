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
	on      string // the id of what was worked on
	part    string // the id, where it is a part
	state   string // that it came to
	stage   string
	systems []string
	asks    note.Asks // the checks it asks for; nil: those of the table
	private bool
	// damage says that it was hit, not worked on: no distance is to be driven before it is looked at.
	damage, flood bool

	job *journal.Act // that was done; nil of a part and of damage
}

// since says what was done: "disc was fitted".
func (d *deed) since() speech.Phrase {
	switch {
	case d.flood:
		return speech.Of("the flood (%s)", d.on)
	case d.damage:
		return speech.Of("%s was hit", d.on)
	case d.part != "":
		return speech.Of("%s was %s", speech.Part(d.part), speech.Term(d.state))
	case d.job.ID == "":
		return speech.Of("%s was done", inWords(d.job))
	}
	return speech.Of("%s was done", speech.Name(d.job.ID))
}

// inWords quotes a job that has no id.
func inWords(a *journal.Act) speech.Quote { return speech.Quote(note.PlainWords(a.Standing.Words)) }

// deeds are all that count, by session, in the order of parts and then of items.
func (st *State) deeds() map[*journal.Session][]*deed {
	list := map[*journal.Session][]*deed{}
	add := func(w *deed) { list[w.session] = append(list[w.session], w) }
	for _, d := range st.Build.Card.Damage {
		if len(st.Sessions) > 0 {
			add(&deed{session: st.Sessions[0], span: d.Line.NameSpan(), on: d.Place, systems: d.Systems, damage: true, flood: d.Flood})
		}
	}
	for _, p := range st.Parts {
		for _, pl := range p.Lines {
			if onVehicle(pl.State) {
				add(&deed{session: pl.Session, span: pl.Line.HeadSpan(), on: p.ID, part: p.ID, state: pl.State, stage: p.Stage,
					systems: p.touched(st.Build, pl), asks: pl.Asks, private: pl.Private})
			}
		}
	}
	for _, a := range st.Build.Acts {
		if !st.Counts(a.Session.Date) {
			break
		}
		if a.Ticked && a.IsWork() {
			on := a.ID
			if on == "" {
				on = inWords(a).String()
			}
			add(&deed{session: a.Session, span: a.HeadSpan(), on: on, job: a, stage: a.Stage, systems: []string{a.Own}, asks: a.Asks, private: a.Item.Private()})
		}
	}
	return list
}
