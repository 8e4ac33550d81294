package render

import (
	"html/template"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
)

type measuredPage struct {
	Frame
	Readings []SeriesBlock
	Checks   []CheckRow
	Scans    []UnitBlock
}

// A UnitBlock is every scan of one control unit.
type UnitBlock struct {
	ID, Name string
	Scans    []ScanRow
}

// A SeriesBlock is every reading of one name, with a gauge of the newest.
type SeriesBlock struct {
	ID, Name string
	Gauge    *Gauge
	Rows     []ReadingRow
}

// A ReadingRow is one reading.
type ReadingRow struct {
	Link          template.HTML // the way to its gauge, or to its session
	Value, Limits string
	Verdict       string // within or outside; "" without limits
	Outside       bool
	Words         string
}

// A CheckRow is a check that was carried out.
type CheckRow struct {
	Name, Result string
	Failed       bool
	Words        string
	When         template.HTML
	At, By       string
	Receipt      template.HTML
	Pictures     []*Picture
}

// A ScanRow is a fault scan.
type ScanRow struct {
	Unit     string
	Link     template.HTML // the way to all scans, or to its session
	NoFaults bool
	Found    string // "no faults", "2 codes"
	Codes    []CodeRow
	Against  string // the scan of the same unit before it: "2 codes gone, 1 still there, 1 new"
}

// A CodeRow is one fault code, leading to its snag.
type CodeRow struct {
	Code  template.HTML
	Words string
	Means string // what its structure says
}

func (s *site) hasMeasured() bool {
	return len(s.v.Checks)+len(s.v.Readings)+len(s.v.Scans) > 0
}

// A measuredEntry is one thing in the list of them: a reading of a series, a check,
// or a scan with the one of the same unit before it.
type measuredEntry struct {
	series       *view.ReadingSeries
	nth          int
	check        *view.CheckView
	scan, before *view.ScanView
}

// bindMeasured lists the readings by name, the checks, and the scans by control unit.
func (s *site) bindMeasured() {
	var list []measuredEntry
	for _, x := range s.series {
		for i := range x.Readings {
			list = append(list, measuredEntry{series: x, nth: i})
		}
	}
	for _, c := range s.v.Checks {
		list = append(list, measuredEntry{check: c})
	}
	for _, scans := range s.v.ScansByUnit() {
		var before *view.ScanView
		for _, sc := range scans {
			list = append(list, measuredEntry{scan: sc, before: before})
			before = sc
		}
	}
	s.measured = bind(binding{front: "measured.html", taken: s.paths.taken}, list, func(e measuredEntry) entry {
		switch {
		case e.series != nil:
			r := entry{shelf: "readings", name: "Readings", weight: 1, anchors: []string{seriesID(e.series.Name)}}
			if e.nth == 0 {
				r.weight += 2 + min(len(e.series.Readings), gaugeMarks)/4 // the gauge
			}
			return r
		case e.check != nil:
			return entry{shelf: "checks", name: "Checks", weight: 1 + len(e.check.Photos), anchors: []string{"_h-checks"}}
		}
		return entry{shelf: "scans", name: "Fault scans", weight: 1 + len(e.scan.Codes), anchors: []string{"_scans", unitID(e.scan.Unit)}}
	})
}

func seriesID(name string) string { return "_" + name }

// unitID has a second underscore, which names of readings have not.
func unitID(unit string) string { return "_scan_" + slug(unit) }

func (s *site) measuredSheets() []sheet {
	return s.measured.sheets(s.hasMeasured(), func(v volume) (any, error) {
		at := v.path
		p := measuredPage{Frame: s.frame(at, "measured", v.heading("Measured and checked"), "What was measured and checked on "+s.v.Name+", and what the control units said.")}
		p.Volumes = s.measured.nav(at)
		for _, e := range s.measured.in(v) {
			switch {
			case e.series != nil:
				s.addReading(at, &p, e)
			case e.check != nil:
				p.Checks = append(p.Checks, s.checkRow(at, e.check))
			default:
				s.addScan(at, &p, e)
			}
		}
		return p, nil
	})
}

// addReading puts a reading under its name, with the gauge where that stands first.
func (s *site) addReading(at string, p *measuredPage, e measuredEntry) {
	if n := len(p.Readings); n == 0 || p.Readings[n-1].ID != seriesID(e.series.Name) {
		p.Readings = append(p.Readings, SeriesBlock{ID: seriesID(e.series.Name), Name: title(said(e.series.Name)), Gauge: gauge(e.series)})
	}
	b, r := &p.Readings[len(p.Readings)-1], e.series.Readings[e.nth]
	row := s.readingRow(r.ReadingView)
	row.Link, row.Limits, row.Outside = around(s.session(at, r.Session), when(r.Date)), limits(r.Limits), r.Outside != ""
	row.Verdict = verdict(r)
	b.Rows = append(b.Rows, row)
}

// addScan puts a scan under its control unit.
func (s *site) addScan(at string, p *measuredPage, e measuredEntry) {
	if n := len(p.Scans); n == 0 || p.Scans[n-1].ID != unitID(e.scan.Unit) {
		p.Scans = append(p.Scans, UnitBlock{ID: unitID(e.scan.Unit), Name: title(said(e.scan.Unit))})
	}
	b, row := &p.Scans[len(p.Scans)-1], s.scanRow(at, e.scan)
	if e.before != nil {
		row.Against = against(e.before, e.scan)
	}
	b.Scans = append(b.Scans, row)
}

// verdict says how a reading stands to its limits, "" where it has none.
func verdict(r view.JudgedReading) string {
	switch {
	case r.Outside != "":
		return r.Outside
	case r.Near != "":
		return "within its limits, but " + r.Near
	case r.Limits.Min != nil || r.Limits.Max != nil:
		return "within its limits"
	}
	return ""
}

// readingRow is a reading as its session tells it.
func (s *site) readingRow(r *view.ReadingView) ReadingRow {
	return ReadingRow{Value: minus(r.Value.String()), Limits: limits(r.Limits), Outside: state.Outside(r.Value, r.Limits) != "",
		Words: r.Words}
}

// limits writes "8.0 to 10.5 mm", "at least 8.0 mm", "at most 3 mm".
func limits(l note.Limits) string {
	switch {
	case l.Min != nil && l.Max != nil:
		return minus(l.Min.String()) + " to " + minus(l.Max.String())
	case l.Min != nil:
		return "at least " + minus(l.Min.String())
	case l.Max != nil:
		return "at most " + minus(l.Max.String())
	}
	return ""
}

func (s *site) checkRow(at string, c *view.CheckView) CheckRow {
	return CheckRow{Name: title(said(c.Name)), Result: c.Result, Failed: c.Result == "failed", Words: c.Words, When: around(s.session(at, c.Session), when(c.Date)),
		At: distance(c.At), By: c.By, Receipt: s.receipt(at, s.paths.noteOf[c.Session], c.Receipt), Pictures: s.pictures(at, c.Photos, title(said(c.Name)))}
}

// against counts what has become of the codes between two scans of a unit.
func against(before, after *view.ScanView) string {
	gone, there, fresh := view.CompareScans(before, after)
	var list []string
	for _, x := range []struct {
		n    int
		what string
	}{{gone, "gone"}, {there, "still there"}, {fresh, "new"}} {
		if x.n > 0 {
			list = append(list, count(x.n, "code")+" "+x.what)
		}
	}
	if list == nil {
		list = []string{"no faults then either"}
	}
	return "against the scan of " + day(before.Date) + ": " + words(list...)
}

func (s *site) scanRow(at string, sc *view.ScanView) ScanRow {
	r := ScanRow{Unit: sc.Unit, Link: around(s.session(at, sc.Session), when(sc.Date)), NoFaults: sc.NoFaults, Found: "no faults"}
	if !sc.NoFaults {
		r.Found = count(len(sc.Codes), "code")
	}
	for _, c := range sc.Codes {
		r.Codes = append(r.Codes, CodeRow{link(s.id(at, journal.ScanID(sc.Unit, c.Code)), c.Code), c.Words, note.Decode(c.Code)})
	}
	return r
}
