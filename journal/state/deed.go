package state

import (
	"guidecoat/journal"
	"guidecoat/journal/fact"
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

// papers are the newest of each name, in the order of the names, as long as the vehicle is not sold.
func (st *State) papers() []*journal.Paper {
	if st.Sale != nil {
		return nil // they are the buyer's matter
	}
	var list []*journal.Paper
	at := map[string]int{}
	for _, p := range st.Build.Papers {
		if !st.Counts(p.Since()) {
			continue
		}
		if i, ok := at[p.ID()]; ok {
			list[i] = p
			continue
		}
		at[p.ID()], list = len(list), append(list, p)
	}
	return list
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

// roadPapers are what stands in the way of driving by the papers.
func roadPapers(st *State, _ []Stop) []Stop {
	var list []Stop
	for _, p := range st.papers() {
		switch {
		case p.Road == nil:
		case !*p.Road:
			list = append(list, Stop{Text: p.Name + " does not allow driving", Span: p.At})
		case p.Until < st.Today:
			list = append(list, Stop{Text: p.Name + " ran out on " + p.Until.String(), Span: p.At})
		}
	}
	return list
}
