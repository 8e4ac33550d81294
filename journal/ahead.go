package journal

import (
	"slices"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/note"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// QuoteUnneeded is the flaw of a quote for a part that was here already.
const QuoteUnneeded source.Flaw = "quote-unneeded"

func (b *Build) addQuote(s *Session, l *note.Line) {
	if !b.isPart(l.Name) {
		b.reject(l, source.Fault{Flaw: UnknownPart, Span: l.NameSpan(), Word: l.Name, Near: b.near.parts.Meant(l.Name)})
		return
	}
	q := &Quote{Session: s, Line: l, Part: l.Name, From: said(l, "from"), Private: s.Private || l.Has("private")}
	price, ok := b.workOut(l, false)
	if !ok || !b.land(q, price.Whole) {
		return
	}
	note.SetPointer(&q.Wait, l, "wait")
	note.Set(&q.Until, l, "until")
	for _, pl := range b.PartLines {
		if pl.ID != q.Part || pl.Session.Date > s.Date {
			continue
		}
		ok = fact.EndsRound(pl.State) || !fact.Reached(pl.State, "arrived")
	}
	if !ok {
		b.fault(source.Fault{Flaw: QuoteUnneeded, Span: l.NameSpan(), Word: l.Name})
	}
	b.Quotes = append(b.Quotes, q)
}

// land adds to the price what it takes to bring the part here.
func (b *Build) land(q *Quote, price decimal.Decimal) bool {
	l, round := q.Line, func(d decimal.Decimal) decimal.Decimal { return money.Round(d, b.Card.Currency) }
	q.Price = price
	if a, ok := note.Arg[note.Amount](l, "freight"); ok {
		sum, ok := b.exchange(l, l.Clause("freight").Arg, a, money.Terms{})
		if !ok {
			return false
		}
		q.Freight = sum.Whole
	}
	value := q.Price.Add(q.Freight)
	if percent, ok := note.Arg[decimal.Decimal](l, "duty"); ok {
		q.Duty = round(value.Mul(percent).Shift(-2))
	}
	if l.Has("import vat") {
		percent, ok := b.vat(b.Card, l, "import vat")
		if !ok {
			return false
		}
		q.Tax = round(value.Add(q.Duty).Mul(percent).Shift(-2))
	}
	if a, ok := note.Arg[note.Taxed](l, "clearance"); ok {
		terms := money.Terms{VAT: a.VAT}
		if a.Plus && a.VAT == nil {
			percent, ok := b.vat(b.Card, l, "clearance")
			if !ok {
				return false
			}
			terms.VAT = &percent
		}
		sum, ok := b.exchange(l, l.Clause("clearance").Arg, a.Amount, terms)
		if !ok {
			return false
		}
		q.Clearance = sum.Whole
	}
	q.Landed = value.Add(q.Duty).Add(q.Tax).Add(q.Clearance)
	return true
}

// HoldingWithoutTime says that nobody can tell for how long holding is paid.
const HoldingWithoutTime source.Flaw = "holding-without-time"

func (c *Card) Fired() []Fired {
	var list []Fired
	for _, d := range c.Damage {
		for _, f := range d.Fired {
			if !slices.ContainsFunc(list, func(o Fired) bool { return o.Part == f.Part }) {
				list = append(list, f)
			}
		}
	}
	return list
}

// NoUntil is the flaw of papers that do not say how long they hold.
const NoUntil source.Flaw = "no-until"

// usualWarning is how many days before its last day a paper is listed.
const usualWarning = 14

func addPaper(b *Build, s *Session, l *note.Line) {
	p := &Paper{Session: s, Line: l, Name: l.Name, At: l.NameSpan(), Warn: usualWarning, Private: l.Has("private") || s != nil && s.Private}
	note.Set(&p.Warn, l, "warn")
	note.SetPointer(&p.Road, l, "road")
	var ok bool
	if p.Until, ok = note.Arg[measure.Date](l, "until"); !ok {
		b.reject(l, source.Fault{Flaw: NoUntil, Span: l.NameSpan(), Word: l.Name})
		return
	}
	b.Papers = append(b.Papers, p)
}
