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

// The flaws of surcharges that come back.
const (
	SurchargeEarly source.Flaw = "surcharge-early"
	SurchargeOver  source.Flaw = "surcharge-over"
)

// A surcharge is the refundable part of what was paid for one part, as it stood.
type surcharge struct {
	part string
	owed decimal.Decimal
	snag *Snag
}

// A move is one thing that happened to a surcharge: exactly one of the two is set.
type move struct {
	date  measure.Date
	money *Money // a cost that carries one, or a credit that returns it
	item  *item  // a tick: it is given up; otherwise a remark
}

// order is the order of moves on one day.
func (m move) order() int {
	switch {
	case m.item != nil:
		return 2
	case m.money.Credit:
		return 1
	}
	return 0
}

// moves lists what happened to surcharges by date.
func (b *Build) moves(lines []*Money, items []*item) []move {
	var list []move
	parts := map[string]bool{}
	for _, m := range lines {
		if !m.Credit && !m.Surcharge.IsZero() || m.Credit && m.Category == "surcharge" {
			list = append(list, move{date: m.Date, money: m})
			parts[SurchargeID(m.Part)] = true
		}
	}
	if len(list) == 0 {
		return nil
	}
	for _, it := range items {
		if parts[it.ID] && !it.Bad && it.Kind == "" && !it.Again {
			list = append(list, move{date: it.session.Date, item: it})
		}
	}
	slices.SortStableFunc(list, func(a, b move) int {
		return cmp.Or(cmp.Compare(a.date, b.date), cmp.Compare(a.order(), b.order()))
	})
	return list
}

// settleSurcharges follows the moves and returns the surcharges in order of their
// first charge. Warn is told of moves that do not fit.
func settleSurcharges(moves []move, c money.Currency, warn func(move, source.Flaw)) []*surcharge {
	var list []*surcharge
	byID := map[string]*surcharge{}
	for _, m := range moves {
		switch {
		case m.item != nil:
			if s := byID[m.item.ID]; s != nil {
				s.said(m.item)
			} else {
				warn(m, ClearedBeforeOpened)
			}
		case !m.money.Credit:
			id := SurchargeID(m.money.Part)
			s := byID[id]
			if s == nil {
				s = &surcharge{part: m.money.Part}
				byID[id] = s
				list = append(list, s)
			}
			s.charge(m.money)
		default:
			s := byID[SurchargeID(m.money.Part)]
			switch {
			case s == nil:
				warn(m, SurchargeEarly)
			case s.owed.LessThan(m.money.Sum.Build):
				warn(m, SurchargeOver)
				s.owed = m.money.Sum.Build
				fallthrough
			default:
				s.repay(m.money)
			}
		}
	}
	for _, s := range list {
		what := "surcharge of " + money.Show(s.snag.amount, c) + " on " + s.part
		if s.snag.Open && s.owed.LessThan(s.snag.amount) {
			what = money.Show(s.owed, c) + " of the " + what
		}
		s.snag.Words = what + ", to come back for the old part"
	}
	return list
}

func (s *surcharge) charge(m *Money) {
	s.owed = s.owed.Add(m.Surcharge)
	if s.snag == nil {
		s.snag = &Snag{ID: SurchargeID(s.part), Source: FromSurcharge, Severity: note.Minor, Stage: m.Stage, part: s.part}
	}
	what := Remarked
	if !s.snag.Open {
		s.snag.Opened, s.snag.Span, s.snag.Session = m.Date, m.Line.HeadSpan(), m.Session
		s.snag.Open, s.snag.Cleared, s.snag.Due, s.snag.amount = true, 0, 0, decimal.Zero
		if what = Opened; len(s.snag.Events) > 0 {
			what = Reopened
		}
	}
	s.snag.amount = s.snag.amount.Add(m.Surcharge)
	if m.Due != 0 {
		s.snag.Due = m.Due
	}
	s.snag.Private = s.snag.Private || m.Private
	s.say(what, m, m.Description())
}

func (s *surcharge) repay(m *Money) {
	s.owed = s.owed.Sub(m.Sum.Build)
	if s.owed.IsPositive() || !s.snag.Open {
		s.say(Remarked, m, m.Description())
		return
	}
	s.snag.Open, s.snag.Cleared = false, m.Date
	s.say(Cleared, m, m.Description())
}

// said takes a task-list item about the surcharge: a tick gives it up.
func (s *surcharge) said(it *item) {
	if !it.Ticked {
		s.snag.say(Remarked, it)
		return
	}
	if s.snag.Open {
		s.owed = decimal.Zero
		s.snag.Open, s.snag.Cleared = false, it.session.Date
		s.snag.say(Cleared, it)
	}
}

func (s *surcharge) say(what EventKind, m *Money, words string) {
	s.snag.Events = append(s.snag.Events, &Event{What: what, Session: m.Session, Date: m.Date, Words: words, Span: m.Line.HeadSpan(), Private: m.Private})
}

// checkSurcharges warns of credits that return more than was charged, or too
// early, and rejects what is said of a surcharge before it is charged.
func (b *Build) checkSurcharges() {
	moves := b.moves(b.Money, b.items)
	charged := map[string]*Money{}
	for _, m := range moves {
		if m.money != nil && !m.money.Credit {
			charged[SurchargeID(m.money.Part)] = m.money
		}
	}
	settleSurcharges(moves, b.Card.Currency, func(m move, flaw source.Flaw) {
		if m.item == nil {
			b.fault(source.Fault{Flaw: flaw, Span: m.money.Line.HeadSpan(), Word: m.money.Part})
		} else if c := charged[m.item.ID]; c != nil {
			b.reject(m.item.Line, source.Fault{Flaw: flaw, Span: m.item.IDSpan, Word: m.item.ID, Other: c.Line.HeadSpan()})
		}
	})
	for _, it := range b.items {
		id := b.ids[it.ID]
		if !it.Bad && id != nil && id.sort == string(FromSurcharge) && it.Kind == "" && !it.Again && charged[it.ID] == nil {
			it.Bad = true // the line that charges it was reported, and this hangs on it
		}
	}
}

// surcharges are the snags of what is to be returned.
func (st *State) surcharges() []*Snag {
	var snags []*Snag
	list := settleSurcharges(st.Build.moves(st.Money, st.items()), st.Build.Card.Currency, func(move, source.Flaw) {})
	for _, s := range list {
		if s.snag.Open {
			st.SurchargeDue = st.SurchargeDue.Add(s.owed)
		}
		snags = append(snags, s.snag)
	}
	return snags
}
