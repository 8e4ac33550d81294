package export

import (
	"guidecoat/journal/fact"
	"guidecoat/journal/money"
	"guidecoat/journal/pick"
)

// BidOf is what `bid --json` prints of a job card. What depends on a bid is null where none
// leaves what is asked for, the card names no resale, or a mistake on it counts.
func BidOf(a fact.BidAnswer) Object {
	f := figures{currency: a.Currency}
	price := func(b *fact.Bid) any {
		if b == nil {
			return nil
		}
		return b.Price
	}
	highest := Object{{"highest", nil}, {"fees", nil}, {"total", nil}, {"confidence", a.Confidence.Shift(-2).InexactFloat64()}, // from 0 to 1
		{"profit", a.Profit}, {"profit_mean", nil}, {"chance", nil}}
	if h := a.Highest; h != nil {
		highest[0].value, highest[1].value, highest[2].value = h.Price, h.Fees, h.Total
		highest[5].value, highest[6].value = h.ProfitMean, h.Chance
	}
	return f.object(append(append(Object{{"currency", text(a.Currency.Code)}}, highest...), Object{
		{"highest_hourly", price(a.Hourly)}, // that pays the hours what the card asks for
		{"break_even", price(a.BreakEven)},
		{"minutes", a.Minutes()}, // of work, on average
		{"holding", a.Holding},   // null where nothing is paid
		{"matters", objectsOf(a.Matters, func(m fact.Matter) Object { // widest first
			return f.object(Object{{"name", m.Name}, {"at_best", m.AtBest}, {"at_worst", m.AtWorst}}...)
		})},
		{"table", objectsOf(a.Table, func(b fact.Bid) Object {
			return f.object(Object{{"bid", b.Price}, {"fees", b.Fees}, {"profit_mean", b.ProfitMean}, {"chance", b.Chance}}...)
		})},
	}...)...)
}

// BidsOf is the answer for a card and, where there is one, for the same with other lines on it.
func BidsOf(card fact.BidAnswer, others ...fact.BidAnswer) Object {
	out := BidOf(card)
	out = append(out, pick.Map(others, func(o fact.BidAnswer) field { return field{"if", BidOf(o)} })...)
	return out
}

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
