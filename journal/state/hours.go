package state

import (
	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
)

func openTime(snags []*Snag) (time measure.Minutes) {
	for _, s := range snags {
		if s.Open {
			t, _ := s.Time()
			time += t
		}
	}
	return time
}

// hoursToCome are the hours a stage needs: its estimate less the time since, or what its open snags take if more.
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

// hoursEstimated is the newest estimate of a stage in hours, or the card's, used up by the time noted since.
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
