package state

import (
	"cmp"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"

	"github.com/shopspring/decimal"
)

// A Part is a part as it stood, with the lines that tell of it.
type Part struct {
	fact.Part
	Lines   []*journal.PartLine
	Private bool
	// Bought is the cost that Supplier is known from; nil where a line of the part says it.
	Bought *journal.Money

	roundStart measure.Date
	// ownBack says that a round ended without the part and the vehicle's own was then
	// refitted: it is not what had been bought.
	ownBack bool
}

// partsAt works out how every part stood on the date of the state, in the order in
// which they were declared.
func (st *State) partsAt() {
	byID := map[string]*Part{}
	for _, pl := range st.Build.PartLines {
		if !st.Counts(pl.Session.Date) {
			continue
		}
		p := byID[pl.ID]
		if p == nil {
			p = newPart(pl)
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
func (st *State) PartOf(lines []*journal.PartLine) *Part {
	if len(lines) == 0 {
		return nil
	}
	p := newPart(lines[0])
	for _, pl := range lines {
		p.take(pl)
	}
	p.finish(st)
	return p
}

// newPart begins a part with its first line, which describes it. Where no line
// says otherwise it belongs to the stage of that line's session.
func newPart(pl *journal.PartLine) *Part {
	return &Part{Part: fact.Part{ID: pl.ID, Description: cmp.Or(pl.Description, strings.ReplaceAll(pl.ID, "-", " ")), Stage: pl.Session.Stage, Paid: new(decimal.Decimal)}}
}

// finish settles what depends on all lines or on the day.
func (p *Part) finish(st *State) {
	if p.System == "" {
		p.System = st.Build.SystemOf(p.Stage)
	}
	p.Late = p.Waited() && p.Due != 0 && p.Due < st.Today
}

// take brings one line into the part.
func (p *Part) take(pl *journal.PartLine) {
	l := pl.Line
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
	if e, ok := note.Arg[[3]decimal.Decimal](l, "estimate"); ok {
		p.Estimate = &e
	}
	note.Set(&p.Stage, l, "stage")
	note.Set(&p.System, l, "system")
	note.Set(&p.Supplier, l, "from")
	note.Set(&p.Number, l, "number")
	note.Set(&p.Donor, l, "donor")
	if worth, ok := note.Arg[decimal.Decimal](l, "worth"); ok {
		p.Worth = &worth
	}
	note.Set(&p.Due, l, "due")
	note.Set(&p.Warranty, l, "warranty")
}

// newRound begins a round. The vehicle's own part that goes back on has nothing of
// what was to be bought in its place.
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
