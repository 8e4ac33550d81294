package render

import (
	"guidecoat/journal/measure"
	"guidecoat/journal/pick"
)

// What lies ahead: when it is ready, what an hour earns, what an offer would change.

// aheadPlates lead the front page until it is sold: when it is ready, or what it will have cost.
func aheadPlates(s *site) []Plate {
	v := s.v
	var list []Plate
	if v.TellsPrivate() && v.Money != nil && v.Money.Costs.Forecast != nil {
		f := v.Money.Costs.Forecast
		forecast := pick.Either(hasMoney(s), "money.html#_h-forecast", "")
		list = append(list, Plate{"Final cost", s.sum(f.Cost[1]), s.Say("between %s and %s", s.sum(f.Cost[0]), s.sum(f.Cost[2])), forecast})
		if f.PerHour != nil {
			list = append(list, Plate{"Profit per hour", s.sum(*f.PerHour), s.Say("over all hours, worked and to come"), forecast})
		}
	}
	if r := v.Ready; r != nil && r.Likely != 0 {
		note := s.Say("likely")
		if r.Early != 0 && r.Early != r.Late {
			note = s.Say("between %s and %s", r.Early, s.lastDay(r.Late))
		}
		list = append(list, Plate{Label: "Ready", Value: s.Day(r.Likely), Note: note})
	}
	return list
}

func (s *voice) lastDay(d measure.Date) string {
	if d == 0 {
		return s.Say("no date yet")
	}
	return s.Day(d)
}
