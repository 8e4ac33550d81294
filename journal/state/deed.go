package state

import (
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
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

	job  *journal.Act // that was done; nil of a part and of damage
	sure bool         // its line says that it is meant so
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
					systems: p.touched(st.Build, pl), asks: pl.Asks, private: pl.Private, sure: pl.Line.Has("sure")})
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

// An UnpreparedWork is work of which no note says that what must come before it was done.
type UnpreparedWork struct {
	Session *journal.Session
	System  string
	Rule    journal.DueRule
	At      source.Span        // the line that tells of the work
	After   *journal.CheckLine // the check, where it comes after the work only
	Sure    bool               // the line says that it is meant so
}

// Unprepared are all such works: at most one for a session and a check.
func (st *State) Unprepared() []UnpreparedWork {
	touched := st.touched()
	rules := slices.DeleteFunc(st.Build.DueRules(), func(r journal.DueRule) bool { return !r.Before })
	ready := pick.By(st.Build.Checks, func(c *journal.CheckLine) string { return c.Name })
	var list []UnpreparedWork
	for _, s := range st.Sessions {
		for _, r := range rules {
			at := slices.IndexFunc(r.Systems, func(system string) bool { return touched[s][system] != nil })
			if at < 0 {
				continue
			}
			d := touched[s][r.Systems[at]]
			u := UnpreparedWork{Session: s, System: r.Systems[at], Rule: r, At: d.span, Sure: d.sure}
			if !slices.ContainsFunc(ready[r.Name], func(c *journal.CheckLine) bool { return u.readiedBy(c, touched) }) {
				list = append(list, u)
			}
		}
	}
	return list
}

// readiedBy tells whether a check comes before the work: in its session or an earlier one of that day.
func (u *UnpreparedWork) readiedBy(c *journal.CheckLine, touched map[*journal.Session]map[string]*deed) bool {
	switch s := c.Session; {
	case c.Result == "failed", c.Denied:
	case s.Date == u.Session.Date && s.Place <= u.Session.Place:
		return true
	case s.Place > u.Session.Place && u.After == nil && touched[s][u.System] == nil:
		u.After = c
	}
	return false
}

// touched tells which systems each session works on and what first says so: a part fitted, or time in a stage.
func (st *State) touched() map[*journal.Session]map[string]*deed {
	list := map[*journal.Session]map[string]*deed{}
	deeds, work := st.deeds(), pick.By(st.Work, func(w *journal.Work) *journal.Session { return w.Session })
	for _, s := range st.Sessions {
		touched, said := map[string]*deed{}, map[string]bool{} // by parts, whatever they ask for
		for _, d := range deeds[s] {
			if d.part == "" {
				continue
			}
			for _, system := range d.systems {
				if said[system] = true; !d.asks.None() && touched[system] == nil {
					touched[system] = d
				}
			}
		}
		for _, w := range work[s] {
			if system := st.Build.SystemOf(w.Stage); system != "" && !said[system] && touched[system] == nil {
				touched[system] = &deed{span: w.Line.HeadSpan(), private: w.Private, sure: w.Line.Has("sure")}
			}
		}
		list[s] = touched
	}
	return list
}
