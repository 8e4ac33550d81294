package main

import (
	"cmp"
	"maps"
	"slices"
	"strconv"

	"guidecoat/journal/fact"
	"guidecoat/journal/money"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"

	"github.com/shopspring/decimal"
)

type wanted struct {
	*view.PartView
	v    *view.View
	name string      // of the build; "" where there is only one
	best *fact.Quote // nil where nobody has asked a price that stands
}

// quoted finds the best quote for the part, from whom it is then to be bought.
func (p wanted) quoted() wanted {
	for i := range p.v.Quotes {
		if q := &p.v.Quotes[i]; q.Best && q.Part == p.ID {
			p.best = q
		}
	}
	return p
}

func (p wanted) supplier() string {
	if p.best != nil {
		return p.best.From
	}
	return p.Supplier
}

var fieldAsked = field{column{head: "asked", right: true}, func(p wanted) string {
	if p.best == nil {
		return ""
	}
	return money.Show(p.best.Landed, p.v.Currency)
}}

// showShopping goes by supplier over all builds at once, since one trip serves them all. No supplier comes last.
func (w *world) showShopping(p *place, views []*view.View) error {
	s := newScreen(w.stdout, w.getenv)
	bySupplier := map[string][]wanted{}
	var all, paid []wanted
	for _, v := range views {
		for _, part := range v.Parts {
			want := wanted{PartView: part, v: v, name: p.nameAmong(v)}
			if part.PaidInRound { // bought, and the note forgot to say so
				paid = append(paid, want)
				continue
			}
			want = want.quoted()
			bySupplier[want.supplier()] = append(bySupplier[want.supplier()], want)
			all = append(all, want)
		}
	}
	names := slices.SortedFunc(maps.Keys(bySupplier), func(a, b string) int {
		return cmp.Or(cmp.Compare(one(a == ""), one(b == "")), cmp.Compare(a, b))
	})
	for _, name := range names {
		s.heading(cmp.Or(name, "No supplier named"))
		printWanted(s, bySupplier[name], []field{fieldPart, fieldWords, fieldAsked, fieldBest, fieldLikely, fieldWorst, fieldDue})
		if len(names) > 1 {
			s.say("", estimates(bySupplier[name]))
		}
		s.gap()
	}
	if len(all) == 0 {
		s.say("", "Nothing is to be bought.")
	} else {
		s.say("", "In all: "+estimates(all))
	}
	for _, v := range views {
		quotes(s, p, v)
	}
	if len(paid) > 0 {
		s.gap()
		s.heading("Paid for, but still noted as needed")
		printWanted(s, paid, []field{fieldPart, fieldWords})
		s.say("", "Note that they are ordered or here, and they leave this list.")
	}
	s.below(p.leftOut())
	return s.flush()
}

func quotes(s *screen, p *place, v *view.View) {
	if len(v.Quotes) == 0 {
		return
	}
	s.gap()
	s.heading(together(": ", "Quotes, with all that it takes to bring the part here", p.nameAmong(v)))
	t := table{columns: []column{{head: "part"}, {head: "from", least: 8}, {head: "price", right: true}, {head: "freight", right: true}, {head: "duty", right: true},
		{head: "tax", right: true}, {head: "clearance", right: true}, {head: "landed", right: true}, {head: "days", right: true}, {head: "holding", right: true}, {head: ""}}}
	show := func(d decimal.Decimal) string {
		return unlessZero(d, func(d decimal.Decimal) string { return money.Show(d, money.Currency{Digits: v.Currency.Digits}) })
	}
	for _, q := range v.Quotes {
		days, mark := "", ""
		if q.Wait != nil {
			days = strconv.Itoa(*q.Wait)
		}
		switch {
		case q.Expired:
			mark = "until " + q.Until.String()
		case q.Best:
			mark = "best"
		}
		t.add(q.Part, q.From, show(q.Price), show(q.Freight), show(q.Duty), show(q.Tax), show(q.Clearance), show(q.Landed), days, ifKnown(q.Holding, show), mark)
	}
	t.print(s)
	s.say("", "The best is the least of landed and holding together.")
}

func printWanted(s *screen, parts []wanted, fields []field) {
	fields = append(slices.Clone(fields), field{column{head: "for", least: 8}, func(p wanted) string { return p.name }})
	t := table{columns: pick.Map(fields, func(f field) column { return f.column })}
	for _, p := range parts {
		cells := pick.Map(fields, func(f field) string { return f.of(p) })
		t.rows = append(t.rows, row{cells: cells, style: pick.Either(p.Late, red, plain)})
	}
	t.print(s)
}

// estimates adds up what parts may cost, each currency on its own.
func estimates(parts []wanted) string {
	var currencies []money.Currency
	sums := map[string]*fact.Three{}
	without := 0
	for _, p := range parts {
		c := p.v.Currency
		if sums[c.Code] == nil {
			currencies, sums[c.Code] = append(currencies, c), &fact.Three{}
		}
		if p.Estimate == nil {
			without++
			continue
		}
		for i, sum := range sums[c.Code] {
			sums[c.Code][i] = sum.Add(p.Estimate[i])
		}
	}
	text := count(len(parts), "part")
	for i, c := range currencies {
		if sum := sums[c.Code]; !sum[2].IsZero() { // else nothing is known of it
			text += pick.Either(i > 0, ", and ", ", ")
			text += spread(*sum, func(d decimal.Decimal) string { return money.Show(d, c) })
		}
	}
	if without > 0 {
		text += "; without an estimate: " + strconv.Itoa(without)
	}
	return text + "."
}
