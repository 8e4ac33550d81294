package journal

import (
	"cmp"
	"slices"

	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/note"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// Money: costs, credits, surcharges.

const (
	NoRate            source.Flaw = "no-rate"
	MissingVAT        source.Flaw = "missing-vat"
	WorksOutToZero    source.Flaw = "works-out-to-zero"
	UnknownPart       source.Flaw = "unknown-part"
	UnstagedMoney     source.Flaw = "unstaged-money"
	SurchargeNeedsFor source.Flaw = "surcharge-needs-for"
	SurchargeShared   source.Flaw = "surcharge-shared"
	SurchargeTooLarge source.Flaw = "surcharge-too-large"
	DueNeedsSurcharge source.Flaw = "due-needs-surcharge"
)

func addMoney(b *Build, s *Session, l *note.Line) {
	m := &Money{Session: s, Line: l, Credit: l.Kind.Key == "credit", Private: s.Private || l.Has("private")}
	var ok bool
	m.Part = said(l, "for")
	m.Stage = b.stageOf(s, l, m.Part)
	m.Category = categoryOf(b, m, l)
	if m.Sum, ok = b.workOut(l, m.Category == "tools" && !m.Credit); !ok {
		return
	}
	if !b.surcharge(m, l) {
		return
	}
	m.Date = dateOn(s, l)
	if d := b.donor(m.Part); d != nil {
		if d.Lost {
			b.leaveOut(l)
		} else {
			m.Donor, d.Money = d.Name, append(d.Money, m)
		}
		return
	}
	b.Money = append(b.Money, m)
	warnUnstaged(b, m)
}

func categoryOf(b *Build, m *Money, l *note.Line) string {
	as, ok := note.Arg[string](l, "as")
	switch {
	case ok:
		return as
	case m.Credit:
		return "refund"
	case m.Part != "":
		return "parts"
	}
	if st := b.StageNamed(m.Stage); st != nil && st.Purchase {
		return "vehicle" // what is paid there is paid for it, unless its line says otherwise
	}
	return "sundries"
}

func dateOn(s *Session, l *note.Line) measure.Date {
	on, _ := note.Arg[measure.Date](l, "on")
	return cmp.Or(on, s.Date)
}

// workOut turns the amount of a line into the build's currency, or rejects the line.
func (b *Build) workOut(l *note.Line, toGarage bool) (money.Sum, bool) {
	a, _ := l.Amount()
	terms := money.Terms{ToGarage: toGarage}
	if l.Has("plus vat") {
		vat, ok := b.vat(b.Card, l, "plus vat")
		if !ok {
			return money.Sum{}, false
		}
		terms.VAT = &vat
	}
	note.SetPointer(&terms.Share, l, "share")
	sum, ok := b.exchange(l, l.Text, a, terms)
	if ok && sum.Whole.IsZero() && b.Card.Currency.Code != "" {
		b.reject(l, source.Fault{Flaw: WorksOutToZero, Span: l.HeadSpan(), Word: l.HeadSpan().Text()})
		return sum, false
	}
	return sum, ok
}

func (b *Build) exchange(l *note.Line, in note.Text, a note.Amount, terms money.Terms) (money.Sum, bool) {
	if !b.rate(l, in, a, &terms) {
		return money.Sum{}, false
	}
	home := b.Card.Currency
	if home.Code == "" && a.Currency.Code != "" {
		home = a.Currency
	} else if a.Currency.Code == "" {
		a.Currency = home
	}
	return money.WorkOut(a.Written, a.Currency, home, terms), true
}

// rate finds the rate that an amount needs. The line's own is for the currency it begins with.
func (b *Build) rate(l *note.Line, in note.Text, a note.Amount, terms *money.Terms) bool {
	own := l.Clause("rate")
	if head, _ := l.Amount(); own != nil && a.Currency != head.Currency {
		own = nil
	}
	if b.Card.Currency.Code == "" {
		return true // reported on the card; nothing can be exchanged into it
	}
	if a.Currency == b.Card.Currency {
		if own != nil {
			b.reject(l, source.Fault{Flaw: OwnRate, Span: own.Span, Word: a.Currency.Code})
			return false
		}
		return true
	}
	rate, ok := b.Card.Rates[a.Currency.Code]
	if own != nil {
		rate, ok = own.Value.(decimal.Decimal)
	}
	if !ok && own == nil && b.badRate(b.Card, a.Currency.Code) {
		b.leaveOut(l)
		return false
	}
	if !ok {
		at := l.HeadSpan()
		if a.UnitEnd > a.UnitStart {
			at = in.Span(a.UnitStart, a.UnitEnd)
		}
		b.reject(l, source.Fault{Flaw: NoRate, Span: at, Word: a.Currency.Code, Near: []string{b.Card.Currency.Code}})
		return false
	}
	terms.Rate = &rate
	return true
}

// surcharge reads the refundable part of a price, and credits that return one.
func (b *Build) surcharge(m *Money, l *note.Line) bool {
	reject := func(flaw source.Flaw, c *note.Found, word string) bool {
		b.reject(l, source.Fault{Flaw: flaw, Span: c.Span, Word: word})
		return false
	}
	c := l.Clause("surcharge")
	switch {
	case m.Credit:
		if m.Category == "surcharge" && m.Part == "" {
			return reject(SurchargeNeedsFor, l.Clause("as"), "as surcharge")
		}
	case c == nil:
		if due := l.Clause("due"); due != nil {
			return reject(DueNeedsSurcharge, due, "due")
		}
	case m.Part == "":
		return reject(SurchargeNeedsFor, c, "surcharge")
	case l.Has("share"):
		return reject(SurchargeShared, l.Clause("share"), "share")
	default:
		m.Surcharge = c.Value.(decimal.Decimal)
		if m.Surcharge.GreaterThan(m.Whole) {
			return reject(SurchargeTooLarge, c, money.Show(m.Whole, b.Card.Currency))
		}
		m.Due, _ = note.Arg[measure.Date](l, "due")
	}
	return true
}

// warnUnstaged says once for a session that money of it belongs to no stage.
func warnUnstaged(b *Build, m *Money) {
	if m.Stage != "" || m.Session.StageBad || m.Session.saidUnstaged {
		return
	}
	m.Session.saidUnstaged = true
	f := source.Fault{Flaw: UnstagedMoney, Span: m.Line.HeadSpan(), Word: m.Line.HeadSpan().Text()}
	if !listsStages(b) {
		f.Help = "Write \"stage: NAME\" in the note, or \"; stage NAME\" on the line: any name will do, such as body or buying."
	}
	b.fault(f)
}

const (
	SurchargeEarly source.Flaw = "surcharge-early"
	SurchargeOver  source.Flaw = "surcharge-over"
)

// order is the order of moves on one day.
func (m *Move) order() int {
	switch {
	case m.Item != nil:
		return 2
	case m.Money.Credit:
		return 1
	}
	return 0
}

func movesOf(b *Build) []*Move {
	var list []*Move
	parts := map[string]bool{}
	for _, m := range b.Money {
		if !m.Credit && !m.Surcharge.IsZero() || m.Credit && m.Category == "surcharge" {
			list = append(list, &Move{Date: m.Date, Money: m})
			parts[SurchargeID(m.Part)] = true
		}
	}
	for _, it := range b.items {
		if parts[it.ID] && !b.LeftOut(it.Line) && it.Kind == "" && !it.Again {
			list = append(list, &Move{Date: it.Session.Date, Item: it})
		}
	}
	slices.SortStableFunc(list, func(a, b *Move) int {
		return cmp.Or(cmp.Compare(a.Date, b.Date), cmp.Compare(a.order(), b.order()))
	})
	return list
}

// resolveSurcharges follows the moves, warns of too much or too early, and rejects what comes before the charge.
func resolveSurcharges(b *Build) {
	moves := movesOf(b)
	charged := map[string]*Money{} // the last of each
	for _, m := range moves {
		if m.Money != nil && !m.Money.Credit {
			charged[m.ID()] = m.Money
		}
	}
	last := map[string]*Move{}
	for _, m := range moves {
		before := last[m.ID()]
		switch {
		case m.Money != nil && !m.Money.Credit:
			m.Owed = m.Money.Surcharge
			if before != nil {
				m.Owed = m.Owed.Add(before.Owed)
			}
		case before == nil && m.Money != nil:
			b.fault(source.Fault{Flaw: SurchargeEarly, Span: m.Money.Line.HeadSpan(), Word: m.Money.Part})
			continue
		case before == nil:
			if c := charged[m.ID()]; c != nil {
				b.reject(m.Item.Line, source.Fault{Flaw: ClearedBeforeOpened, Span: m.Item.IDSpan, Word: m.Item.ID, Other: c.Line.HeadSpan()})
			}
			continue
		case m.Item == nil:
			if m.Owed = before.Owed.Sub(m.Money.Sum.Build); m.Owed.IsNegative() {
				b.fault(source.Fault{Flaw: SurchargeOver, Span: m.Money.Line.HeadSpan(), Word: m.Money.Part})
				m.Owed = decimal.Zero
			}
		case !m.Item.Ticked:
			m.Owed = before.Owed
		}
		last[m.ID()] = m
		b.Moves = append(b.Moves, m)
	}
	for _, it := range b.items {
		id := b.ids[it.ID]
		if !b.LeftOut(it.Line) && id != nil && id.sort == surchargeSort && it.Kind == "" && !it.Again && charged[it.ID] == nil {
			b.leaveOut(it.Line) // the line that charges it was reported, and this hangs on it
		}
	}
}
