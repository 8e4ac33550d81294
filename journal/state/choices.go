package state

import (
	"math/big"
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/fact"

	"github.com/shopspring/decimal"
)

// Choices weigh finishing against the offers that stand; nil once sold, and without a resale.
func (st *State) Choices() *fact.Choices {
	card := st.Build.Card
	if st.Sale != nil || card.Resale == nil {
		return nil
	}
	c := st.Costs()
	o := outlookOf(st, c)
	brings := minus(read(card, *card.Resale).mean, o.money)
	out := &fact.Choices{Finish: wayOf(brings, o.hours), Spent: c.Net, Pay: card.Hourly, Holding: c.Forecast.Holding}
	for _, offer := range card.Offers {
		if offer.Until != 0 && offer.Until < st.Today {
			continue
		}
		money, hours := read(card, offer.Money).mean, over(meanMinutes(card, offer.Hours), sixty)
		gain, more := minus(brings, money), minus(o.hours, hours)
		pay := new(big.Rat)
		if card.Hourly != nil {
			pay = times(card.Hourly.Rat(), more)
		}
		out.Offers = append(out.Offers, fact.Offered{Name: offer.Name, Until: offer.Until, Brings: wayOf(money, hours), Gain: rounded(gain), MoreHours: rounded(more),
			GainPerHour: wayOf(gain, more).PerHour, TurnsAt: rounded(minus(brings, pay))})
	}
	return out
}

func wayOf(money, hours *big.Rat) fact.Way {
	w := fact.Way{Money: rounded(money), Hours: rounded(hours)}
	if hours.Sign() > 0 {
		w.PerHour = new(rounded(over(money, hours)))
	}
	return w
}

func accountOf(a *journal.Account) *fact.Account {
	if a == nil {
		return nil
	}
	price := func(s *journal.Sale) *decimal.Decimal {
		if s == nil {
			return nil
		}
		return &s.Price
	}
	return &fact.Account{Asked: price(a.Asked), Floor: price(a.Floor), Agreed: price(a.Agreed), Deposit: &a.Deposit, PartExchange: &a.PartExchange,
		Paid: &a.Paid, Owed: a.Owed(), Claims: &a.Claims, Kept: &a.Kept,
		Told: slices.ContainsFunc(a.Lines, func(s *journal.Sale) bool { return s.Line.Kind.Key == "sale" })}
}
