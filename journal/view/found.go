package view

import (
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/fact"
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
