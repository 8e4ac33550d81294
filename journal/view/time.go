package view

import (
	"slices"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
)

// A WeekOfWork is a week of ISO 8601 in which somebody worked.
type WeekOfWork struct {
	Monday  measure.Date
	Minutes measure.Minutes // of person time
}

// Weeks adds up the time of the sessions that are shown, week by week.
func (v *View) Weeks() []WeekOfWork {
	var list []WeekOfWork
	for _, s := range v.Sessions { // they are in order of their dates
		if s.Minutes == 0 {
			continue
		}
		sinceMonday := (int(s.Date.Time().Weekday()) + 6) % 7
		monday := s.Date.AddDays(-sinceMonday)
		if n := len(list); n == 0 || list[n-1].Monday != monday {
			list = append(list, WeekOfWork{Monday: monday})
		}
		list[len(list)-1].Minutes += s.Minutes
	}
	return list
}

// NotInWeeks is time that counts although no session that is shown holds it.
func (v *View) NotInWeeks() measure.Minutes {
	rest := v.Minutes
	for _, s := range v.Sessions {
		rest -= s.Minutes
	}
	return rest
}

type OpenCount struct {
	Date measure.Date
	Open int
}

// OpenSnags counts on every day with a session, an opening or a clearing.
func (v *View) OpenSnags() []OpenCount {
	change := map[measure.Date]int{}
	for _, s := range v.Sessions {
		change[s.Date] += 0
	}
	for _, s := range v.Snags {
		for _, spell := range s.Spells() {
			change[spell.From]++
			if spell.To != 0 {
				change[spell.To]--
			}
		}
	}
	list := make([]OpenCount, 0, len(change))
	for d, n := range change {
		list = append(list, OpenCount{d, n})
	}
	slices.SortFunc(list, func(a, b OpenCount) int { return int(a.Date) - int(b.Date) })
	for i := 1; i < len(list); i++ {
		list[i].Open += list[i-1].Open
	}
	return list
}

// A Spell is from when to when something was so; To is 0 while it still is.
type Spell struct{ From, To measure.Date }

// Spells are those for which the snag was open, by its own dates: private events are not among its events.
func (s *SnagView) Spells() []Spell {
	var list []Spell
	turn := func(open bool, on measure.Date) {
		if n := len(list); open && (n == 0 || list[n-1].To != 0) {
			list = append(list, Spell{From: on})
		} else if !open && n > 0 && list[n-1].To == 0 {
			list[n-1].To = on
		}
	}
	for _, e := range s.Events {
		switch e.What {
		case fact.Opened, fact.Reopened:
			turn(true, e.Date)
		case fact.Cleared:
			turn(false, e.Date)
		}
	}
	if s.Open {
		turn(true, s.Opened)
	} else {
		turn(false, s.Cleared)
	}
	return list
}
