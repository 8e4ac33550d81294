package state

import (
	"cmp"
	"math/big"
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/money"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/speech"

	"github.com/shopspring/decimal"
)

// spread is how a donor's price stood: what it came to, what each part taken bears, and what stays in the garage.
func (st *State) spread(d *journal.Donor) (price decimal.Decimal, taken []journal.Taking, shares []decimal.Decimal, left decimal.Decimal) {
	price = d.Price
	for _, m := range d.Money {
		switch {
		case !st.Counts(m.Date):
		case m.Credit:
			price = price.Sub(m.Whole)
		default:
			price = price.Add(m.Whole)
		}
	}
	price = atLeastZero(price) // a donor that has earned more than it cost gives its parts for nothing
	var weights []decimal.Decimal
	for _, t := range d.Taken {
		if st.Counts(t.Line.Session.Date) {
			taken, weights = append(taken, t), append(weights, t.Worth)
		}
	}
	shares = money.SplitBy(price, append(weights, d.Holds), st.Build.Card.Currency)
	left = price
	for _, s := range shares[:len(taken)] {
		left = left.Sub(s)
	}
	return price, taken, shares, left
}

func (st *State) donorShares() []*journal.Money {
	var list []*journal.Money
	for _, d := range st.Build.Donors {
		_, taken, shares, _ := st.spread(d)
		for i, t := range taken {
			if t.Build == st.Build && !shares[i].IsZero() {
				list = append(list, &journal.Money{Session: t.Line.Session, Line: t.Line.Line, Private: t.Line.Private, Date: t.Line.Session.Date,
					Stage: st.Build.StageOfPart(t.Line), Category: "parts", Part: t.Line.ID, Donor: d.Name,
					Sum: money.Sum{Price: shares[i], Whole: shares[i], Build: shares[i]}})
			}
		}
	}
	return list
}

// Donors are those of the build's card, and those of the garage that it took parts from.
func (st *State) Donors() []fact.Donor {
	var list []fact.Donor
	for _, d := range st.Build.Donors {
		price, taken, _, left := st.spread(d)
		out := fact.Donor{Name: d.Name, Category: d.Category, Words: d.Line.Words().S, On: d.On, Price: &price, Left: &left, Spread: new(price.Sub(left)), Holds: &d.Holds}
		for _, t := range taken {
			if t.Build == st.Build {
				out.Parts++
			}
		}
		own := d.Line.Text.Whole().File == st.Build.Card.Note.File
		if !d.Lost && (out.Parts > 0 || own && (d.On == 0 || st.Counts(d.On))) {
			list = append(list, out)
		}
	}
	return list
}

// flooded are the restraints from a donor that stood in water: nobody can tell whether they will work.
func (st *State) flooded() []*Snag {
	var list []*Snag
	for _, d := range st.Build.Donors {
		for _, t := range d.Taken {
			p := st.Part(t.Line.ID)
			if !d.Flood || t.Build != st.Build || p == nil || !slices.Contains(p.Systems, "restraints") || p.Donor != d.Name || !p.InHand() {
				continue
			}
			s := &Snag{Snag: fact.Snag{ID: journal.FloodedID(p.ID), Source: fact.FromDamage}, Part: p.ID}
			s.System, s.Stage, s.Severity = "restraints", p.Stage, note.Dangerous
			s.Tell(speech.Of("%s comes from %s, which stood in water: restraints of it are not to be used", speech.Part(p.ID), d.Name))
			s.event(true, t.Line.Session, t.Line.Line.HeadSpan(), s.Said, t.Line.Private)
			list = append(list, s)
		}
	}
	return list
}

// Quotes are for parts still to be bought: for each the cheapest first, a supplier's newest alone, expired ones last.
func (st *State) Quotes() []fact.Quote {
	var list []fact.Quote
	for _, p := range st.Parts {
		if p.State != "needed" || p.PaidInRound {
			continue
		}
		var of []*journal.Quote
		for _, q := range st.Build.Quotes {
			if q.Part != p.ID || !st.Counts(q.Session.Date) {
				continue
			}
			of = slices.DeleteFunc(of, func(o *journal.Quote) bool { return o.From == q.From && q.From != "" && o.Session != q.Session })
			of = append(of, q)
		}
		first := len(list)
		list = append(list, pick.Map(of, st.quote)...)
		quotes := list[first:]
		slices.SortStableFunc(quotes, func(a, b fact.Quote) int {
			return cmp.Or(pick.Either(a.Expired, 1, 0)-pick.Either(b.Expired, 1, 0), a.Together().Cmp(b.Together()))
		})
		if len(quotes) > 0 {
			quotes[0].Best = !quotes[0].Expired
		}
	}
	return list
}

func (st *State) quote(q *journal.Quote) fact.Quote {
	out := fact.Quote{Part: q.Part, From: q.From, Words: q.Line.Words().S, Price: q.Price, Freight: q.Freight, Duty: q.Duty, Tax: q.Tax,
		Clearance: q.Clearance, Landed: q.Landed, Wait: q.Wait, Until: q.Until, Expired: q.Until != 0 && q.Until < st.Today}
	if weekly := st.Build.Card.Holding; weekly != nil && q.Wait != nil {
		out.Holding = new(rounded(times(weekly, big.NewRat(int64(*q.Wait), 7))))
	}
	return out
}

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
