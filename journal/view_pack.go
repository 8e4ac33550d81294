package journal

import "guidecoat/journal/note"

// A HandoverView is what the buyer may see of the requirements for selling.
type HandoverView struct {
	Cleared      bool
	Requirements []RequirementView
}

// A RequirementView is a requirement with what stands in its way. What the buyer
// may not read about is in Withheld by its severity alone.
type RequirementView struct {
	Name, About string
	Met         bool
	Stops       []string
	Withheld    map[note.Severity]int
}

// BuyersPack returns the buyer's view together with how it stands against the
// requirements for selling.
func (st *State) BuyersPack(list []Requirement) *View {
	v := newViewer(st, ForBuyer)
	out := v.view()
	out.Handover = &HandoverView{Cleared: AllMet(list)}
	for _, r := range list {
		out.Handover.Requirements = append(out.Handover.Requirements, v.requirement(out, r))
	}
	return out
}

func (v *viewer) requirement(out *View, r Requirement) RequirementView {
	w := RequirementView{Name: r.Name, About: r.About, Met: r.Met(), Withheld: map[note.Severity]int{}}
	for _, stop := range r.Stops {
		switch {
		case stop.snag != nil && v.snags[stop.snag] == nil:
			w.Withheld[stop.snag.Severity]++
		case stop.snag != nil:
			w.Stops = append(w.Stops, label(stop.snag.ID, note.PlainWords(v.snags[stop.snag].Words)))
		case stop.part != nil:
			w.Stops = append(w.Stops, out.partStop(stop.part))
		default:
			w.Stops = append(w.Stops, stop.Text)
		}
	}
	return w
}

// partStop tells of a part that is not fitted as far as its lines that are shown do.
func (v *View) partStop(p *Part) string {
	for _, shown := range v.Parts {
		if shown.ID == p.ID && shown.State == p.State {
			return shown.ID + " is " + shown.State + ": " + shown.Description
		}
	}
	return "a part that is not described here"
}
