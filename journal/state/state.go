// Package state works out how a build stood on one date. Every figure that is shown is computed here, once.
package state

import (
	"cmp"
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/source"

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

// A Part is a part as it stood, with the lines that tell of it.
type Part struct {
	fact.Part
	Lines   []*journal.PartLine
	Private bool
	// Bought is the cost that Supplier is known from; nil where a line of the part says it.
	Bought *journal.Money

	// Fired is where the card says that it has fired; nil of any other part.
	Fired *source.Span

	own        string // the system that its lines name themselves
	roundStart measure.Date
	// ownBack says that a round ended without the part, and the vehicle's own was refitted.
	ownBack bool
}

// partsAt works out how every part stood, in the order of their declarations.
func (st *State) partsAt() {
	byID := map[string]*Part{}
	for _, f := range st.Build.Card.Fired() {
		if len(st.Sessions) > 0 { // nobody has looked at it before
			byID[f.Part] = newPart(f.Part)
			byID[f.Part].own, byID[f.Part].State, byID[f.Part].Since, byID[f.Part].Fired = "restraints", "needed", st.Sessions[0].Date, &f.Span
			st.Parts = append(st.Parts, byID[f.Part])
		}
	}
	for _, pl := range st.Build.PartLines {
		if !st.Counts(pl.Session.Date) {
			continue
		}
		p := byID[pl.ID]
		if p == nil {
			p = newPart(pl.ID)
			byID[pl.ID] = p
			st.Parts = append(st.Parts, p)
		}
		p.take(pl)
	}
	for _, m := range st.Money {
		if p := byID[m.Part]; p != nil {
			p.pay(m)
		}
	}
	for _, p := range st.Parts {
		p.finish(st)
	}
	st.partByID = byID
}

// PartOf is the part that some of its lines tell of, nil where there are none.
func (st *State) PartOf(of *Part, lines []*journal.PartLine) *Part {
	if len(lines) == 0 {
		return nil
	}
	p := newPart(of.ID)
	if p.Fired = of.Fired; p.Fired != nil {
		p.own = "restraints"
	}
	for _, pl := range lines {
		p.take(pl)
	}
	p.finish(st)
	return p
}

func newPart(id string) *Part {
	return &Part{Part: fact.Part{ID: id, Description: strings.ReplaceAll(id, "-", " "), Paid: new(decimal.Decimal)}}
}

// Span is the line that says how the part stands.
func (p *Part) Span() source.Span {
	if len(p.Lines) == 0 {
		return *p.Fired
	}
	return p.Lines[len(p.Lines)-1].Line.HeadSpan()
}

func (p *Part) finish(st *State) {
	add := func(systems ...string) {
		for _, s := range systems {
			if s != "" && !slices.Contains(p.Systems, s) {
				p.Systems = append(p.Systems, s)
			}
		}
	}
	if add(p.own); p.own == "" {
		add(st.Build.SystemOf(p.Stage))
	}
	for _, pl := range p.Lines {
		if onVehicle(pl.State) {
			add(p.touched(st.Build, pl)...)
		}
	}
	if p.Systems != nil {
		p.System = p.Systems[0]
	}
	p.Late = p.Waited() && p.Due != 0 && p.Due < st.Today
}

func onVehicle(state string) bool { return state == "fitted" || state == "refitted" }

// touched are the systems that fitting the part works on: its own, or its stage's and that of where it was fitted.
func (p *Part) touched(b *journal.Build, pl *journal.PartLine) []string {
	if p.own != "" {
		return []string{p.own}
	}
	where := pl.Session.Stage
	note.Set(&where, pl.Line, "stage")
	var list []string
	for _, stage := range []string{p.Stage, where} {
		if s := b.SystemOf(stage); s != "" && !slices.Contains(list, s) {
			list = append(list, s)
		}
	}
	return list
}

// IsSafety tells whether the part touches a safety system.
func (p *Part) IsSafety() bool { return slices.ContainsFunc(p.Systems, note.IsSafety) }

func (p *Part) take(pl *journal.PartLine) {
	l := pl.Line
	if len(p.Lines) == 0 { // which describes it, and may give it a stage
		p.Stage, p.Description = pl.Session.Stage, cmp.Or(pl.Description, p.Description)
	}
	if p.State != "" && fact.EndsRound(p.State) && !fact.EndsRound(pl.State) {
		p.newRound(pl)
	}
	if p.State != pl.State {
		p.Since = pl.Session.Date
	}
	p.State = pl.State
	p.Lines = append(p.Lines, pl)
	p.Private = p.Private || pl.Private
	p.Free = p.Free || l.Has("free")
	if c := l.Choice("condition"); c != nil {
		p.Condition = c.Word
	}
	if c := l.Choice("origin"); c != nil {
		p.Origin = c.Word
	}
	note.SetPointer(&p.Estimate, l, "estimate")
	note.Set(&p.Stage, l, "stage")
	note.Set(&p.own, l, "system")
	note.Set(&p.Supplier, l, "from")
	note.Set(&p.Number, l, "number")
	note.Set(&p.Donor, l, "donor")
	note.SetPointer(&p.Worth, l, "worth")
	note.Set(&p.Due, l, "due")
	note.Set(&p.Warranty, l, "warranty")
}

// newRound begins a round. The vehicle's own part has nothing of what was to be bought in its place.
func (p *Part) newRound(pl *journal.PartLine) {
	p.roundStart, p.Due, p.Donor, p.Worth = pl.Session.Date, 0, "", nil
	if p.ownBack = pl.State == "refitted"; p.ownBack {
		p.Condition, p.Origin, p.Supplier, p.Number, p.Warranty = "", "", "", "", 0
	}
}

func (p *Part) pay(m *journal.Money) {
	*p.Paid = p.Paid.Add(m.ForPart())
	if m.Credit {
		return
	}
	p.PaidInRound = p.PaidInRound || m.Date >= p.roundStart
	if p.Supplier == "" && !m.Private && (!p.ownBack || m.Date >= p.roundStart) {
		p.Supplier, p.Bought = m.Supplier(), m
	}
}
