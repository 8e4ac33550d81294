package journal

import (
	"cmp"
	"slices"

	"guidecoat/journal/measure"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

const (
	SurchargeEarly source.Flaw = "surcharge-early"
	SurchargeOver  source.Flaw = "surcharge-over"
)

// A Move is one thing that happened to the surcharge on a part, told by Money or by Item.
type Move struct {
	Date  measure.Date
	Money *Money          // a cost that carries one, or a credit that returns it
	Item  *Item           // a tick: it is given up; otherwise a remark
	Owed  decimal.Decimal // what is still to come back after it
}

// ID is the id of the item that the surcharge opens.
func (m *Move) ID() string {
	if m.Item != nil {
		return m.Item.ID
	}
	return SurchargeID(m.Money.Part)
}

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
