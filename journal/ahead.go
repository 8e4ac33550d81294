package journal

import (
	"cmp"
	"math/big"
	"slices"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// QuoteUnneeded is the flaw of a quote for a part that was here already.
const QuoteUnneeded source.Flaw = "quote-unneeded"

// A Quote is what somebody asks for a part. Each sum is rounded, and Landed adds up the rounded.
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

// Ahead is what the card says about hours, weeks and what an unfinished vehicle brings.
type Ahead struct {
	Hourly   *decimal.Decimal // what an hour should earn; nil where none is asked for
	Holding  *big.Rat         // what it costs to keep by the week; nil for nothing
	Weeks    *[3]decimal.Decimal
	Pace     *big.Rat       // minutes of work a week; nil where none is named
	Away     []measure.Span // in order, none touching the next
	OneInTen bool           // best and worst are chances of one in ten
	Offers   []Offer
}

type Offer struct {
	Name  string
	Money [3]decimal.Decimal
	Hours [3]measure.Minutes // that it still takes
	From  string
	Until measure.Date // 0: it stands without end
	Line  *note.Line
}

func cardHolding(b *Build, c *Card, l *note.Line) {
	c.Holding = new(big.Rat).Add(cmp.Or(c.Holding, new(big.Rat)), l.Head.(*big.Rat))
}

// timeForHolding leaves out what holding costs where nothing says for how long, and says so once.
func timeForHolding(b *Build, c *Card) {
	if c.Holding == nil || c.Weeks != nil || c.Pace != nil {
		return
	}
	told := slices.ContainsFunc(c.Note.Fields, func(f note.Field) bool { return near.Nearest(f.Key, []string{"weeks", "pace"}) != "" })
	for _, l := range c.Note.Lines {
		if l.Kind.Key != "holding" || b.LeftOut(l) {
			continue
		}
		if b.leaveOut(l); !told {
			b.fault(source.Fault{Flaw: HoldingWithoutTime, Span: l.NameSpan(), Word: l.Name})
			told = true
		}
	}
	c.Holding = nil
}

func cardOffer(b *Build, c *Card, l *note.Line) {
	o := Offer{Name: l.Name, Money: l.Head.([3]decimal.Decimal), From: said(l, "from"), Line: l}
	o.Hours, _ = note.Arg[[3]measure.Minutes](l, "hours")
	o.Until, _ = note.Arg[measure.Date](l, "until")
	c.Offers = append(c.Offers, o)
}
