package state

import (
	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/speech"

	"github.com/shopspring/decimal"
)

type surcharge struct {
	amount decimal.Decimal // charged since it was last opened
	owed   decimal.Decimal
	snag   *Snag
}

// surchargesDue are the snags of what is to be returned, in order of their first charge.
func surchargesDue(st *State) []*Snag {
	var list []*surcharge
	byID := map[string]*surcharge{}
	for _, m := range st.Build.Moves {
		if !st.Counts(m.Date) {
			break
		}
		s := byID[m.ID()]
		if s == nil {
			s = &surcharge{snag: &Snag{Snag: fact.Snag{ID: m.ID(), Source: fact.FromSurcharge}, Part: m.Money.Part}}
			s.snag.Severity, s.snag.Stage = note.Minor, m.Money.Stage
			byID[m.ID()] = s
			list = append(list, s)
		}
		s.take(m)
	}
	var snags []*Snag
	for _, s := range list {
		c, part := st.Build.Card.Currency, speech.Part(s.snag.Part)
		s.snag.Tell(speech.Of("surcharge of %s on %s, to come back for the old part", speech.Money(s.amount, c), part))
		if s.snag.Open && s.owed.LessThan(s.amount) {
			s.snag.Tell(speech.Of("%s of the surcharge of %s on %s, to come back for the old part", speech.Money(s.owed, c), speech.Money(s.amount, c), part))
		}
		if s.snag.Open {
			st.SurchargeDue = st.SurchargeDue.Add(s.owed)
		}
		snags = append(snags, s.snag)
	}
	return snags
}

func (s *surcharge) take(m *journal.Move) {
	s.owed = m.Owed
	what := fact.Remarked
	switch {
	case m.Money != nil && !m.Money.Credit:
		what = s.charge(m.Money)
	case s.snag.Open && !s.owed.IsPositive():
		s.snag.Open, s.snag.Cleared, what = false, m.Date, fact.Cleared
	}
	if m.Item != nil {
		if what == fact.Cleared || !m.Item.Ticked {
			s.snag.say(what, m.Item)
		}
		return
	}
	s.snag.Events = append(s.snag.Events, &Event{What: what, Session: m.Money.Session, Date: m.Date, Words: m.Money.Description(),
		Span: m.Money.Line.HeadSpan(), Private: m.Money.Private})
}

func (s *surcharge) charge(m *journal.Money) fact.EventKind {
	what := fact.Remarked
	if !s.snag.Open {
		s.snag.Opened, s.snag.Span, s.snag.Session = m.Date, m.Line.HeadSpan(), m.Session
		s.snag.Open, s.snag.Cleared, s.snag.Due, s.amount = true, 0, 0, decimal.Zero
		if what = fact.Opened; len(s.snag.Events) > 0 {
			what = fact.Reopened
		}
	}
	s.amount = s.amount.Add(m.Surcharge)
	if m.Due != 0 {
		s.snag.Due = m.Due
	}
	s.snag.Private = s.snag.Private || m.Private
	return what
}
