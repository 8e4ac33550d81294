package state

import (
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"

	"github.com/shopspring/decimal"
)

// readingItems are the snags of readings outside their limits, by name. The
// newest reading of a name counts; limits and severity carry forward.
func (st *State) readingItems() []*Snag {
	var list []*Snag
	byName := map[string]*Snag{}
	limits, severity := map[string]note.Limits{}, map[string]note.Severity{}
	for _, r := range st.Build.Readings {
		if !st.Counts(r.Session.Date) {
			continue
		}
		lim := journal.CarryLimits(limits[r.Name], r.Limits)
		limits[r.Name] = lim
		if severity[r.Name] == note.NoSeverity || r.Line.Choice("severity") != nil {
			severity[r.Name] = r.Severity
		}
		s := byName[r.Name]
		outside := Outside(r.Value, lim)
		switch {
		case outside != "" && s == nil:
			s = &Snag{ID: "reading-" + r.Name, Source: FromReading}
			byName[r.Name] = s
			list = append(list, s)
			fallthrough
		case outside != "":
			s.Severity, s.System, s.Stage = severity[r.Name], r.System, r.Session.Stage
			if s.System == "" {
				s.System = st.Build.SystemOf(s.Stage)
			}
			s.Words = r.Name + " is " + r.Value.String() + ", " + outside
			s.event(true, r.Session, r.Line.HeadSpan(), s.Words, r.Private)
		case s != nil:
			s.event(false, r.Session, r.Line.HeadSpan(), r.Name+" is "+r.Value.String()+", within its limits", r.Private)
		}
	}
	return list
}

// Outside says in words how a value is outside limits, "" where it is not. Limits
// are inclusive.
func Outside(v measure.Quantity, l note.Limits) string {
	switch {
	case l.Min != nil && v.Compare(*l.Min) < 0:
		return "below the least of " + l.Min.String()
	case l.Max != nil && v.Compare(*l.Max) > 0:
		return "above the most of " + l.Max.String()
	}
	return ""
}

// tenth is how near to a limit calls for a remark.
var tenth = decimal.New(1, -1)

// Near says in words how near a value within its limits is to one of them: within a
// tenth of the limit or, where it has two, within a tenth of what lies between
// them, so that a value in the middle is never near. It is "" where it is not.
func Near(v measure.Quantity, l note.Limits) string {
	if Outside(v, l) != "" {
		return ""
	}
	room := func(limit *measure.Quantity) decimal.Decimal {
		if l.Min != nil && l.Max != nil {
			return l.Max.In(v.Unit).Sub(l.Min.In(v.Unit)).Mul(tenth)
		}
		return limit.In(v.Unit).Abs().Mul(tenth)
	}
	near := func(limit *measure.Quantity) bool {
		return limit != nil && v.Value.Sub(limit.In(v.Unit)).Abs().LessThanOrEqual(room(limit))
	}
	switch {
	case near(l.Min) && near(l.Max):
		return "" // nothing lies between the two
	case near(l.Min):
		return "near the least of " + l.Min.String()
	case near(l.Max):
		return "near the most of " + l.Max.String()
	}
	return ""
}

// Newest are the newest readings of each name with the limits that hold for them, in
// the order in which the names first came.
func (st *State) Newest() []*journal.Reading {
	var list []*journal.Reading
	at := map[string]int{}
	for _, r := range st.Build.Readings {
		if !st.Counts(r.Session.Date) {
			continue
		}
		newest := *r
		if i, ok := at[r.Name]; ok {
			newest.Limits = journal.CarryLimits(list[i].Limits, r.Limits)
			list[i] = &newest
			continue
		}
		at[r.Name] = len(list)
		list = append(list, &newest)
	}
	return list
}

// scanItems are the snags of fault codes: open until a later scan of the same
// control unit no longer lists them.
func (st *State) scanItems() []*Snag {
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
				s = &Snag{ID: journal.ScanID(sc.Name, c.Code), Source: FromScan, Standing: journal.Standing{Severity: note.Major}, Unit: sc.Name, Code: c.Code}
				known[[2]string{sc.Name, c.Code}] = s
				list = append(list, s)
			}
			if listed[s] {
				continue
			}
			listed[s], open[sc.Name] = true, append(open[sc.Name], s)
			s.Words = strings.TrimSpace(sc.Name + " " + c.Code + " " + c.Words)
			s.Stage, s.System = sc.Session.Stage, st.Build.SystemOf(sc.Session.Stage)
			s.event(true, sc.Session, c.Span, c.Words, sc.Session.Private)
		}
		for _, s := range before {
			if !listed[s] {
				s.event(false, sc.Session, sc.Span, "no longer listed", sc.Session.Private)
			}
		}
	}
	return list
}
