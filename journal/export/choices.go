package export

import (
	"guidecoat/journal/fact"
	"guidecoat/journal/money"
)

// ChoicesOf is what `choices --json` prints; without choices there is nothing to finish,
// since it is sold, or no resale is known.
func ChoicesOf(currency money.Currency, c *fact.Choices) Object {
	f := figures{currency: currency}
	way := func(w fact.Way) Object { // an hour is null where it takes none
		return Object{{"money", w.Money}, {"minutes", w.Minutes()}, {"per_hour", w.PerHour}}
	}
	finish, offers := Object(nil), []Object{}
	if c != nil {
		finish = f.object(way(c.Finish)...)
		offers = objectsOf(c.Offers, func(o fact.Offered) Object { // those that stand
			return f.object(append(append(Object{{"offer", o.Name}}, way(o.Brings)...), Object{
				{"until", o.Until},
				{"gain_of_finishing", o.Gain},
				{"gain_per_hour", o.GainPerHour}, // null where finishing takes no more hours
				{"turns_at", o.TurnsAt},
				{"more_minutes", o.MoreMinutes()}, // that finishing takes
			}...)...)
		})
	}
	return f.object(Object{{"currency", text(currency.Code)}, {"finish", finish}, {"offers", offers}}...)
}
