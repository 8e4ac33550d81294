// Package state works out how a build stood on one date. Every figure that is shown is computed here, once.
package state

import (
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/measure"

	"github.com/shopspring/decimal"
)

// A State is how a build stood on one date: what is dated on or before it counts.
type State struct {
	Build *journal.Build
	// AsOf is the date asked about; 0 where every note counts.
	AsOf measure.Date
	// Today is what lateness is told against: AsOf, else the day of the caller.
	Today measure.Date

	Sessions []*journal.Session
	Money    []*journal.Money
	Work     []*journal.Work
	Parts    []*Part // in the order of their declaration
	// Inspections are the official ones; the newest is the last.
	Inspections []*journal.Inspection
	// Fasteners are those of the card, in its order.
	Fasteners []*Fastener
	Snags     []*Snag           // worst first, then oldest, then by id
	Sale      *journal.Sale     // the price agreed; nil while it is not sold
	Account   *journal.Account  // of the sale; nil where no line tells of one
	Odometer  *measure.Quantity // the newest one; nil where there is none

	// SurchargeDue is what was charged for old parts and is still to come back.
	SurchargeDue decimal.Decimal

	ChecksToTell []CheckToTell

	partByID map[string]*Part
	snagByID map[string]*Snag
}

// At returns how the build stood on asOf (0: with every note); lateness is against today.
func At(b *journal.Build, asOf, today measure.Date) *State {
	st := &State{Build: b, AsOf: asOf, Today: today}
	if asOf != 0 {
		st.Today = asOf
	}
	st.Sessions = counting(st, b.Sessions, func(s *journal.Session) measure.Date { return s.Date })
	if n := len(st.Sessions); n > 0 {
		st.Odometer = st.Sessions[n-1].Running
	}
	st.Inspections = counting(st, b.Inspections, func(i *journal.Inspection) measure.Date { return i.Session.Date })
	st.Money = counting(st, b.Money, func(m *journal.Money) measure.Date { return m.Date })
	st.Money = append(st.Money, st.donorShares()...)
	st.Work = counting(st, b.Work, func(w *journal.Work) measure.Date { return w.Session.Date })
	for _, s := range b.Sales {
		if st.Counts(s.Date) {
			if st.Account == nil {
				st.Account = &journal.Account{}
			}
			st.Account.Take(s)
			st.Sale = st.Account.Agreed
		}
	}
	st.partsAt()
	st.snagsAt()
	return st
}

// counting are those of a list that count, by their dates.
func counting[T any](st *State, list []T, on func(T) measure.Date) []T {
	if st.AsOf == 0 {
		return slices.Clip(list) // whatever is added is not added to the build's
	}
	return slices.DeleteFunc(slices.Clone(list), func(x T) bool { return !st.Counts(on(x)) })
}

// Counts tells whether what is dated so counts.
func (st *State) Counts(d measure.Date) bool { return st.AsOf == 0 || d <= st.AsOf }

// Snag returns the snag of that id as it stood, or nil.
func (st *State) Snag(id string) *Snag { return st.snagByID[id] }

// Part returns the part of that id as it stood, or nil.
func (st *State) Part(id string) *Part { return st.partByID[id] }
