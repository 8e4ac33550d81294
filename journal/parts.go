package journal

import (
	"guidecoat/journal/measure"
	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// The flaws of parts.
const (
	UndescribedPart source.Flaw = "undescribed-part"
	PartBackwards   source.Flaw = "part-backwards"
	IDTaken         source.Flaw = "id-taken"
	NearPart        source.Flaw = "near-part"
)

// A PartLine is one line in which a part changes state.
type PartLine struct {
	Session *Session
	Line    *note.Line
	ID      string
	State   string
	Remark  string // "" on the declaring line, whose words describe the part
	Private bool
}

// A Part is a part as it stood on the date of a [State].
type Part struct {
	ID          string
	Description string
	Lines       []*PartLine
	State       string
	Since       measure.Date // of its state
	Stage       string       // "" where it belongs to none
	System      string
	Condition   string
	Origin      string
	Estimate    *[3]decimal.Decimal
	Supplier    string
	Number      string
	Donor       string
	Due         measure.Date
	Warranty    measure.Date
	Free        bool
	Private     bool
	// Paid is the build's part of its costs less its refunds.
	Paid decimal.Decimal
	// PaidInRound says that a cost is dated in the round it is in. Its estimate is
	// then used up.
	PaidInRound bool
	Late        bool // due before the date of the State, and not here yet

	roundStart measure.Date
	// ownBack says that a round ended without the part and the vehicle's own was then
	// refitted: it is not what had been bought.
	ownBack bool
}

// rank orders the states that go forward only. Refitted stands beside fitted.
var rank = map[string]int{"needed": 1, "ordered": 2, "arrived": 3, "fitted": 4, "refitted": 4}

// endsRound tells whether the part is gone in that state.
func endsRound(state string) bool { return rank[state] == 0 }

// Waited tells whether the part is still to come: needed or ordered.
func (p *Part) Waited() bool { return p.State == "needed" || p.State == "ordered" }

// InHand tells whether the part is here or on the vehicle.
func (p *Part) InHand() bool { return rank[p.State] >= rank["arrived"] }

// Fitted tells whether the part is on the vehicle.
func (p *Part) Fitted() bool { return rank[p.State] == rank["fitted"] }

// declareParts reads all lines of parts, in order, before anything refers to them.
func (b *Build) declareParts() {
	for _, r := range b.DueRules() { // the table of checks due comes first
		b.identify(r.Name, &identity{sort: checkSort})
	}
	state := map[string]string{}
	for _, s := range b.Sessions {
		for _, l := range s.Note.Lines {
			if l.Kind.Key == "parts" && note.IsID(l.Name) {
				b.declarePart(s, l, state)
			}
		}
	}
	b.declareDerived()
}

func (b *Build) declarePart(s *Session, l *note.Line, state map[string]string) {
	known := b.ids[l.Name]
	first := known == nil && !b.badID[l.Name]
	b.checkNames(l)
	if known != nil && known.sort != partSort {
		l.Bad = true
		if !b.badID[l.Name] { // said once
			b.fault(source.Fault{Flaw: IDTaken, Span: l.NameSpan(), Word: l.Name, Why: known.sort, Other: known.span})
		}
	}
	if known == nil {
		b.keepSnag(s, l, l.Name, l.NameSpan())
	}
	if !l.Bad && first && l.Words().S == "" {
		b.reject(l, source.Fault{Flaw: UndescribedPart, Span: l.NameSpan(), Word: l.Name, Near: oneOrNone(b.near.parts.Nearest(l.Name))})
	}
	if l.Bad {
		b.badID[l.Name] = true
		return
	}
	if known == nil {
		if like := b.near.parts.Nearest(l.Name); near.IsSlip(like, l.Name) {
			b.fault(source.Fault{Flaw: NearPart, Span: l.NameSpan(), Word: l.Name, Near: []string{like}})
		}
		known = &identity{sort: partSort, span: l.NameSpan()}
		b.identify(l.Name, known)
	}
	if stage, ok := note.Arg[string](l, "stage"); ok {
		known.stage = stage
	}
	p := &PartLine{Session: s, Line: l, ID: l.Name, State: l.Head.(string), Private: s.Private || l.Has("private")}
	if known.span != l.NameSpan() {
		p.Remark = l.Words().S
	}
	if was := rank[state[p.ID]]; was > rank[p.State] && !endsRound(p.State) {
		b.fault(source.Fault{Flaw: PartBackwards, Span: l.HeadSpan(), Word: p.State, Why: state[p.ID]})
	}
	state[p.ID] = p.State
	b.partLines = append(b.partLines, p)
}

// partsAt works out how every part stood on the date of the state, in the order in
// which they were declared.
func (st *State) partsAt() {
	byID := map[string]*Part{}
	for _, pl := range st.Build.partLines {
		if !st.counts(pl.Session.Date) {
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

// newPart begins a part with its first line, which describes it. Where no line
// says otherwise it belongs to the stage of that line's session.
func newPart(pl *PartLine) *Part {
	p := &Part{ID: pl.ID, Description: pl.Line.Words().S, Stage: pl.Session.Stage}
	if p.Description == "" { // the line that described it is in error
		p.Description = pl.ID
	}
	return p
}

// finish settles what depends on all lines or on the day.
func (p *Part) finish(st *State) {
	if p.System == "" {
		p.System = st.Build.systemOf(p.Stage)
	}
	p.Late = p.Waited() && p.Due != 0 && p.Due < st.Today
}

// take brings one line into the part.
func (p *Part) take(pl *PartLine) {
	l := pl.Line
	if p.State != "" && endsRound(p.State) && !endsRound(pl.State) {
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
	set(&p.Stage, l, "stage")
	set(&p.System, l, "system")
	set(&p.Supplier, l, "from")
	set(&p.Number, l, "number")
	set(&p.Donor, l, "donor")
	set(&p.Due, l, "due")
	set(&p.Warranty, l, "warranty")
}

// newRound begins a round. The vehicle's own part that goes back on has nothing of
// what was to be bought in its place.
func (p *Part) newRound(pl *PartLine) {
	p.roundStart, p.Due = pl.Session.Date, 0
	if p.ownBack = pl.State == "refitted"; p.ownBack {
		p.Condition, p.Origin, p.Supplier, p.Number, p.Donor, p.Warranty = "", "", "", "", "", 0
	}
}

func set[T any](to *T, l *note.Line, clause string) {
	if v, ok := note.Arg[T](l, clause); ok {
		*to = v
	}
}

func (p *Part) pay(m *Money) {
	switch {
	case !m.Credit:
		p.Paid = p.Paid.Add(m.Sum.Build)
		p.PaidInRound = p.PaidInRound || m.Date >= p.roundStart
		if p.Supplier == "" && !m.Private && (!p.ownBack || m.Date >= p.roundStart) {
			p.Supplier = m.Supplier()
		}
	case m.Category == "refund":
		p.Paid = p.Paid.Sub(m.Sum.Build)
	}
}
