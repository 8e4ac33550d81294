package journal

import (
	"cmp"
	"slices"

	"guidecoat/journal/note"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

const (
	SoldTwice source.Flaw = "sold-twice"
	NotAgreed source.Flaw = "not-agreed"
	NotSold   source.Flaw = "not-sold"
	SaleOver  source.Flaw = "sale-over"
)

func addSale(b *Build, s *Session, l *note.Line) {
	x := &Sale{Session: s, Line: l, What: "agreed", Date: dateOn(s, l), Private: s.Private || l.Has("private"), To: said(l, "to"), Into: said(l, "into")}
	if head, ok := l.Head.(note.SaleHead); ok {
		x.What, x.To = head.Word, said(l, "from")
	}
	if _, named := l.Amount(); named {
		sum, ok := b.workOut(l, false)
		if !ok {
			return
		}
		x.Price = sum.Whole
	}
	b.Sales = append(b.Sales, x)
}

// An Account is how a sale stands. It ends when a deposit is kept or the vehicle comes back.
type Account struct {
	Asked, Floor *Sale // the newest of all
	Agreed       *Sale // of the sale that stands; nil while it is not sold
	// Of the sale that stands:
	Deposit, PartExchange, Paid decimal.Decimal
	Lines                       []*Sale
	// Of all sales there were:
	Claims, Kept decimal.Decimal

	back    decimal.Decimal // of the sale that ended last: what the buyer had paid and nobody has kept
	unready bool            // that one ended with money kept, and the vehicle may still come back
}

// received is what the buyer has given for the sale that stands.
func (a *Account) received() decimal.Decimal { return a.Deposit.Add(a.PartExchange).Add(a.Paid) }

// Owed is what is still to be paid, negative where too much was; nil while nothing is agreed.
func (a *Account) Owed() *decimal.Decimal {
	if a.Agreed == nil {
		return nil
	}
	return new(a.Agreed.Price.Sub(a.received()))
}

// Profit is what the sale that stands has earned.
func (a *Account) Profit(net decimal.Decimal) decimal.Decimal {
	return a.Agreed.Price.Sub(net).Sub(a.Claims).Add(a.Kept)
}

// Take brings in the next line, by date.
func (a *Account) Take(s *Sale) {
	add := func(to *decimal.Decimal) { *to = to.Add(s.Price) }
	switch s.What {
	case "asked":
		a.Asked = s
		return
	case "floor":
		a.Floor = s
		return
	case "deposit":
		add(&a.Deposit)
	case "part exchange":
		add(&a.PartExchange)
	case "paid":
		add(&a.Paid)
	case "claim":
		add(&a.Claims)
	case "agreed":
		a.Agreed = s
	case "kept", "returned":
		a.end(s)
		return
	}
	a.Lines = append(a.Lines, s)
}

func (a *Account) end(s *Sale) {
	a.back = a.back.Add(a.received())
	if s.What == "kept" {
		a.Kept, a.back = a.Kept.Add(s.Price), a.back.Sub(s.Price)
	}
	a.unready = s.What == "kept" && (a.unready || a.Agreed != nil)
	a.Agreed, a.Lines = nil, nil
	a.Deposit, a.PartExchange, a.Paid = decimal.Zero, decimal.Zero, decimal.Zero
}

// resolveSale judges the lines of the account by date, and leaves out those that cannot be.
func resolveSale(b *Build) {
	if len(b.Sales) == 0 {
		return
	}
	slices.SortStableFunc(b.Sales, func(x, y *Sale) int { return cmp.Compare(x.Date, y.Date) })
	var a Account
	var early []*Sale // what asks for a price that is not agreed yet
	var over bool     // said of the sale that stands
	doubt := saleInDoubt(b)
	unagreed := func() {
		if doubt {
			early = nil
		}
		for i, s := range early {
			if b.leaveOut(s.Line); i == 0 {
				b.fault(source.Fault{Flaw: NotAgreed, Span: s.Line.HeadSpan(), Word: s.What})
			}
		}
		early = nil
	}
	for _, s := range b.Sales {
		switch {
		case s.What == "agreed" && a.Agreed != nil:
			b.reject(s.Line, source.Fault{Flaw: SoldTwice, Span: s.Line.HeadSpan(), Other: a.Agreed.Line.HeadSpan()})
			continue
		case s.What == "returned" && a.Agreed == nil && !a.unready && !doubt:
			b.reject(s.Line, source.Fault{Flaw: NotSold, Span: s.Line.HeadSpan()})
			continue
		case s.What == "agreed":
			early = nil
		case s.What == "kept" || s.What == "returned":
			unagreed()
			over = false
			if had := a.back.Add(a.received()); s.What == "kept" && s.Price.GreaterThan(had) {
				b.fault(source.Fault{Flaw: SaleOver, Span: s.Line.HeadSpan(), Word: s.What, Why: b.ShowMoney(had)})
			}
		case a.Agreed == nil && slices.Contains([]string{"paid", "part exchange", "claim"}, s.What):
			early = append(early, s)
		}
		a.Take(s)
		if owed := a.Owed(); owed != nil && owed.IsNegative() && !over {
			over = true
			b.fault(source.Fault{Flaw: SaleOver, Span: s.Line.HeadSpan(), Word: s.What, Why: b.ShowMoney(a.Agreed.Price)})
		}
	}
	unagreed()
	b.Sales = slices.DeleteFunc(b.Sales, func(s *Sale) bool { return b.LeftOut(s.Line) })
}

// saleInDoubt tells whether a line of the account was left out: it may have said what others lack.
func saleInDoubt(b *Build) bool {
	return slices.ContainsFunc(b.Sessions, func(s *Session) bool {
		return slices.ContainsFunc(s.Note.Lines, func(l *note.Line) bool { return (l.Kind.Key == "sale" || l.Kind.Key == "sold") && b.LeftOut(l) })
	})
}

// PartExchange is the flaw of a part exchange that the garage tells otherwise.
const PartExchange source.Flaw = "part-exchange"
