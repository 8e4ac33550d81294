package state

import (
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/source"
	"guidecoat/journal/speech"
)

// A Requirement is one thing that must be so before the vehicle is sold or driven.
type Requirement struct {
	Name  string
	About speech.Phrase // how it stands: that it is met, or that it is not
	Stops []Stop        // what stands in its way; it is met where there is nothing
}

func (r Requirement) Met() bool { return len(r.Stops) == 0 }

// A Stop is one thing that stands in the way, and where it is written.
type Stop struct {
	Text string
	Span source.Span

	Told speech.Phrase // to those who do not write the notes, where that differs
	Snag *Snag         // what it is about, if it is one of the two
	Part *Part
}

// A requirement finds what stands in its way. The errors of the notes are given to it.
type requirement struct {
	name       string
	met, unmet speech.Phrase
	stops      func(st *State, errors []Stop) []Stop
}

var (
	toSell = []requirement{
		{"notes", speech.Of("the notes hold no errors"), speech.Of("the notes hold errors"), func(_ *State, errors []Stop) []Stop { return errors }},
		{"temporary", speech.Of("no temporary fix is left"), speech.Of("a temporary fix is still in place"), openSnags(func(s *Snag) bool { return s.Kind == "temporary" })},
		{"safety", speech.Of("nothing dangerous or major is open, from any source"), speech.Of("something dangerous or major is open"), openSnags(func(s *Snag) bool { return s.Severity >= note.Major })},
		{"minor", speech.Of("what is minor is mended, or will be told to the buyer"), speech.Of("something minor is neither mended nor marked disclose"), openSnags(func(s *Snag) bool {
			return s.Severity < note.Major && !s.Disclose && s.Source != fact.FromSurcharge && s.Source != fact.FromPaper
		})},
		{"parts", speech.Of("no part of a safety system is still to come or to be fitted"), speech.Of("a part of a safety system is still to come or to be fitted"), looseSafetyParts},
		{"money", speech.Of("surcharges have come back or were given up"), speech.Of("a surcharge has neither come back nor been given up"), openSnags(func(s *Snag) bool { return s.Source == fact.FromSurcharge })},
		{"record", speech.Of("identity, odometer and salvage category are stated"), speech.Of("identity, odometer or salvage category is not stated"), missingRecord},
		{"inspection", speech.Of("the newest inspection that is recorded has not failed"), speech.Of("the newest inspection has failed"), failedInspection},
		{"category", speech.Of("no salvage category keeps it off the road"), speech.Of("its salvage category keeps it off the road for good"), neverAgain},
	}
	toDrive = []requirement{
		toSell[0],
		{"dangerous", speech.Of("nothing dangerous is recorded, from any source"), speech.Of("something dangerous is open"), openSnags(func(s *Snag) bool { return s.ToDrive == note.Dangerous })},
		toSell[7],
		{"papers", speech.Of("the papers that are noted allow driving"), speech.Of("a paper does not allow driving"), roadPapers},
		toSell[8],
	}
)

// ToSell judges what selling asks for, in order.
func (st *State) ToSell(errors []Stop) []Requirement { return st.judge(toSell, errors) }

// ToDrive judges what driving asks for, in order.
func (st *State) ToDrive(errors []Stop) []Requirement { return st.judge(toDrive, errors) }

func (st *State) judge(list []requirement, errors []Stop) []Requirement {
	out := make([]Requirement, len(list))
	for i, r := range list {
		out[i] = Requirement{Name: r.name, About: r.met, Stops: r.stops(st, errors)}
		switch {
		case !out[i].Met():
			out[i].About = r.unmet
		case len(errors) > 0: // what stands in a line that was left out may be what stops
			out[i].About = speech.Of("%s, as far as the notes can be read", r.met)
		}
	}
	return out
}

func openSnags(stops func(*Snag) bool) func(*State, []Stop) []Stop {
	return func(st *State, _ []Stop) []Stop {
		var list []Stop
		for _, s := range st.Snags {
			if s.Open && stops(s) {
				list = append(list, Stop{Text: s.Label(), Span: s.Span, Snag: s})
			}
		}
		return list
	}
}

func (s *Snag) Label() string {
	words := s.PlainWords()
	if s.ID == "" || strings.HasPrefix(words, s.ID) {
		return words
	}
	return strings.TrimSuffix(s.ID+": "+words, ": ")
}

func looseSafetyParts(st *State, _ []Stop) []Stop {
	var list []Stop
	for _, p := range st.Parts {
		if p.IsSafety() && !p.Fitted() && !fact.EndsRound(p.State) {
			list = append(list, Stop{Text: p.ID + " is " + p.State + ": " + p.Description, Span: p.Span(), Part: p})
		}
	}
	return list
}

// failedInspection tells of the newest inspection, while it has failed.
func failedInspection(st *State, _ []Stop) []Stop {
	newest := st.NewestInspection()
	if newest == nil || newest.Passed {
		return nil
	}
	told := speech.Of("the inspection of %s failed", newest.Session.Date)
	stop := Stop{Text: told.String(), Told: told, Span: newest.Line.HeadSpan()}
	if newest.By != "" {
		stop.Text += ", by " + newest.By
	}
	return []Stop{stop}
}

// NewestInspection is the last official one; nil where none is recorded.
func (st *State) NewestInspection() *journal.Inspection {
	if len(st.Inspections) == 0 {
		return nil
	}
	return st.Inspections[len(st.Inspections)-1]
}

// neverAgain tells of a salvage category that no repair lifts.
func neverAgain(st *State, _ []Stop) []Stop {
	d, _ := st.Build.Card.Detail("category")
	s := journal.SalvageOf(d.Value)
	if s == nil || !s.Never {
		return nil
	}
	told := speech.Of("category %s: %s; such a vehicle is a donor", s.Letter, speech.Term(s.Means))
	return []Stop{{Text: told.String(), Told: told, Span: d.Line.Text.Whole()}}
}

// missingRecord tells what the buyer must know and the card does not say.
func missingRecord(st *State, _ []Stop) []Stop {
	card := st.Build.Card
	top := card.Note.File.Span(0, 0)
	if f := card.Note.Field("vehicle"); f != nil {
		top = f.KeySpan
	}
	named := func(names ...string) bool {
		return slices.ContainsFunc(names, func(name string) bool {
			d, _ := card.Detail(name)
			return d.Value != ""
		})
	}
	var list []Stop
	if !named("vin", "registration") {
		list = append(list, Stop{Text: "the card states neither vin nor registration", Span: top, Told: speech.Of("neither VIN nor registration is stated")})
	}
	if st.Odometer == nil && !named("odometer", "mileage") {
		list = append(list, Stop{Text: "no note states the odometer", Span: top, Told: speech.Of("the odometer is not stated")})
	}
	if !named("category") {
		list = append(list, Stop{Text: "the card does not state the salvage category; write \"category: none\" where there is none", Span: top, Told: speech.Of("the salvage category, or that there is none, is not stated")})
	}
	return list
}

// roadPapers are what stands in the way of driving by the papers.
func roadPapers(st *State, _ []Stop) []Stop {
	var list []Stop
	for _, p := range st.papers() {
		switch {
		case p.Road == nil:
		case !*p.Road:
			list = append(list, Stop{Text: p.Name + " does not allow driving", Span: p.At})
		case p.Until < st.Today:
			list = append(list, Stop{Text: p.Name + " ran out on " + p.Until.String(), Span: p.At})
		}
	}
	return list
}
