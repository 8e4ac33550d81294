package view

import (
	"fmt"
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/speech"
	"guidecoat/journal/state"

	"github.com/shopspring/decimal"
)

func (v *viewer) money() *MoneyView {
	if !v.work {
		return nil
	}
	seen := *v.st
	seen.Money = pick.Where(v.st.Money, v.moneySeen)
	seen.Work = pick.Where(v.st.Work, func(x *journal.Work) bool { return !v.ofPurchase(x.Stage) })
	if !v.whole {
		seen.SurchargeDue = decimal.Zero
	}
	if v.shown != nil { // it is only asked which lines are shown
		for _, m := range seen.Money {
			v.line(m)
		}
		return &MoneyView{Costs: &fact.Costs{}}
	}
	costs := seen.Costs()
	costs.Stages = slices.DeleteFunc(costs.Stages, func(s fact.Stage) bool { return v.ofPurchase(s.Name) })
	hideHours(v, costs)
	named := map[string]bool{} // by a line that is shown where lines are
	for _, m := range seen.Money {
		named[m.Supplier()] = named[m.Supplier()] || v.private || !m.Private
	}
	costs.Suppliers = slices.DeleteFunc(costs.Suppliers, func(n fact.NamedSum) bool { return !v.suppliers || !named[n.Name] })
	if !v.saleSeen() {
		costs.Sold = nil
	}
	if !v.whole {
		costs.Forecast, costs.Sold = nil, nil
		for i := range costs.Stages {
			s := &costs.Stages[i]
			s.Budget, s.Remaining, s.Overrun, s.HoursLeft = nil, fact.Three{}, decimal.Zero, nil
		}
	}
	if costs.Ready = v.ready(); costs.Forecast != nil && !v.business {
		costs.Forecast.Holding = nil
	}
	if costs.Forecast != nil && !v.private {
		costs.Forecast.Goal = decimal.Zero
	}
	costs.Account = account(v, costs.Account)
	out := &MoneyView{Whole: v.whole, Costs: costs, LinesShown: v.lines}
	if v.lines {
		for _, m := range seen.Money {
			if l := v.line(m); l != nil {
				out.Lines = append(out.Lines, l)
			}
		}
	}
	return out
}

func account(v *viewer, a *fact.Account) *fact.Account {
	if a == nil || v.business {
		return a
	}
	lines := append(slices.Clone(v.st.Account.Lines), v.st.Account.Asked)
	if !v.sale || slices.ContainsFunc(lines, func(s *journal.Sale) bool { return s != nil && s.Private }) {
		return nil
	}
	seen := *a
	seen.Floor, seen.Claims, seen.Kept = nil, nil, nil
	if len(seen.Rows()) == 0 {
		return nil // only of what is hidden
	}
	return &seen
}

// ready is when it will be done; all but the likely day are for the workshop.
func (v *viewer) ready() *fact.Ready {
	r := v.st.Ready()
	if r != nil && !v.business {
		return &fact.Ready{Likely: r.Likely}
	}
	return r
}

// hideHours leaves out everything that tells of time, where time is not shown.
func hideHours(v *viewer, c *fact.Costs) {
	if v.hours {
		return
	}
	c.Minutes = 0
	for i := range c.Stages {
		c.Stages[i].Minutes, c.Stages[i].HoursLeft = 0, nil
	}
	if c.Forecast != nil {
		c.Forecast.HoursLeft, c.Forecast.PerHour = [3]measure.Minutes{}, nil
	}
	if c.Sold != nil {
		c.Sold.PerHour = nil
	}
}

func (v *viewer) line(m *journal.Money) *MoneyLine {
	if !v.lines || !v.moneySeen(m) || m.Private && !v.private {
		return nil
	}
	l := &MoneyLine{Credit: m.Credit, Date: m.Date, Session: v.names[m.Session], Note: m.Session.Path,
		Line: m.Line.HeadSpan().Begin().Line, Stage: m.Stage, Category: m.Category, Description: m.Description(), Part: m.Part,
		Amount: m.Sum.Build, Whole: m.Whole, Garage: m.Garage, Private: m.Private}
	if v.hidden[m.Part] {
		l.Part = ""
	}
	v.shows(m.Line, m.Line.Words())
	if v.suppliers {
		l.Supplier = m.Supplier()
	}
	if v.receipts {
		l.Receipt = m.Receipt()
		v.use(m.Receipt(), dirOf(m.Session.Path))
	}
	return l
}

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
	checks := pick.Where(st.Build.Checks, func(c *journal.CheckLine) bool {
		return st.Counts(c.Session.Date) && !c.Private && c.Name != journal.RoadworthinessTest
	})
	for _, of := range pick.Groups(checks, func(c *journal.CheckLine) string { return c.Name }) {
		newest := of[len(of)-1]
		checked = append(checked, strings.ReplaceAll(newest.Name, "-", " ")+": "+newest.Result+" on "+newest.Session.Date.String())
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
