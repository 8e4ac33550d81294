package state

import (
	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/speech"
)

// readingItems are the snags of readings outside their limits. The newest counts; limits and severity carry forward.
func readingItems(st *State) []*Snag {
	var list []*Snag
	byName := map[string]*Snag{}
	limits, severity := map[string]note.Limits{}, map[string]note.Severity{}
	for _, r := range st.Build.Readings {
		if !st.Counts(r.Session.Date) {
			continue
		}
		lim := r.Limits.After(limits[r.Name])
		limits[r.Name] = lim
		if severity[r.Name] == note.NoSeverity || r.Line.Choice("severity") != nil {
			severity[r.Name] = r.Severity
		}
		s := byName[r.Name]
		outside := lim.Outside(r.Value)
		switch {
		case outside.Some() && s == nil:
			s = &Snag{Snag: fact.Snag{ID: journal.ReadingID(r.Name), Source: fact.FromReading}}
			byName[r.Name] = s
			list = append(list, s)
			fallthrough
		case outside.Some():
			s.Severity, s.System, s.Stage = severity[r.Name], r.System, r.Session.Stage
			if s.System == "" {
				s.System = st.Build.SystemOf(s.Stage)
			}
			s.Tell(speech.Of("%s is %s, %s", speech.Name(r.Name), r.Value, outside))
			s.event(true, r.Session, r.Line.HeadSpan(), s.Said, r.Private)
		case s != nil:
			s.event(false, r.Session, r.Line.HeadSpan(), speech.Of("%s is %s, within its limits", speech.Name(r.Name), r.Value), r.Private)
		}
	}
	for _, a := range st.Build.OfReadings {
		for _, s := range list {
			if s.ID == a.ID && s.Open && st.Counts(a.Session.Date) && a.Session.Place >= s.Session.Place {
				takeAside(&s.Standing, a)
				s.say(fact.Remarked, a.Item)
			}
		}
	}
	return list
}

// Newest are the newest readings of each name with the limits that hold for them, in order of names.
func (st *State) Newest() []*journal.Reading {
	var list []*journal.Reading
	at := map[string]*journal.Reading{}
	for _, r := range st.Build.Readings {
		if !st.Counts(r.Session.Date) {
			continue
		}
		newest := at[r.Name]
		if newest == nil {
			newest = &journal.Reading{}
			at[r.Name], list = newest, append(list, newest)
		}
		limits := r.Limits.After(newest.Limits)
		*newest, newest.Limits = *r, limits
	}
	return list
}

// scanItems are the snags of fault codes, until a later scan of the same unit no longer lists them.
func scanItems(st *State) []*Snag {
	var list []*Snag
	known := map[[2]string]*Snag{} // by unit and code
	open := map[string][]*Snag{}   // of a unit
	for _, sc := range st.Build.Scans {
		if !st.Counts(sc.Session.Date) {
			continue
		}
		listed := map[*Snag]bool{}
		before := open[sc.Name]
		open[sc.Name] = nil
		for _, c := range sc.Codes {
			s := known[[2]string{sc.Name, c.Code}]
			if s == nil {
				s = &Snag{Snag: fact.Snag{ID: fact.ScanID(sc.Name, c.Code), Source: fact.FromScan, Standing: fact.Standing{Severity: note.Major}, Unit: sc.Name, Code: c.Code}}
				known[[2]string{sc.Name, c.Code}] = s
				list = append(list, s)
			}
			if listed[s] {
				continue
			}
			listed[s], open[sc.Name] = true, append(open[sc.Name], s)
			if s.Tell(speech.Of("%s %s", speech.Name(sc.Name), c.Code)); c.Words != "" {
				s.Tell(speech.Of("%s %s", s.Said, c.Words))
			}
			s.Stage, s.System = sc.Session.Stage, st.Build.SystemOf(sc.Session.Stage)
			s.event(true, sc.Session, c.Span, speech.Typed(c.Words), sc.Session.Private)
		}
		for _, s := range before {
			if !listed[s] {
				s.event(false, sc.Session, sc.Span, speech.Of("no longer listed"), sc.Session.Private)
			}
		}
	}
	return list
}
