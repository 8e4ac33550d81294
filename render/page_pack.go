package render

import (
	"html/template"
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/note"
)

// The buyer's pack is one page to print and keep: what the vehicle is, what was
// done to it, what was measured, and what is still to be known.

type packPage struct {
	Frame
	Lead         string
	Contents     []Link
	Cleared      bool
	Requirements []RequirementRow
	Vehicle      []Fact
	Systems      []SystemBlock
	Parts        []PackPart
	Checks       []CheckRow
	Readings     []PackReading
	Scans        []PackScan
	Temporary    []SnagRow // fixes that were put right
	Left         []SnagRow // fixes that are not
	Disclosed    []SnagRow
	Questions    []SnagRow
	Open         []SnagRow // whatever else is outstanding
	Withheld     []string
	Contact      string
}

// A RequirementRow is one requirement with what stands in its way.
type RequirementRow struct {
	About string
	Met   bool
	Stops []string
}

// A SystemBlock is what was done to one system of the vehicle.
type SystemBlock struct {
	ID, Name string
	Parts    []PackPart
	Done     []SnagRow
	Pictures []*Picture
}

// A PackPart is a part that is on the vehicle.
type PackPart struct {
	Name, State, Kind, System string
	When                      template.HTML
	Facts                     []Fact
}

// A PackReading is the newest reading of one name.
type PackReading struct {
	Name, Value, Limits, Verdict string
	Outside                      bool
	When                         template.HTML
	Times                        string // how often it was measured, if more than once
}

// A PackScan is the first scan of a control unit against the last.
type PackScan struct {
	Unit        string
	First, Last ScanRow
	Once        bool
}

// uncleared is what every page of a pack says that was written although something
// stands in the way of selling.
const uncleared = "Not cleared for sale: this record has open requirements"

func (s *site) uncleared() bool { return s.v.Handover != nil && !s.v.Handover.Cleared }

func (s *site) packSheets() []sheet {
	const at = "pack.html"
	return one(s.v.Handover != nil, at, func() (any, error) {
		v := s.v
		p := packPage{Frame: s.frame(at, "pack", "Handover record", "What "+v.Name+" is, what was done to it, and what is still to be known."),
			Cleared: v.Handover.Cleared, Vehicle: s.vehicleFacts(), Withheld: s.withheld(), Systems: s.systemBlocks(at)}
		if n := len(v.Sessions); n > 0 {
			p.Lead = span(v.Sessions[0].Date, v.Sessions[n-1].Date) + ", " + count(n, "session")
		}
		for _, r := range v.Handover.Requirements {
			p.Requirements = append(p.Requirements, RequirementRow{title(r.About), r.Met, append(slices.Clone(r.Stops), withheldWords(r.Withheld)...)})
		}
		for _, d := range v.Vehicle {
			if d.Kind() == journal.Contact {
				p.Contact = strings.TrimPrefix(p.Contact+"; "+d.Value, "; ")
			}
		}
		for _, x := range v.Parts {
			if fitted(x) {
				p.Parts = append(p.Parts, s.packPart(at, x))
			}
		}
		for _, c := range v.Checks {
			p.Checks = append(p.Checks, s.checkRow(at, c))
		}
		for _, x := range s.series {
			p.Readings = append(p.Readings, s.packReading(at, x))
		}
		for _, x := range v.ScansByUnit() {
			first, last := x[0], x[len(x)-1]
			p.Scans = append(p.Scans, PackScan{title(said(last.Unit)), s.scanRow(at, first), s.scanRow(at, last), first == last})
		}
		for _, x := range v.Snags {
			if list := p.listOf(x); list != nil {
				*list = append(*list, s.fullRow(at, x))
			}
		}
		p.Contents = p.contents()
		return p, nil
	})
}

// contents lead to the sections there are, in their order.
func (p *packPage) contents() []Link {
	var list []Link
	add := func(there bool, text, id string) {
		if there {
			list = append(list, Link{Text: text, Href: "#" + id})
		}
	}
	add(p.Cleared, "Cleared for sale by its record", "_h-requirements")
	add(!p.Cleared, "Not cleared for sale", "_h-requirements")
	add(true, "The vehicle", "_h-vehicle")
	add(p.Disclosed != nil, "Not mended, and told to you", "_h-disclosed")
	add(p.Left != nil, "Temporary fixes still in place", "_h-left")
	add(p.Open != nil, "Still outstanding", "_h-open")
	add(true, "Open questions", "_h-questions")
	add(p.Contact != "", "Who to ask", "_h-contact")
	add(p.Temporary != nil, "Temporary fixes put right", "_h-temporary")
	for _, b := range p.Systems {
		add(true, b.Name+": what was done", b.ID)
	}
	add(p.Parts != nil, "Parts on the vehicle", "_h-parts")
	add(p.Checks != nil, "Checks", "_h-checks")
	add(p.Readings != nil, "Readings", "_h-readings")
	add(p.Scans != nil, "Fault scans", "_h-scans")
	return list
}

// listOf is the list of the pack that a snag stands in; nil for what was put right
// and is told by system.
func (p *packPage) listOf(x *journal.SnagView) *[]SnagRow {
	switch {
	case isTemporary(x) && !x.Open:
		return &p.Temporary
	case !x.Open:
		return nil
	case isTemporary(x):
		return &p.Left
	case x.Disclose:
		return &p.Disclosed
	case x.Kind == "decide" || x.Kind == "inspect":
		return &p.Questions
	}
	return &p.Open
}

func (s *site) packPart(at string, x *journal.PartView) PackPart {
	p := PackPart{Name: title(x.Description), State: x.State, System: said(x.System), When: when(x.Since), Kind: words(nonEmpty(x.Condition, x.Origin)...)}
	if p.Kind == "" && x.State == "refitted" {
		p.Kind = "the vehicle’s own"
	}
	for _, f := range []Fact{{Name: "from", Value: x.Supplier}, {Name: "number", Value: x.Number}, {Name: "donor", Value: x.Donor}, {Name: "warranty until", Value: day(x.Warranty)}} {
		if f.Value != "" {
			p.Facts = append(p.Facts, f)
		}
	}
	for _, e := range x.Events {
		if e.State == x.State {
			p.When = around(s.session(at, e.Session), when(e.Date))
		}
	}
	return p
}

func (s *site) packReading(at string, x *journal.ReadingSeries) PackReading {
	r := x.Readings[len(x.Readings)-1]
	row := PackReading{Name: title(said(x.Name)), Value: minus(r.Value.String()), Limits: limits(r.Limits), Outside: r.Outside != "",
		Verdict: verdict(r), When: around(s.session(at, r.Session), when(r.Date))}
	if n := len(x.Readings); n > 1 {
		row.Times = "newest of " + grouped(n)
	}
	return row
}

// systemBlocks tells what was done, system by system; what belongs to none comes last.
func (s *site) systemBlocks(at string) []SystemBlock {
	var list []SystemBlock
	shown := map[string]bool{} // pictures; each is shown once
	for _, system := range append(slices.Clone(note.Systems), "") {
		b := SystemBlock{ID: "_h-system-" + system, Name: title(said(system))}
		if system == "" {
			b.ID, b.Name = "_h-system-none", "Everything else"
		}
		add := func(pictures []*Picture) {
			for _, p := range pictures {
				if !shown[p.Href] {
					shown[p.Href] = true
					b.Pictures = append(b.Pictures, p)
				}
			}
		}
		for _, x := range s.v.Parts {
			if x.System == system && fitted(x) {
				b.Parts = append(b.Parts, s.packPart(at, x))
				add(s.pictures(at, x.Photos, x.Description))
			}
		}
		for _, x := range s.v.Snags {
			if x.System == system && !x.Open && x.ID != "" && !isTemporary(x) && x.Source != journal.FromSurcharge {
				row := s.fullRow(at, x)
				add(row.Pictures)
				b.Done = append(b.Done, row)
			}
		}
		for _, x := range s.v.Checks {
			if x.System == system {
				add(s.pictures(at, x.Photos, title(said(x.Name))))
			}
		}
		for _, x := range s.v.Sessions {
			if x.System == system {
				add(s.bodyPictures(at, x.Body))
			}
		}
		if len(b.Parts)+len(b.Done)+len(b.Pictures) > 0 {
			list = append(list, b)
		}
	}
	return list
}

// fitted tells whether a part is on the vehicle.
func fitted(x *journal.PartView) bool { return x.State == "fitted" || x.State == "refitted" }
