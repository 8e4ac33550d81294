package view

import (
	"fmt"
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/speech"
	"guidecoat/journal/state"

	"github.com/shopspring/decimal"
)

// Selling is what it takes to name a price and to write an advert.
type Selling struct {
	Asked, Floor *decimal.Decimal
	BreakEven    decimal.Decimal // the price that earns nothing, unrounded
	Advert       string          // plain text
	Withheld     int             // grave snags that are private, and so are not in it
}

// selling is nil once it is sold, and before there is work to tell of.
func (v *viewer) selling(costs *fact.Costs) *Selling {
	if costs.Forecast == nil || len(v.st.Sessions) == 0 {
		return nil
	}
	s := &Selling{BreakEven: costs.Forecast.Mean}
	if a := costs.Account; a != nil {
		s.Asked, s.Floor, s.BreakEven = a.Asked, a.Floor, s.BreakEven.Add(*a.Claims).Sub(*a.Kept)
	}
	s.advert(v)
	return s
}

// advert puts the words together from what the record says, faults among it, and nothing private.
func (s *Selling) advert(v *viewer) {
	var text strings.Builder
	st, card := v.st, v.st.Build.Card
	section := func(heading string, lines []string) {
		if len(lines) > 0 {
			text.WriteString("\n" + heading + "\n- " + strings.Join(lines, "\n- ") + "\n")
		}
	}
	text.WriteString(card.Name + "\n")
	var about, damage, fitted, checked, told, open []string
	odometer := ""
	shown := pick.Where(st.Sessions, func(x *journal.Session) bool { return !x.Private })
	for _, x := range shown {
		if x.Odometer != nil {
			odometer = "odometer: " + x.Odometer.String() + ", on " + x.Date.String()
		}
	}
	for _, d := range card.Vehicle {
		if said := strings.EqualFold(d.Name, "odometer") || strings.EqualFold(d.Name, "mileage"); d.Kind() == "" && !(said && odometer != "") {
			about = append(about, d.Name+": "+d.Value)
		}
	}
	if _, ok := card.Detail("category"); !ok {
		about = append(about, "salvage category: not stated")
	}
	if odometer != "" {
		about = append(about, odometer)
	}
	if i := st.NewestInspection(); i == nil || i.Private {
		about = append(about, "official inspection: none is recorded")
	} else {
		words := "official inspection: " + i.Told() + " on " + i.Session.Date.String()
		if i.Until != 0 {
			words += ", until " + i.Until.String()
		}
		about = append(about, words)
	}
	for _, d := range card.Damage {
		words := strings.TrimSuffix(d.Place+": "+d.Words, ": ")
		if d.Flood {
			words += "; flooded"
		}
		damage = append(damage, words)
	}
	for _, p := range st.Parts {
		if p.Private || !p.Fitted() {
			continue
		}
		how := strings.Trim(p.Condition+", "+p.Origin, ", ")
		if p.State == "refitted" {
			how = "refitted"
		}
		fitted = append(fitted, strings.TrimSuffix(p.Description+" ("+how+")", " ()"))
	}
	newest := map[string]int{}
	for _, c := range st.Build.Checks {
		if !st.Counts(c.Session.Date) || c.Private || c.Name == journal.RoadworthinessTest {
			continue
		}
		words := strings.ReplaceAll(c.Name, "-", " ") + ": " + c.Result + " on " + c.Session.Date.String()
		if i, ok := newest[c.Name]; ok {
			checked[i] = words
			continue
		}
		newest[c.Name], checked = len(checked), append(checked, words)
	}
	for _, x := range st.Snags {
		switch words := note.PlainWords(v.snags[x].Words); {
		case !x.Open, x.Source == fact.FromPaper, x.Source == fact.FromSurcharge:
		case x.Private && x.Severity >= note.Major:
			s.Withheld++
		case x.Private:
		case x.Disclose:
			told = append(told, words)
		default:
			if x.Kind == "temporary" {
				words = "temporary fix: " + words
			}
			open = append(open, words+" ("+x.Severity.String()+")")
		}
	}
	section("The vehicle", about)
	section("What had happened to it", damage)
	section("Fitted", fitted)
	section("Checked", checked)
	section("To know before you buy", told)
	section("Still open", open)
	if len(told)+len(open) == 0 {
		text.WriteString("\nThe record names nothing that is outstanding.\n")
	}
	if len(shown) > 0 {
		fmt.Fprintf(&text, "\nA record of the work comes with it, from %s to %s.\n", shown[0].Date, shown[len(shown)-1].Date)
	}
	if s.Asked != nil {
		text.WriteString("Asking " + st.Build.ShowMoney(*s.Asked) + ".\n")
	}
	s.Advert = text.String()
}

// A HandoverView is what the audience may see of the requirements.
type HandoverView struct {
	Cleared      bool // for selling
	Requirements []RequirementView
	Drivable     bool
	ToDrive      []RequirementView
	NotRecorded  []speech.Phrase // what the record is silent about
}

// A RequirementView is one with its stops; what may not be read is in Withheld by its severity.
type RequirementView struct {
	Name     string
	About    speech.Phrase
	Met      bool
	Stops    []StopView
	Withheld map[note.Severity]int
}

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

// ForHandover returns the view with how it stands against the requirements, given the errors of the notes.
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
