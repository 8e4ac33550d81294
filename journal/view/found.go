package view

import (
	"cmp"
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/speech"
	"guidecoat/journal/state"

	"github.com/shopspring/decimal"
)

// viewSnags takes in the snags that are shown. What is private and grave is told as withheld.
func (v *viewer) viewSnags(out *View) {
	for _, s := range v.st.Snags {
		if s.Source == fact.FromPaper && !v.business {
			continue
		}
		if s.Private && !v.private || v.hidden[s.ID] {
			v.countUnseen(out, s)
			continue
		}
		if !v.snagsSeen {
			continue
		}
		w := v.snag(s)
		v.snags[s], out.Snags = w, append(out.Snags, w)
		if s.ID != "" {
			out.snags[s.ID] = w
		}
		out.Safety = out.Safety || note.IsSafety(s.System)
	}
}

func (v *viewer) countUnseen(out *View, s *state.Snag) {
	switch {
	case !v.snagsSeen:
	case s.Open:
		out.UnseenOpen++
	default:
		out.UnseenCleared++
	}
	if v.withheld && s.Open && s.Severity >= note.Major {
		out.Withheld[s.Severity]++
	}
}

// told is what the program says of a snag for readers who do not know the ids.
func told(v *viewer, p speech.Phrase) speech.Phrase {
	return p.With(func(a any) any {
		switch a := a.(type) {
		case speech.Name:
			return speech.Called(a)
		case speech.Part:
			if p := v.parts[string(a)]; p != nil && p.Description != "" {
				return speech.Quote(p.Description)
			}
		}
		return a
	})
}

// label is what a snag is called where its id does not stand beside it.
func (v *viewer) label(s *state.Snag) string {
	words := s.Words
	if s.ID == "" || s.Source != fact.FromNote && s.Source != fact.FromInspection {
		return words
	}
	plain := strings.ToLower(note.PlainWords(words))
	for word := range strings.SplitSeq(s.ID, "-") {
		if len(word) > 2 && !strings.Contains(plain, strings.TrimSuffix(word, "s")) {
			return strings.TrimSuffix(strings.ReplaceAll(s.ID, "-", " ")+": "+words, ": ")
		}
	}
	return words
}

func (v *viewer) snag(s *state.Snag) *SnagView {
	if v.shown != nil { // it is only asked whether it is shown
		return &SnagView{}
	}
	w := &SnagView{Snag: s.Snag, Session: v.names[s.Session], Note: s.Span.File.Path, Line: s.Line(), of: s.Part}
	if s.Said.Some() {
		w.Tell(told(v, s.Said))
	}
	w.Text = w.Words
	if !s.Said.Some() {
		w.Words = v.label(s)
	}
	if v.private {
		w.Typed = s.Words
	} else {
		w.NotBefore, w.WaitsFor = nil, slices.DeleteFunc(slices.Clone(s.WaitsFor), func(id string) bool { return v.hidden[id] })
	}
	amountless := s.Source == fact.FromSurcharge && v.untold[s.Part]
	if amountless {
		w.Tell(speech.Of("surcharge on an exchange part, to come back for the old one"))
		w.Text = w.Words
	}
	for _, e := range s.Events {
		if e.Private && !v.private {
			continue
		}
		var photos []string
		if e.Item != nil {
			photos = v.photos(e.Item.Line, dirOf(e.Session.Path))
		}
		words, said := e.Words, told(v, e.Said)
		if e.What == fact.Cleared && s.Asks != nil {
			said = asked(words, s.Asks)
		}
		if said.Some() {
			words = said.String()
		}
		if amountless {
			words, said = "", speech.Phrase{}
		}
		picture, file := v.attached(e)
		w.Events = append(w.Events, EventView{e.What, e.Date, v.names[e.Session], words, said, photos, e.Item != nil && e.Item.Ticked, picture, file})
	}
	if by := s.ClearedBy(); by != nil {
		w.ClearedIn = v.names[by.Session]
		if v.private || !by.Private {
			w.ClearedAt, w.ClearedRow = by.Span.File.Path, by.Span.Begin().Line
		}
	}
	return w
}

func (v *viewer) viewParts(out *View) {
	defer v.sumParts()
	for _, p := range v.st.Parts {
		q := p
		if !v.private && p.Private {
			if q = v.st.PartOf(p, slices.DeleteFunc(slices.Clone(p.Lines), func(pl *journal.PartLine) bool { return pl.Private })); q == nil {
				continue
			}
		}
		w := v.part(q)
		v.parts[w.ID], out.Parts = w, append(out.Parts, w)
		out.Safety = out.Safety || q.IsSafety()
	}
}

func (v *viewer) viewDonors(out *View) {
	for _, d := range v.st.Donors() {
		if !v.business {
			if !slices.ContainsFunc(out.Parts, func(p *PartView) bool { return p.Donor == d.Name }) {
				continue
			}
			d = fact.Donor{Name: d.Name, Category: d.Category}
		}
		out.Donors = append(out.Donors, d)
	}
}

// sumParts adds up what parts cost, unless the audience may not know of some of that money.
func (v *viewer) sumParts() {
	for _, m := range v.st.Money {
		p := v.parts[m.Part]
		if !v.lines || !v.moneySeen(m) {
			v.untold[m.Part] = true
			if p != nil {
				p.PaidInRound = false
			}
			continue
		}
		if p == nil {
			continue
		}
		*p.Paid = p.Paid.Add(m.ForPart())
		if m.Credit && m.Category == "surcharge" && (v.private || !m.Private) {
			p.SurchargeBack = p.SurchargeBack.Add(m.Sum.Build)
		}
	}
}

func (v *viewer) part(p *state.Part) *PartView {
	last := p.Span()
	w := &PartView{Part: p.Part, Note: last.File.Path, Line: last.Begin().Line}
	if !v.suppliers || p.Bought != nil && !v.whole && v.ofBuying(p.Bought) {
		w.Supplier = ""
	}
	w.Paid = nil
	if v.lines {
		w.Paid = new(decimal.Decimal) // of the money that is shown
	} else {
		w.PaidInRound = false
	}
	if !v.whole {
		w.Estimate = nil
	}
	if !v.business {
		w.Worth = nil
	}
	for _, pl := range p.Lines {
		v.shows(pl.Line, pl.Line.Words(), textOf(pl.Line, "number"), textOf(pl.Line, "donor"))
		w.Events = append(w.Events, v.partEvent(pl, p.Description))
	}
	return w
}

func (v *viewer) partEvent(pl *journal.PartLine, description string) PartEvent {
	e := PartEvent{ID: pl.ID, Description: description, State: pl.State, Date: pl.Session.Date, Session: v.names[pl.Session], Remark: pl.Remark,
		Photos: v.photos(pl.Line, dirOf(pl.Session.Path))}
	if fact.Reached(pl.State, "fitted") && pl.Asks != nil {
		e.Said = asked(pl.Remark, pl.Asks)
		e.Remark = e.Said.String()
	}
	return e
}

// asked says behind words which checks the work was said to ask for, unless by the table.
func asked(words string, asks note.Asks) speech.Phrase {
	p := speech.Of("needs no check, by the notes")
	if len(asks) > 0 {
		p = speech.Of("needs only these checks, by the notes: %s", strings.Join(asks, ", "))
	}
	if words == "" {
		return speech.Of("(%s)", p)
	}
	return speech.Of("%s (%s)", words, p)
}

// check is what the audience may see of a check or an inspection, nil where it may see nothing.
func (v *viewer) check(s *journal.Session, l *note.Line, private bool, at *measure.Quantity, by string) *CheckView {
	if !v.counts(s) || private && !v.private {
		return nil
	}
	w := &CheckView{Date: s.Date, Session: v.names[s], Words: l.Words().S}
	v.shows(l, l.Words())
	if at != nil {
		w.At = at.String()
	}
	if v.by {
		w.By = by
	}
	if v.receipts { // a photo of a check is mostly one of its certificate
		w.Photos = v.photos(l, dirOf(s.Path))
		w.Receipt, _ = note.Arg[string](l, "receipt")
		v.use(w.Receipt, dirOf(s.Path))
	}
	return w
}

func (v *viewer) viewMeasured(out *View) {
	b := v.st.Build
	rules := b.DueRules()
	for _, c := range b.Checks {
		if w := v.check(c.Session, c.Line, c.Private, c.At, c.By); w != nil {
			w.Name, w.Result, w.System = c.Name, c.Told(), c.System
			w.Inspection = c.Name == journal.RoadworthinessTest
			for _, r := range rules {
				if r.Name == c.Name {
					w.covers = append(w.covers, r.Systems...)
				}
			}
			out.Checks = append(out.Checks, w)
			out.Safety = out.Safety || note.IsSafety(c.System)
		}
	}
	for _, i := range v.st.Inspections {
		if i.Line.Name != "" {
			continue // one that is a check is there
		}
		if w := v.check(i.Session, i.Line, i.Private, i.At, i.By); w != nil {
			w.Name, w.Result, w.Until, w.Inspection = "official-inspection", i.Told(), i.Until, true
			out.Checks = append(out.Checks, w)
		}
	}
	slices.SortStableFunc(out.Checks, func(a, b *CheckView) int { return cmp.Compare(a.Date, b.Date) })
	for _, r := range b.Readings {
		if v.counts(r.Session) && (v.private || !r.Private) {
			v.shows(r.Line, r.Line.Words())
			out.Readings = append(out.Readings, &ReadingView{Name: r.Name, Date: r.Session.Date, Session: v.names[r.Session], Value: r.Value,
				Limits: r.Limits, Severity: r.Severity, System: r.System, Words: r.Line.Words().S})
			out.Safety = out.Safety || note.IsSafety(r.System)
		}
	}
	for _, s := range b.Scans {
		if v.counts(s.Session) && (v.private || !s.Session.Private) {
			out.Scans = append(out.Scans, &ScanView{Unit: s.Name, Date: s.Session.Date, Session: v.names[s.Session], NoFaults: s.NoFaults, Codes: s.Codes})
		}
	}
}
