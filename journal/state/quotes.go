package state

import (
	"cmp"
	"math/big"
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/pick"
)

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
			if a.Expired != b.Expired {
				return cmp.Compare(map[bool]int{true: 1}[a.Expired], map[bool]int{true: 1}[b.Expired])
			}
			return a.Together().Cmp(b.Together())
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
		held := rounded(times(weekly, big.NewRat(int64(*q.Wait), 7)))
		out.Holding = &held
	}
	return out
}
