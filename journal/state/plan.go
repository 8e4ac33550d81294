package state

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
)

// How far ahead a plan looks, and how many things it names.
const planDays, planJobs = 14, 60

// Plan puts the open snags in the order in which one person does them: dangerous, due, worst, oldest. Nil without a pace.
func (st *State) Plan() *fact.Plan {
	pace := st.Build.Card.Pace
	if pace == nil || st.Sale != nil {
		return nil
	}
	weekly, _ := pace.Float64()
	p := &fact.Plan{Days: planDays, Pace: measure.Minutes(weekly + .5)}
	todo, begins := planAhead(st), st.beginnings()
	p.Rest = workToCome(st, st.Costs()).minutes[1]
	left := map[*Snag]*big.Rat{}
	for _, s := range todo {
		p.Rest -= s.toDo()
		left[s] = big.NewRat(int64(s.toDo()), 1)
	}
	for day := 1; day <= planDays && len(todo) > 0; day++ {
		worth := over(pace, seven)
		if st.after(day-1, 1) != day { // away
			continue
		}
		for worth.Sign() > 0 && len(p.Jobs) < planJobs {
			i := slices.IndexFunc(todo, func(s *Snag) bool { return begins[s] < day && st.freeOf(s, left) })
			if i < 0 {
				break
			}
			s := todo[i]
			if left[s].Cmp(worth) > 0 {
				left[s] = minus(left[s], worth)
				break
			}
			worth = minus(worth, left[s])
			delete(left, s)
			todo = slices.Delete(todo, i, i+1)
			p.Jobs = append(p.Jobs, fact.Planned{Snag: &s.Snag, Done: st.Today.AddDays(day)})
		}
	}
	p.More = len(todo)
	return p
}

func planAhead(st *State) []*Snag {
	list := pick.Where(st.Snags, func(s *Snag) bool { return s.toDo() > 0 })
	due := func(s *Snag) int {
		switch {
		case s.Overdue:
			return 0
		case s.Due != 0:
			return int(s.Due)
		}
		return farOff * farOff
	}
	dangerous := func(s *Snag) int { return map[bool]int{true: 0, false: 1}[s.Severity == note.Dangerous] }
	slices.SortStableFunc(list, func(a, b *Snag) int {
		return cmp.Or(cmp.Compare(dangerous(a), dangerous(b)), cmp.Compare(due(a), due(b)), -cmp.Compare(a.Severity, b.Severity), cmp.Compare(a.Opened, b.Opened))
	})
	return list
}

// freeOf tells whether no snag still to be done, and no part without a day, stands before a snag.
func (st *State) freeOf(s *Snag, left map[*Snag]*big.Rat) bool {
	return !slices.ContainsFunc(s.WaitsFor, func(id string) bool {
		if p := st.Part(id); p != nil {
			return !p.InHand() && (!p.Waited() || p.Due == 0)
		}
		other := st.Snag(id)
		return other == nil || other.Open && (left[other] != nil || !st.freeOf(other, left))
	})
}

// Calendar is every day that lies ahead or was missed: snags, parts, warranties, papers, and when it is ready.
func (st *State) Calendar(ready *fact.Ready) []fact.Appointment {
	var list []fact.Appointment
	taken := map[string]int{}
	add := func(id string, day, noted measure.Date, words string, warn int) {
		if day == 0 {
			return
		}
		if taken[id]++; taken[id] > 1 {
			id = fmt.Sprintf("%s-%d", id, taken[id])
		}
		list = append(list, fact.Appointment{ID: id, Day: day, Noted: noted, Words: words, Warn: warn})
	}
	for _, s := range st.Snags {
		if !s.Open || s.Source == fact.FromPaper {
			continue
		}
		noted := s.Opened
		for _, e := range s.Events {
			noted = max(noted, e.Date)
		}
		add("snag-"+cmp.Or(s.ID, note.SuggestID(s.PlainWords())), s.Due, noted, s.Label(), 0)
	}
	for _, p := range st.Parts {
		noted := p.Since
		if n := len(p.Lines); n > 0 { // what has fired may have none
			noted = p.Lines[n-1].Session.Date
		}
		if p.Waited() {
			words := p.Description + " should arrive"
			if p.Supplier != "" {
				words += ", from " + p.Supplier
			}
			add("part-"+p.ID, p.Due, noted, words, 0)
		}
		if p.InHand() {
			add("warranty-"+p.ID, p.Warranty, noted, "the warranty of "+p.Description+" ends", 0)
		}
	}
	for _, p := range st.papers() {
		noted := p.Since()
		if noted == 0 && len(st.Build.Sessions) > 0 { // on the card, which has no day
			noted = st.Build.Sessions[0].Date
		}
		add(p.ID(), p.Until, cmp.Or(noted, p.Until), p.Name+" runs out", p.Warn)
	}
	if n := len(st.Sessions); ready != nil && n > 0 {
		words := "likely ready"
		if ready.Early != 0 && ready.Late != 0 && ready.Early != ready.Late {
			words += ", between " + ready.Early.String() + " and " + ready.Late.String()
		}
		add("ready", ready.Likely, st.Sessions[n-1].Date, words, 0)
	}
	slices.SortStableFunc(list, func(a, b fact.Appointment) int { return cmp.Compare(a.Day, b.Day) })
	return list
}
