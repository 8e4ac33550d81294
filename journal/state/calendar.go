package state

import (
	"cmp"
	"fmt"
	"slices"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
)

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
