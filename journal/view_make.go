package journal

import (
	"net/url"
	"path"
	"slices"
	"strings"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"

	"github.com/shopspring/decimal"
	"github.com/yuin/goldmark/ast"
)

// Contact is the detail of the vehicle that says whom a buyer can ask. It is not
// for everybody.
const Contact = "contact"

// vehicle returns the details of the vehicle with the numbers that identify it
// shown as far as they may be.
func (v *viewer) vehicle() []Detail {
	var list []Detail
	for _, d := range v.st.Build.Card.Vehicle {
		switch {
		case strings.EqualFold(d.Name, "vin") && v.vin == "no",
			strings.EqualFold(d.Name, "registration") && !v.plate,
			strings.EqualFold(d.Name, Contact) && v.to == ForPublic:
			continue
		case strings.EqualFold(d.Name, "vin") && v.vin == "masked":
			d.Value = maskVIN(d.Value)
		}
		list = append(list, Detail{Name: d.Name, Value: d.Value})
	}
	return list
}

// maskVIN leaves the first three characters, which name the maker and no vehicle.
func maskVIN(vin string) string {
	runes := []rune(vin)
	for i := min(3, len(runes)); i < len(runes); i++ {
		runes[i] = '•'
	}
	return string(runes)
}

// money returns the sums, and the lines where they are shown.
func (v *viewer) money() *MoneyView {
	if !v.work {
		return nil
	}
	seen := *v.st
	seen.Money = nil
	for _, m := range v.st.Money {
		if v.moneySeen(m) {
			seen.Money = append(seen.Money, m)
		}
	}
	if !v.whole {
		seen.SurchargeDue = decimal.Zero
	}
	costs := seen.Costs()
	costs.State = nil
	v.hideHours(costs)
	named := map[string]bool{} // by a line that is shown where lines are
	for _, m := range seen.Money {
		named[m.Supplier] = named[m.Supplier] || v.private || !m.Private
	}
	costs.Suppliers = slices.DeleteFunc(costs.Suppliers, func(n NamedSum) bool { return !v.suppliers || !named[n.Name] })
	if !v.saleSeen() {
		costs.Sold = nil
	}
	for i := range costs.Stages {
		s := &costs.Stages[i]
		if !v.whole {
			s.Remaining, s.Overrun, s.HoursLeft = Three{}, decimal.Zero, nil
			if s.Stage != nil {
				s.Stage = &Stage{Name: s.Name, About: s.Stage.About, System: s.Stage.System, Purchase: s.Stage.Purchase}
			}
		}
	}
	if !v.whole {
		costs.Forecast, costs.Sold = nil, nil
	}
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

// hideHours leaves out everything that tells of time, where time is not shown.
func (v *viewer) hideHours(c *Costs) {
	if v.hours {
		return
	}
	c.Minutes = 0
	for i := range c.Stages {
		c.Stages[i].Minutes, c.Stages[i].HoursLeft = 0, nil
	}
	if c.Forecast != nil {
		c.Forecast.HoursLeft = [3]measure.Minutes{}
	}
	if c.Sold != nil {
		c.Sold.PerHour = nil
	}
}

// line returns a line of money as it is shown, nil where it is not.
func (v *viewer) line(m *Money) *MoneyLine {
	if !v.lines || !v.moneySeen(m) || m.Private && !v.private {
		return nil
	}
	l := &MoneyLine{Credit: m.Credit, Date: m.Date, Session: v.names[m.Session], Note: m.Session.Path,
		Line: m.Line.HeadSpan.Begin().Line, Stage: m.Stage, Category: m.Category, Description: m.Description, Part: m.Part,
		Amount: m.Sum.Build, Whole: m.Whole, Garage: m.Garage, Tax: m.Tax, Written: m.Line.HeadSpan.Text(), Surcharge: m.Surcharge, Private: m.Private}
	if v.hidden[m.Part] {
		l.Part = ""
	}
	if v.suppliers {
		l.Supplier = m.Supplier
	}
	if v.receipts {
		l.Receipt = m.Receipt
		v.use(m.Receipt, dirOf(m.Session.Path))
	}
	return l
}

// use notes that a file is referred to, if it is one of the build, and returns its
// path from the folder the user named; "" where there is no such file.
func (v *viewer) use(ref, dir string) string {
	for _, base := range []string{dir, v.st.Build.Path} {
		p := path.Join(base, ref)
		if strings.HasSuffix(p, ".md") {
			return "" // a note leads to its page, if it has one; as a file it would tell what is private
		}
		if ref != "" && v.st.Build.Files[p] {
			v.files[p] = true
			return p
		}
	}
	return ""
}

func dirOf(notePath string) string { return path.Dir(notePath) }

// body returns a note's Markdown.
func (v *viewer) body(n *note.Note, dir string, snags bool) *Body {
	if n.Doc == nil {
		return nil
	}
	b := &Body{Doc: n.Doc, Source: n.File.Data, Items: map[*ast.ListItem]*ItemView{}, Snags: snags, Dir: dir}
	v.bodies = append(v.bodies, noteBody{n, b})
	return b
}

// noteBody is a body that is shown, with the note it is of.
type noteBody struct {
	note *note.Note
	body *Body
}

// useRefs notes the files that the shown bodies refer to, but for links inside
// task-list items that are not shown.
func (v *viewer) useRefs() {
	for _, nb := range v.bodies {
		hidden := map[ast.Node]bool{}
		if nb.body.Snags {
			for _, it := range nb.note.Items {
				hidden[it.Node] = nb.body.Items[it.Node] == nil
			}
		}
		for _, r := range nb.note.Refs {
			target, err := url.PathUnescape(r.Target)
			for n := r.Node; n != nil && err == nil; n = n.Parent() {
				if hidden[n] {
					target = ""
				}
			}
			v.use(target, nb.body.Dir)
		}
	}
}

func (v *viewer) photos(l *note.Line, dir string) []string {
	var list []string
	for _, c := range l.Clauses {
		if c.Word == "photo" {
			if p := v.use(c.Arg.S, dir); p != "" {
				list = append(list, p)
			}
		}
	}
	return list
}

// viewSnags takes in the snags the audience may see. What is private and grave is
// told to the buyer as withheld.
func (v *viewer) viewSnags(out *View) {
	for _, s := range v.st.Snags {
		if s.Private && !v.private || v.hidden[s.ID] {
			if v.to == ForBuyer && s.Open && s.Severity >= note.Major {
				out.Withheld[s.Severity]++
			}
			continue
		}
		if !v.snagsSeen {
			continue
		}
		w := v.snag(s)
		v.snags[s] = w
		out.Snags = append(out.Snags, w)
		out.Safety = out.Safety || note.IsSafety(s.System)
	}
}

func (v *viewer) snag(s *Snag) *SnagView {
	w := &SnagView{ID: s.ID, Kind: s.Kind, Source: s.Source, Severity: s.Severity, Words: note.WithoutComments(s.Words), Stage: s.Stage, System: s.System,
		Open: s.Open, Opened: s.Opened, Cleared: s.Cleared, Due: s.Due, Overdue: s.Overdue, Doable: s.Doable,
		Takes: s.Takes, Disclose: s.Disclose, Private: s.Private, Session: v.names[s.Session], Note: s.Session.Path, Line: s.Line()}
	for _, id := range s.WaitsFor {
		if !v.hidden[id] {
			w.WaitsFor = append(w.WaitsFor, id)
		}
	}
	if s.DueAt != nil {
		w.DueAt = s.DueAt.String()
	}
	if s.Source == FromSurcharge && !v.lines {
		w.Words = "surcharge on an exchange part, to come back for the old one"
	}
	for _, e := range s.Events {
		if e.Private && !v.private {
			continue
		}
		if e.Item != nil {
			w.Photos = append(w.Photos, v.photos(e.Item.Line, dirOf(e.Session.Path))...)
		}
		words := note.WithoutComments(e.Words)
		if s.Source == FromSurcharge && !v.lines {
			words = ""
		}
		w.Events = append(w.Events, EventView{e.What, e.Date, v.names[e.Session], words})
	}
	if by := s.ClearedBy(); by != nil {
		w.ClearedInSession = v.names[by.Session]
	}
	return w
}

// viewParts takes in the parts, as their lines that are not private tell it.
func (v *viewer) viewParts(out *View) {
	for _, p := range v.st.Parts {
		q := p
		if !v.private && p.Private {
			q = nil
			for _, pl := range p.Lines {
				if pl.Private {
					continue
				}
				if q == nil {
					q = newPart(pl)
				}
				q.take(pl)
			}
			if q == nil {
				continue
			}
			q.finish(v.st)
			q.Paid = p.Paid
		}
		out.Parts = append(out.Parts, v.part(q))
		out.Safety = out.Safety || note.IsSafety(q.System)
	}
}

func (v *viewer) part(p *Part) *PartView {
	w := &PartView{ID: p.ID, Description: p.Description, State: p.State, Since: p.Since, Stage: p.Stage, System: p.System,
		Condition: p.Condition, Origin: p.Origin, Number: p.Number, Donor: p.Donor, Due: p.Due, Warranty: p.Warranty, Late: p.Late, Free: p.Free}
	if v.suppliers {
		w.Supplier = p.Supplier
	}
	if v.lines {
		w.Paid = &p.Paid
	}
	if v.whole {
		w.Estimate = p.Estimate
	}
	for _, pl := range p.Lines {
		w.Photos = append(w.Photos, v.photos(pl.Line, dirOf(pl.Session.Path))...)
		w.Events = append(w.Events, v.partEvent(pl, p.Description))
	}
	return w
}

func (v *viewer) partEvent(pl *PartLine, description string) PartEvent {
	return PartEvent{ID: pl.ID, Description: description, State: pl.State, Date: pl.Session.Date, Session: v.names[pl.Session], Remark: pl.Remark}
}

// viewMeasured takes in checks, readings and scans.
func (v *viewer) viewMeasured(out *View) {
	b := v.st.Build
	for _, c := range b.Checks {
		if !v.st.counts(c.Session.Date) || c.Private && !v.private {
			continue
		}
		w := &CheckView{Name: c.Name, Result: c.Result, Date: c.Session.Date, Session: v.names[c.Session], Words: c.Line.Words.S, System: c.System,
			Photos: v.photos(c.Line, dirOf(c.Session.Path))}
		if c.At != nil {
			w.At = c.At.String()
		}
		if v.by {
			w.By = c.By
		}
		if v.receipts {
			w.Receipt, _ = note.Arg[string](c.Line, "receipt")
			v.use(w.Receipt, dirOf(c.Session.Path))
		}
		out.Checks = append(out.Checks, w)
		out.Safety = out.Safety || note.IsSafety(c.System)
	}
	for _, r := range b.Readings {
		if v.st.counts(r.Session.Date) && (v.private || !r.Private) {
			out.Readings = append(out.Readings, &ReadingView{Name: r.Name, Date: r.Session.Date, Session: v.names[r.Session], Value: r.Value,
				Limits: r.Limits, Severity: r.Severity, System: r.System, Words: r.Line.Words.S})
			out.Safety = out.Safety || note.IsSafety(r.System)
		}
	}
	for _, s := range b.Scans {
		if v.st.counts(s.Session.Date) && (v.private || !s.Session.Private) {
			out.Scans = append(out.Scans, &ScanView{Unit: s.Name, Date: s.Session.Date, Session: v.names[s.Session], NoFaults: s.NoFaults, Codes: s.Codes})
		}
	}
}

// viewSessions takes in the sessions with what happened in each.
func (v *viewer) viewSessions(out *View) {
	byName := map[string]*SessionView{}
	for _, s := range v.st.Sessions {
		if _, ok := v.names[s]; !ok {
			continue
		}
		w := v.session(s)
		byName[w.Name] = w
		out.Sessions = append(out.Sessions, w)
	}
	for _, m := range v.st.Money {
		w := byName[v.names[m.Session]]
		if w == nil || !v.lines || !v.moneySeen(m) {
			continue
		}
		if w.Spent == nil {
			w.Spent = new(decimal.Decimal)
		}
		sum := m.Sum.Build
		if m.Credit {
			sum = sum.Neg()
		}
		*w.Spent = w.Spent.Add(sum)
		if l := v.line(m); l != nil {
			w.Money = append(w.Money, l)
		}
	}
	for _, x := range v.st.Work {
		if !v.hours {
			break
		}
		out.Minutes += x.Minutes
		if w := byName[v.names[x.Session]]; w != nil {
			w.Minutes += x.Minutes
			if v.private || !x.Private {
				w.Work = append(w.Work, WorkView{x.Minutes, x.Line.Words.S, x.Stage, x.Private})
			}
		}
	}
	for _, p := range out.Parts {
		for _, e := range p.Events {
			if w := byName[e.Session]; w != nil {
				w.Parts = append(w.Parts, e)
				w.Safety = w.Safety || note.IsSafety(p.System)
			}
		}
	}
	for _, c := range out.Checks {
		if w := byName[c.Session]; w != nil {
			w.Checks = append(w.Checks, c)
		}
	}
	for _, r := range out.Readings {
		if w := byName[r.Session]; w != nil {
			w.Readings = append(w.Readings, r)
		}
	}
	for _, sc := range out.Scans {
		if w := byName[sc.Session]; w != nil {
			w.Scans = append(w.Scans, sc)
		}
	}
	v.viewItems(out, byName)
}

func (v *viewer) session(s *Session) *SessionView {
	system := v.st.Build.systemOf(s.Stage)
	w := &SessionView{Path: s.Path, Name: v.names[s], Date: s.Date, Title: s.Title, Stage: s.Stage, System: system, Private: s.Private,
		Body: v.body(s.Note, dirOf(s.Path), true), Safety: note.IsSafety(system)}
	if s.Odometer != nil {
		w.Odometer = s.Odometer.String()
	}
	if v.private { // lines in error have no snag to speak for them
		for _, it := range s.Note.Items {
			if it.Bad {
				w.Body.Items[it.Node] = &ItemView{Ticked: it.Ticked, Words: note.WithoutComments(it.Text.S)}
			}
		}
	}
	return w
}

// viewItems tells each body what its task-list items have become, and each session
// which snags it opened and cleared.
func (v *viewer) viewItems(out *View, byName map[string]*SessionView) {
	for _, s := range v.st.Snags {
		w := v.snags[s]
		if w == nil {
			continue
		}
		for _, e := range s.Events {
			page := byName[v.names[e.Session]]
			if page == nil || e.Private && !v.private {
				continue
			}
			page.Safety = page.Safety || note.IsSafety(s.System)
			if e.Item != nil {
				page.Body.Items[e.Item.Node] = &ItemView{What: e.What, Ticked: e.Item.Ticked, Words: note.WithoutComments(e.Words), Snag: w}
			}
			switch e.What {
			case Opened, Reopened:
				page.Opened = append(page.Opened, w)
			case Cleared:
				page.Cleared = append(page.Cleared, w)
			}
		}
	}
}

// DistinctDays counts the days on which sessions were held.
func DistinctDays(sessions []*SessionView) int {
	days := map[measure.Date]bool{}
	for _, s := range sessions {
		days[s.Date] = true
	}
	return len(days)
}
