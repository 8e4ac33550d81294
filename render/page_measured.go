package render

import (
	"html/template"

	"guidecoat/journal"
	"guidecoat/journal/note"
)

type measuredPage struct {
	Frame
	Readings []SeriesBlock
	Checks   []CheckRow
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

func (s *site) measuredSheets() []sheet {
	const at = "measured.html"
	return one(s.hasMeasured(), at, func() (any, error) {
		p := measuredPage{Frame: s.frame(at, "measured", "Measured and checked", "What was measured and checked on "+s.v.Name+", and what the control units said.")}
		for _, x := range s.series {
			b := SeriesBlock{ID: "_" + x.Name, Name: title(said(x.Name)), Gauge: gauge(x)}
			for _, r := range x.Readings {
				row := s.readingRow(r.ReadingView)
				row.Link, row.Limits, row.Outside = around(s.session(at, r.Session), when(r.Date)), limits(r.Limits), r.Outside != ""
				row.Verdict = verdict(r)
				b.Rows = append(b.Rows, row)
			}
			p.Readings = append(p.Readings, b)
		}
		for _, c := range s.v.Checks {
			p.Checks = append(p.Checks, s.checkRow(at, c))
		}
		before := map[string]*journal.ScanView{}
		for _, sc := range s.v.Scans {
			row := s.scanRow(at, sc)
			if b := before[sc.Unit]; b != nil {
				row.Against = against(b, sc)
			}
			before[sc.Unit] = sc
			p.Scans = append(p.Scans, row)
		}
		return p, nil
	})
}

// verdict says how a reading stands to its limits, "" where it has none.
func verdict(r journal.JudgedReading) string {
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
func (s *site) readingRow(r *journal.ReadingView) ReadingRow {
	return ReadingRow{Value: minus(r.Value.String()), Limits: limits(r.Limits), Outside: journal.Outside(r.Value, r.Limits) != "",
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

func (s *site) checkRow(at string, c *journal.CheckView) CheckRow {
	return CheckRow{Name: title(said(c.Name)), Result: c.Result, Failed: c.Result == "failed", Words: c.Words, When: around(s.session(at, c.Session), when(c.Date)),
		At: distance(c.At), By: c.By, Receipt: s.receipt(at, s.paths.noteOf[c.Session], c.Receipt), Pictures: s.pictures(at, c.Photos, title(said(c.Name)))}
}

// against counts what has become of the codes between two scans of a unit.
func against(before, after *journal.ScanView) string {
	gone, there, fresh := journal.CompareScans(before, after)
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

func (s *site) scanRow(at string, sc *journal.ScanView) ScanRow {
	r := ScanRow{Unit: sc.Unit, Link: around(s.session(at, sc.Session), when(sc.Date)), NoFaults: sc.NoFaults, Found: "no faults"}
	if !sc.NoFaults {
		r.Found = count(len(sc.Codes), "code")
	}
	for _, c := range sc.Codes {
		r.Codes = append(r.Codes, CodeRow{link(s.id(at, journal.ScanID(sc.Unit, c.Code)), c.Code), c.Words, note.Decode(c.Code)})
	}
	return r
}
