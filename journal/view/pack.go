package view

import (
	"slices"

	"guidecoat/journal/note"
	"guidecoat/journal/speech"
	"guidecoat/journal/state"
)

// A HandoverView is what the audience may see of the requirements for selling and for
// driving.
type HandoverView struct {
	Cleared      bool // for selling
	Requirements []RequirementView
	Drivable     bool
	ToDrive      []RequirementView
	NotRecorded  []speech.Phrase // what the record is silent about
}

// A RequirementView is a requirement with what stands in its way. What may not be read
// about is in Withheld by its severity alone.
type RequirementView struct {
	Name     string
	About    speech.Phrase
	Met      bool
	Stops    []StopView
	Withheld map[note.Severity]int
}

// A StopView is one thing that stands in the way: a snag, a part, or what its words say.
type StopView struct {
	Words string        // plain
	Said  speech.Phrase // the same, where they are the program's own
	Snag  *SnagView
	Part  *PartView
	Note  string // where it is written, for those who write the notes
	Line  int
}

// AllMet tells whether nothing stands in the way of any of them.
func AllMet(list []RequirementView) bool {
	return !slices.ContainsFunc(list, func(r RequirementView) bool { return !r.Met })
}

// ForHandover returns the view together with how it stands against the requirements for
// selling and for driving, where the notes hold such errors.
func ForHandover(st *state.State, to Audience, errors []state.Stop) *View {
	v := newViewer(st, to)
	out := v.view()
	sell, drive := v.requirements(st.ToSell(errors)), v.requirements(st.ToDrive(errors))
	silent := st.NotRecorded()
	for i := range silent {
		if !v.private {
			silent[i] = told(v, silent[i])
		}
	}
	out.Handover = &HandoverView{AllMet(sell), sell, AllMet(drive), drive, silent}
	return out
}

// forBuyers words what the builder is told of them: that it is met, or that it is not.
var forBuyers = map[string]map[bool]speech.Phrase{"minor": {true: speech.Of("what is minor is mended, or told in this record"), false: speech.Of("something minor is still to be mended")}}

func (v *viewer) requirements(list []state.Requirement) []RequirementView {
	var out []RequirementView
	for _, r := range list {
		if r.Name == "papers" && !v.business {
			continue // what the trader is insured for is no matter of the buyer's
		}
		w := RequirementView{Name: r.Name, About: r.About, Met: r.Met(), Withheld: map[note.Severity]int{}}
		if words := forBuyers[r.Name][w.Met]; words.Some() && !v.private {
			w.About = words
		}
		for _, stop := range r.Stops {
			if stop.Snag != nil && v.snags[stop.Snag] == nil {
				w.Withheld[stop.Snag.Severity]++
				continue
			}
			w.Stops = append(w.Stops, stopSeen(v, stop))
		}
		out = append(out, w)
	}
	return out
}

// stopSeen tells what stands in the way as far as the lines that are shown do.
func stopSeen(v *viewer, s state.Stop) StopView {
	switch {
	case v.private:
		return StopView{Words: s.Text, Note: s.Span.File.Path, Line: s.Span.Begin().Line}
	case s.Snag != nil:
		w := v.snags[s.Snag]
		return StopView{Words: note.PlainWords(w.Words), Said: w.Said, Snag: w}
	case s.Part != nil:
		if p := v.parts[s.Part.ID]; p != nil && p.State == s.Part.State {
			return stopOf(speech.Of("%s: %s", p.Description, speech.Term(p.State)), p)
		}
		return stopOf(speech.Of("a part that is not described here"), nil)
	case s.Told.Some():
		return stopOf(s.Told, nil)
	}
	return StopView{Words: s.Text}
}

func stopOf(p speech.Phrase, part *PartView) StopView {
	return StopView{Words: p.String(), Said: p, Part: part}
}
