package view

import (
	"cmp"
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/speech"
	"guidecoat/journal/state"
)

// What was hit, checked, measured and tightened, and what evidence there is besides the builder's word.

type DamageView struct {
	Place, Words string
	Systems      []string
	Fired        []string // what has fired, as it is called
	Flood        bool
	Photos       []string
}

// A FastenerView is a fastener that the job card lists, as it stands.
type FastenerView struct {
	ID, Part    string // the part's id
	PartName    string
	Asked       string // the torque and the angles
	Least, Most string // of the torque
	Angles      int
	SingleUse   bool
	RideHeight  bool
	Words       string
	// Loose says that its part was fitted and it was not tightened as asked since; Done that it was.
	Loose, Done bool
	Tightened   []TighteningView
}

// A TighteningView is what was done with a fastener; Lacks is what it lacks of what is asked.
type TighteningView struct {
	ID, How, Words, By string
	Lacks              speech.Phrase
	Date               measure.Date
	Session            string
}

func viewCondition(v *viewer, out *View) {
	for _, d := range v.st.Build.Card.Damage {
		w := &DamageView{Place: d.Place, Words: d.Words, Systems: d.Systems, Flood: d.Flood, Photos: v.photos(d.Line, v.st.Build.Path)}
		for _, f := range d.Fired {
			if !v.hidden[f.Part] {
				w.Fired = append(w.Fired, v.partName(f.Part))
			}
		}
		v.shows(d.Line, d.Line.Words())
		out.Damage = append(out.Damage, w)
	}
	id := func(t *journal.Tightening) string { return t.ID }
	seen := pick.Where(v.st.Build.Tightenings, func(t *journal.Tightening) bool { return v.st.Counts(t.Session.Date) && (v.private || !t.Private) })
	tightened, listed := pick.By(seen, id), map[string]bool{}
	for _, f := range v.st.Fasteners {
		if listed[f.ID] = true; !v.hidden[f.Part] {
			out.Fasteners = append(out.Fasteners, fastener(v, f, tightened[f.ID]))
		}
	}
	for _, of := range pick.Groups(seen, id) {
		if !listed[of[0].ID] {
			out.Unlisted = append(out.Unlisted, fastener(v, &state.Fastener{Fastener: &journal.Fastener{ID: of[0].ID}}, of))
		}
	}
}

// partName is what a part is called, by its id where nothing that is shown describes it.
func (v *viewer) partName(id string) string {
	if p := v.parts[id]; p != nil {
		return p.Description
	}
	return strings.ReplaceAll(id, "-", " ")
}

func tightening(v *viewer, t *journal.Tightening, lacks speech.Phrase) TighteningView {
	w := TighteningView{ID: t.ID, How: t.Fastening.String(), Words: t.Words, Lacks: lacks, Date: t.Session.Date, Session: v.names[t.Session]}
	if v.by {
		w.By = t.By
	}
	v.shows(t.Line, t.Line.Words())
	return w
}

// fastener is one of the card's, or one that is only recorded: that has no line there.
func fastener(v *viewer, f *state.Fastener, tightened []*journal.Tightening) *FastenerView {
	w := &FastenerView{ID: f.ID, Part: f.Part, PartName: v.partName(f.Part), Angles: len(f.Angles), SingleUse: f.SingleUse, RideHeight: f.RideHeight, Words: f.Words}
	if f.Line != nil {
		w.Asked, w.Least, w.Most = f.Fastening.String(), f.Min.String(), f.Max.String()
		v.shows(f.Line, f.Line.Words())
	}
	if s := f.Snag; s != nil && (v.private || !s.Private) {
		w.Loose, w.Done = s.Open, !s.Open
	}
	for _, t := range tightened {
		lacks := speech.Phrase{}
		if f.Line != nil {
			lacks = f.Lacks(t)
		}
		w.Tightened = append(w.Tightened, tightening(v, t, lacks))
	}
	return w
}

// FastenersOf are those that the job card lists for a part.
func (v *View) FastenersOf(part string) []*FastenerView {
	return pick.Where(v.Fasteners, func(f *FastenerView) bool { return f.Part == part })
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
				Limits: r.Limits, System: r.System, Words: r.Line.Words().S})
			out.Safety = out.Safety || note.IsSafety(r.System)
		}
	}
	for _, s := range b.Scans {
		if v.counts(s.Session) && (v.private || !s.Session.Private) {
			out.Scans = append(out.Scans, &ScanView{Unit: s.Name, Date: s.Session.Date, Session: v.names[s.Session], NoFaults: s.NoFaults, Codes: s.Codes})
		}
	}
}

// Evidence is what stands behind a thing besides the builder's word.
type Evidence string

const (
	Said         Evidence = "said"
	Photographed Evidence = "photographed"
	Measured     Evidence = "measured"
	Papered      Evidence = "paper"
)

// Grades are all evidence there is, the weakest first, with what it means to a reader.
var Grades = []struct {
	Evidence
	Name, Means string
}{
	{Said, "said", "the builder wrote it down, and nothing else here shows it"},
	{Photographed, "photographed", "a picture stands with it"},
	{Measured, "measured", "a value with its unit, a tightening torque, or what a control unit said"},
	{Papered, "somebody else’s paper", "a certificate, an invoice, a receipt or another file that is attached"},
}

// Name is what people read; "" where there is nothing to show.
func (e Evidence) Name() string {
	for _, g := range Grades {
		if g.Evidence == e {
			return g.Name
		}
	}
	return ""
}

// Grade is the best evidence of a thing, by what the notes hold with it.
func Grade(picture, value, paper bool) Evidence {
	switch {
	case paper:
		return Papered
	case value:
		return Measured
	case picture:
		return Photographed
	}
	return Said
}

// grade settles the evidence of every check, part and fix, by what is shown with it.
func (v *View) grade() {
	invoiced := map[[2]string]bool{}
	if v.Money != nil {
		for _, l := range v.Money.Lines {
			if l.Receipt != "" && !l.Credit {
				invoiced[[2]string{l.Session, l.Supplier}] = true
			}
		}
	}
	checks := map[[2]string]Evidence{} // the last of a name in a session
	for _, c := range v.Checks {
		official := c.Inspection && (c.By != "" || c.Until != 0 || len(c.Photos) > 0)
		invoice := c.By != "" && invoiced[[2]string{c.Session, c.By}]
		c.Evidence = Grade(len(c.Photos) > 0, false, c.Receipt != "" || official || invoice)
		checks[[2]string{c.Session, c.Name}] = c.Evidence
		if c.Inspection {
			checks[[2]string{c.Session}] = c.Evidence
		}
	}
	for _, p := range v.Parts {
		if p.Fitted() { // a receipt shows that it was bought, not what was done with it
			p.Evidence = Grade(slices.ContainsFunc(p.Events, func(e PartEvent) bool { return fact.Reached(e.State, "fitted") && len(e.Photos) > 0 }), false, false)
		}
	}
	for _, x := range v.Snags {
		if x.Open || x.Source == fact.FromSurcharge || x.Source == fact.FromPaper {
			continue
		}
		var by EventView
		for _, e := range x.Events {
			if e.What == fact.Cleared {
				by = e
			}
		}
		settled := checks[[2]string{by.Session, x.ID}]
		if x.Source == fact.FromInspection && !by.Ticked {
			settled = checks[[2]string{by.Session}]
		}
		if p := v.parts[x.of]; p != nil && x.Source == fact.FromDamage {
			settled = p.Evidence
		}
		measured := x.Source == fact.FromReading || x.Source == fact.FromScan || x.Source == fact.FromFastener || settled == Measured
		x.Evidence = Grade(by.Pictured || settled == Photographed, measured, by.Attached || settled == Papered)
	}
}

// Unopened are the systems of the vehicle of which nothing is told; high voltage only where the vehicle has it.
func (v *View) Unopened() []string {
	told := slices.Concat(
		slices.Concat(pick.Map(v.Damage, func(d *DamageView) []string { return d.Systems })...),
		pick.Map(v.Sessions, func(s *SessionView) string { return s.System }),
		slices.Concat(pick.Map(v.Parts, func(p *PartView) []string { return p.Systems })...),
		pick.Map(v.Snags, func(s *SnagView) string { return s.System }),
		pick.Map(v.Checks, func(c *CheckView) string { return c.System }),
		slices.Concat(pick.Map(v.Checks, func(c *CheckView) []string { return c.covers })...),
		pick.Map(v.Readings, func(r *ReadingView) string { return r.System }),
		pick.Map(v.Scans, func(s *ScanView) string { return note.SystemOfUnit(s.Unit) }),
	)
	const rare = "high-voltage"
	return pick.Where(note.Systems, func(s string) bool {
		return !slices.Contains(told, s) && (s != rare || slices.Contains(v.equipment, rare))
	})
}
