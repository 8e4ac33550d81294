package state

import (
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/money"
	"guidecoat/journal/note"
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
