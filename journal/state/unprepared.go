package state

import (
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"
)

// An UnpreparedWork is work of which no note says that what must come before it was done.
type UnpreparedWork struct {
	Session *journal.Session
	System  string
	Rule    journal.DueRule
	At      source.Span        // the line that tells of the work
	After   *journal.CheckLine // the check, where it comes after the work only
	Private bool
	Sure    bool // the line says that it is meant so
}

// touch is that a session works on a system.
type touch struct {
	at            source.Span
	private, sure bool
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
			u := UnpreparedWork{Session: s, System: r.Systems[at], Rule: r}
			u.At, u.Private, u.Sure = touched[s][u.System].at, touched[s][u.System].private, touched[s][u.System].sure
			if !slices.ContainsFunc(ready[r.Name], func(c *journal.CheckLine) bool { return u.readiedBy(c, touched) }) {
				list = append(list, u)
			}
		}
	}
	return list
}

// readiedBy tells whether a check comes before the work: in its session or an earlier one of that day.
func (u *UnpreparedWork) readiedBy(c *journal.CheckLine, touched map[*journal.Session]map[string]*touch) bool {
	switch s := c.Session; {
	case c.Result == "failed", c.Denied:
	case s.Date == u.Session.Date && s.Place <= u.Session.Place:
		return true
	case s.Place > u.Session.Place && u.After == nil && touched[s][u.System] == nil:
		u.After = c
	}
	return false
}

// touched tells which systems each session works on and where it first says so: parts fitted, time in a stage.
func (st *State) touched() map[*journal.Session]map[string]*touch {
	list := map[*journal.Session]map[string]*touch{}
	said := map[*journal.Session]map[string]bool{} // by parts, whatever they ask for
	add := func(s *journal.Session, system string, t touch) {
		if list[s] == nil {
			list[s] = map[string]*touch{}
		}
		if list[s][system] == nil {
			list[s][system] = &t
		}
	}
	for _, p := range st.Parts {
		for _, l := range p.Lines {
			if !onVehicle(l.State) {
				continue
			}
			for _, system := range p.touched(st.Build, l) {
				if said[l.Session] == nil {
					said[l.Session] = map[string]bool{}
				}
				if said[l.Session][system] = true; l.Asks == nil || len(l.Asks) > 0 {
					add(l.Session, system, touch{l.Line.HeadSpan(), l.Private, l.Line.Has("sure")})
				}
			}
		}
	}
	for _, w := range st.Build.Work {
		if system := st.Build.SystemOf(w.Stage); system != "" && st.Counts(w.Session.Date) && !said[w.Session][system] {
			add(w.Session, system, touch{w.Line.HeadSpan(), w.Private, w.Line.Has("sure")})
		}
	}
	return list
}
