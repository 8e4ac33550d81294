package state

import (
	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
)

// openTime is what the open ones of some snags take together.
func openTime(snags []*Snag) (time measure.Minutes) {
	for _, s := range snags {
		if s.Open {
			t, _ := s.Time()
			time += t
		}
	}
	return time
}

// hoursToCome are the hours that a stage still needs: its estimate less the person time
// since, or what its open snags take if that is more. None are told where nothing tells.
func hoursToCome(st *State, s *fact.Stage, in stageLines) {
	left, known := hoursEstimated(st, s, in)
	takes := openTime(in.snags[s.Name])
	if s.HoursKnown = known; !known && takes == 0 {
		return
	}
	for i := range left {
		left[i] = max(left[i], takes)
	}
	s.HoursLeft = &left
}

// hoursEstimated is what the newest estimate of a stage says in hours, else the card,
// used up by the person time noted since, as its money is by costs. A stage that needs
// nothing needs no hours, unless that line says some.
func hoursEstimated(st *State, s *fact.Stage, in stageLines) (left [3]measure.Minutes, known bool) {
	var since measure.Date
	if r := st.newest(in.left[s.Name], func(r *journal.Remaining) bool { return r.Hours != nil || r.Closed }); r != nil {
		if known, since = true, r.Session.Date; r.Hours != nil {
			left = *r.Hours
		}
	} else if card := st.Build.StageNamed(s.Name); card.Hours != nil {
		left, known = *card.Hours, true
	}
	for _, w := range in.work[s.Name] {
		if w.Session.Date > since {
			for i := range left {
				left[i] = max(left[i]-w.Minutes, 0)
			}
		}
	}
	return left, known
}
