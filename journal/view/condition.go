package view

import (
	"cmp"
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/speech"
	"guidecoat/journal/state"
)

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
			if v.hidden[f.Part] {
				continue
			}
			name := strings.ReplaceAll(f.Part, "-", " ")
			if p := v.parts[f.Part]; p != nil {
				name = p.Description
			}
			w.Fired = append(w.Fired, name)
		}
		v.shows(d.Line, d.Line.Words())
		out.Damage = append(out.Damage, w)
	}
	tightened := map[string][]*journal.Tightening{}
	for _, t := range v.st.Build.Tightenings {
		if v.st.Counts(t.Session.Date) && (v.private || !t.Private) {
			tightened[t.ID] = append(tightened[t.ID], t)
		}
	}
	listed := map[string]bool{}
	for _, f := range v.st.Fasteners {
		if listed[f.ID] = true; !v.hidden[f.Part] {
			out.Fasteners = append(out.Fasteners, fastener(v, f, tightened[f.ID]))
		}
	}
	for _, t := range v.st.Build.Tightenings {
		if !listed[t.ID] && tightened[t.ID] != nil {
			out.Unlisted, tightened[t.ID] = append(out.Unlisted, fastener(v, &state.Fastener{Fastener: &journal.Fastener{ID: t.ID}}, tightened[t.ID])), nil
		}
	}
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
	w := &FastenerView{ID: f.ID, Part: f.Part, PartName: strings.ReplaceAll(f.Part, "-", " "), Angles: len(f.Angles), SingleUse: f.SingleUse, RideHeight: f.RideHeight, Words: f.Words}
	if f.Line != nil {
		w.Asked, w.Least, w.Most = f.Fastening.String(), f.Min.String(), f.Max.String()
		v.shows(f.Line, f.Line.Words())
	}
	if p := v.parts[w.Part]; p != nil {
		w.PartName = p.Description
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
