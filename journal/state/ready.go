package state

import (
	"maps"
	"math/big"
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
)

// work is what is still to be done, on and after the days on which some of it can begin.
type work struct {
	minutes [3]measure.Minutes
	mean    *big.Rat // in minutes
	// later is what cannot begin before a day, by how many days off that is.
	later map[int]measure.Minutes
}

var (
	one   = big.NewRat(1, 1)
	sixty = big.NewRat(60, 1)
	seven = big.NewRat(7, 1)
)

// workToCome adds up the stages' hours and what belongs to none.
func workToCome(st *State, c *fact.Costs) work {
	w := work{mean: new(big.Rat), later: map[int]measure.Minutes{}}
	add := func(m [3]measure.Minutes) {
		for i := range m {
			w.minutes[i] += m[i]
		}
		w.mean = plus(w.mean, meanMinutes(st.Build.Card, m))
	}
	for _, s := range c.Stages {
		if s.HoursLeft != nil {
			add(*s.HoursLeft)
		}
	}
	begins := st.beginnings()
	for _, s := range st.Snags {
		if time := s.toDo(); time > 0 {
			if st.Build.StageNamed(s.Stage) == nil {
				add([3]measure.Minutes{time, time, time})
			}
			w.later[begins[s]] += time
		}
	}
	for _, p := range st.Parts {
		w.later[st.comes(p)] += 0
	}
	delete(w.later, 0)
	return w
}

// comes is in how many days a part arrives; 0 where it is here or late, or nobody knows.
func (st *State) comes(p *Part) int {
	if !p.Waited() || p.Due == 0 {
		return 0
	}
	return max(st.Today.DaysUntil(p.Due), 0)
}

// beginnings tell in how many days each snag can be begun: when the last of what it waits for has come.
func (st *State) beginnings() map[*Snag]int {
	known := map[*Snag]int{}
	var begin func(s *Snag) int
	begin = func(s *Snag) int {
		if days, ok := known[s]; ok {
			return days
		}
		known[s] = 0 // were it to wait for itself
		days := 0
		for _, id := range s.WaitsFor {
			if p := st.Part(id); p != nil {
				days = max(days, st.comes(p))
			} else if other := st.Snag(id); other != nil && other.Open {
				days = max(days, begin(other))
			}
		}
		known[s] = days
		return days
	}
	for _, s := range st.Snags {
		if s.Open {
			begin(s)
		}
	}
	return known
}

type stretch struct {
	day     int // how many days off
	minutes *big.Rat
}

// stretches are what cannot begin before today and each later day, of all the minutes that there are.
func (w work) stretches(all *big.Rat) []stretch {
	var list []stretch
	var sum measure.Minutes
	for _, day := range slices.Backward(slices.Sorted(maps.Keys(w.later))) {
		sum += w.later[day]
		list = append(list, stretch{day, big.NewRat(int64(sum), 1)})
	}
	return append(list, stretch{0, all})
}

// farOff is more days than any date of a note lies off.
const farOff = 400 * 366

// days is how many days work takes at a pace, exactly and in whole ones, farOff at most.
func days(minutes, pace *big.Rat) (exact *big.Rat, whole int) {
	exact = over(times(minutes, seven), pace)
	n := new(big.Int).Add(exact.Num(), new(big.Int).Sub(exact.Denom(), big.NewInt(1)))
	if n.Quo(n, exact.Denom()); !n.IsInt64() || n.Int64() > farOff {
		return exact, farOff
	}
	return exact, int(n.Int64())
}

// after is so many days of work after a day, counted from the next; days away pass.
func (st *State) after(day, work int) int {
	end := day + work
	for _, a := range st.Build.Card.Away {
		from, to := max(st.Today.DaysUntil(a.From), day+1), st.Today.DaysUntil(a.To)
		if to < from {
			continue
		}
		if from > end {
			break
		}
		end += to - from + 1
	}
	return end
}

func (st *State) Ready() *fact.Ready {
	if st.Build.Card.Pace == nil || st.Sale != nil {
		return nil
	}
	return st.Costs().Ready
}

// whenReady works out when it is ready; nil where no pace is named or it is sold.
func whenReady(st *State, w work) *fact.Ready {
	pace := st.Build.Card.Pace
	if pace == nil || st.Sale != nil {
		return nil
	}
	r := &fact.Ready{}
	for i, to := range []*measure.Date{&r.Early, &r.Likely, &r.Late} {
		last := 0
		for _, s := range w.stretches(big.NewRat(int64(w.minutes[i]), 1)) {
			_, whole := days(s.minutes, pace)
			last = max(last, st.after(s.day, whole))
		}
		if last < farOff {
			*to = st.Today.AddDays(last).InReach()
		}
	}
	waited := map[string]bool{}
	for _, s := range st.Snags {
		if !s.Open {
			continue
		}
		if time, said := s.Time(); !said && time > 0 {
			r.Guessed++
		}
		for _, id := range s.WaitsFor {
			waited[id] = true
		}
	}
	for _, p := range st.Parts {
		if p.Waited() && p.Due == 0 || waited[p.ID] && !p.Waited() && !p.InHand() {
			r.Undated = append(r.Undated, p.ID)
		}
	}
	return r
}

// weeksToCome are the weeks until it is ready: by pace and days away, or the card's weeks less those gone.
func weeksToCome(st *State, w work) *big.Rat {
	card := st.Build.Card
	if card.Pace == nil {
		weeks := read(card, *card.Weeks).mean
		if len(st.Sessions) > 0 {
			weeks = minus(weeks, big.NewRat(int64(max(st.Sessions[0].Date.DaysUntil(st.Today), 0)), 7))
		}
		if weeks.Sign() < 0 {
			return new(big.Rat)
		}
		return weeks
	}
	last := new(big.Rat)
	for _, s := range w.stretches(w.mean) {
		exact, whole := days(s.minutes, card.Pace)
		if end := plus(exact, big.NewRat(int64(st.after(s.day, whole)-whole), 1)); end.Cmp(last) > 0 {
			last = end
		}
	}
	return over(last, seven)
}

// toDo is the time that it still takes.
func (s *Snag) toDo() measure.Minutes {
	if !s.Open {
		return 0
	}
	time, _ := s.Time()
	return time
}

// hoursToCome are the hours a stage needs: its estimate less the time since, or what its open snags take if more.
func hoursToCome(st *State, s *fact.Stage, in stageLines) {
	left, known := hoursEstimated(st, s.Name, in)
	var takes measure.Minutes
	for _, x := range in.snags[s.Name] {
		takes += x.toDo()
	}
	if s.HoursKnown = known; !known && takes == 0 {
		return
	}
	for i := range left {
		left[i] = max(left[i], takes)
	}
	s.HoursLeft = &left
}

// hoursEstimated is the newest estimate of a stage in hours, or the card's, used up by the time noted since.
func hoursEstimated(st *State, stage string, in stageLines) (left [3]measure.Minutes, known bool) {
	var since measure.Date
	if r := st.newest(in.left[stage], func(r *journal.Remaining) bool { return r.Hours != nil || r.Closed }); r != nil {
		if known, since = true, r.Session.Date; r.Hours != nil {
			left = *r.Hours
		}
	} else if card := st.Build.StageNamed(stage); card.Hours != nil {
		left, known = *card.Hours, true
	}
	for _, w := range in.work[stage] {
		if w.Session.Date > since {
			for i := range left {
				left[i] = max(left[i]-w.Minutes, 0)
			}
		}
	}
	return left, known
}
