package journal

import (
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/note"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// QuoteUnneeded is the flaw of a quote for a part that was here already.
const QuoteUnneeded source.Flaw = "quote-unneeded"

// A Quote is what somebody asks for a part, brought into the yard. Each sum is rounded, and
// Landed is what they add up to.
type Quote struct {
	Session           *Session
	Line              *note.Line
	Part, From        string
	Price, Freight    decimal.Decimal // together the value for the customs
	Duty, Tax         decimal.Decimal
	Clearance, Landed decimal.Decimal
	Wait              *int // days; nil where it is not said
	Until             measure.Date
	Private           bool
}

func (b *Build) addQuote(s *Session, l *note.Line) {
	if !b.isPart(l.Name) {
		b.reject(l, source.Fault{Flaw: UnknownPart, Span: l.NameSpan(), Word: l.Name, Near: oneOrNone(b.near.parts.Nearest(l.Name))})
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
