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
	Front        bool // the page with the requirements and the vehicle
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

// A packEntry is one thing in the pack: the section that it stands in, and how it is
// put on a page.
type packEntry struct {
	id, name string
	weight   int
	put      func(at string, p *packPage)
}

// bindPack keeps the pack on one page, to be printed whole, unless it is as long as a
// book. Then what a buyer must know is in front, and each section begins a page.
func (s *site) bindPack() {
	var list []packEntry
	if s.v.Handover != nil {
		list = slices.Concat(s.packSnags(false), s.packSnags(true), s.packSystems(), s.packTables())
	}
	s.pack = bind(binding{front: "pack.html", taken: s.paths.taken}, list, func(e packEntry) entry {
		shelf := entry{shelf: strings.TrimPrefix(e.id, "_h-"), name: e.name, weight: e.weight, anchors: []string{e.id}}
		if openSections[e.id] {
			shelf.shelf, shelf.name = "open", "What to know"
		}
		return shelf
	})
}

func (s *site) packSheets() []sheet {
	return s.pack.sheets(s.v.Handover != nil, func(vol volume) (any, error) {
		v, at := s.v, vol.path
		p := &packPage{Frame: s.frame(at, "pack", vol.heading("Handover record"), "What "+v.Name+" is, what was done to it, and what is still to be known."), Front: vol.front}
		p.Volumes = s.pack.nav(at)
		if n := len(v.Sessions); n > 0 {
			p.Lead = span(v.Sessions[0].Date, v.Sessions[n-1].Date) + ", " + count(n, "session")
		}
		if vol.front {
			s.packFront(at, p)
		}
		for _, e := range s.pack.in(vol) {
			e.put(at, p)
		}
		return *p, nil
	})
}

// stopsShown is how many of the things that a requirement is open for are listed.
const stopsShown = 50

// packFront is what only the first page of the pack has.
func (s *site) packFront(at string, p *packPage) {
	v := s.v
	p.Cleared, p.Vehicle, p.Withheld = v.Handover.Cleared, s.vehicleFacts(), s.withheld()
	for _, r := range v.Handover.Requirements {
		stops := r.Stops
		if more := len(stops) - stopsShown; more > 0 {
			stops = append(slices.Clone(stops[:stopsShown]), "and "+grouped(more)+" more")
		}
		p.Requirements = append(p.Requirements, RequirementRow{title(r.About), r.Met, append(slices.Clone(stops), withheldWords(r.Withheld)...)})
	}
	for _, d := range v.Vehicle {
		if d.Kind() == journal.Contact {
			p.Contact = strings.TrimPrefix(p.Contact+"; "+d.Value, "; ")
		}
	}
	p.Contents = s.contents(at, p)
}

// openSections are those of what is not done.
var openSections = map[string]bool{"_h-disclosed": true, "_h-left": true, "_h-open": true, "_h-questions": true}

// contents lead to the sections there are, in their order.
func (s *site) contents(at string, p *packPage) []Link {
	var list []Link
	add := func(text, id string) {
		if href := s.pack.to(at, id); len(list) == 0 || list[len(list)-1].Href != href {
			list = append(list, Link{Text: text, Href: href})
		}
	}
	add(map[bool]string{true: "Cleared for sale by its record", false: "Not cleared for sale"}[p.Cleared], "_h-requirements")
	add("The vehicle", "_h-vehicle")
	entries := s.pack.list
	for len(entries) > 0 && openSections[entries[0].id] {
		add(entries[0].name, entries[0].id)
		entries = entries[1:]
	}
	add("Open questions", "_h-questions")
	if p.Contact != "" {
		add("Who to ask", "_h-contact")
	}
	for _, e := range entries {
		add(e.name, e.id)
	}
	return list
}

// packSnags are the snags that have a list of their own, those that are cleared or
// the others, list by list.
func (s *site) packSnags(cleared bool) []packEntry {
	var list []packEntry
	for i, section := range packLists {
		for _, x := range s.v.Snags {
			if packList(x) == i && x.Open != cleared {
				list = append(list, packEntry{section.id, section.name, 2, func(at string, p *packPage) {
					rows := section.of(p)
					*rows = append(*rows, s.fullRow(at, x))
				}})
			}
		}
	}
	return list
}

// packLists are the lists of snags in the pack, in their order.
var packLists = []struct {
	id, name string
	of       func(*packPage) *[]SnagRow
}{
	{"_h-disclosed", "Not mended, and told to you", func(p *packPage) *[]SnagRow { return &p.Disclosed }},
	{"_h-left", "Temporary fixes still in place", func(p *packPage) *[]SnagRow { return &p.Left }},
	{"_h-open", "Still outstanding", func(p *packPage) *[]SnagRow { return &p.Open }},
	{"_h-questions", "Open questions", func(p *packPage) *[]SnagRow { return &p.Questions }},
	{"_h-temporary", "Temporary fixes put right", func(p *packPage) *[]SnagRow { return &p.Temporary }},
}

// packList is the list that a snag stands in, in packLists; -1 for what was put right
// and is told by system.
func packList(x *journal.SnagView) int {
	switch {
	case isTemporary(x) && !x.Open:
		return 4
	case !x.Open:
		return -1
	case isTemporary(x):
		return 1
	case x.Disclose:
		return 0
	case x.Kind == "decide" || x.Kind == "inspect":
		return 3
	}
	return 2
}

// packTables are the tables behind the systems: parts, checks, readings, scans.
func (s *site) packTables() []packEntry {
	var list []packEntry
	for _, x := range s.v.Parts {
		if fitted(x) {
			list = append(list, packEntry{"_h-parts", "Parts on the vehicle", 1, func(at string, p *packPage) { p.Parts = append(p.Parts, s.packPart(at, x)) }})
		}
	}
	for _, c := range s.v.Checks {
		list = append(list, packEntry{"_h-checks", "Checks", 1, func(at string, p *packPage) { p.Checks = append(p.Checks, s.checkRow(at, c)) }})
	}
	for _, x := range s.series {
		list = append(list, packEntry{"_h-readings", "Readings", 1, func(at string, p *packPage) { p.Readings = append(p.Readings, s.packReading(at, x)) }})
	}
	for _, x := range s.v.ScansByUnit() {
		first, last := x[0], x[len(x)-1]
		list = append(list, packEntry{"_h-scans", "Fault scans", 1 + len(first.Codes) + len(last.Codes), func(at string, p *packPage) {
			p.Scans = append(p.Scans, PackScan{title(said(last.Unit)), s.scanRow(at, first), s.scanRow(at, last), first == last})
		}})
	}
	return list
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

// packSystems tell what was done, system by system; what belongs to none comes last.
func (s *site) packSystems() []packEntry {
	const front = "pack.html"
	var list []packEntry
	shown := map[string]bool{} // pictures; each is shown once
	for _, system := range append(slices.Clone(note.Systems), "") {
		id, name := "_h-system-"+system, title(said(system))
		if system == "" {
			id, name = "_h-system-none", "Everything else"
		}
		add := func(weight int, put func(at string, b *SystemBlock)) {
			list = append(list, packEntry{id, name + ": what was done", weight, func(at string, p *packPage) {
				if n := len(p.Systems); n == 0 || p.Systems[n-1].ID != id {
					p.Systems = append(p.Systems, SystemBlock{ID: id, Name: name})
				}
				put(at, &p.Systems[len(p.Systems)-1])
			}})
		}
		var pictures []*Picture
		for _, x := range s.v.Parts {
			if x.System == system && fitted(x) {
				add(1, func(at string, b *SystemBlock) { b.Parts = append(b.Parts, s.packPart(at, x)) })
				pictures = append(pictures, s.pictures(front, x.Photos, x.Description)...)
			}
		}
		for _, x := range s.v.Snags {
			if x.System == system && !x.Open && x.ID != "" && !isTemporary(x) && x.Source != journal.FromSurcharge {
				add(2, func(at string, b *SystemBlock) { b.Done = append(b.Done, s.fullRow(at, x)) })
				pictures = append(pictures, s.pictures(front, x.Photos, note.PlainWords(x.Words))...)
			}
		}
		for _, x := range s.v.Checks {
			if x.System == system {
				pictures = append(pictures, s.pictures(front, x.Photos, title(said(x.Name)))...)
			}
		}
		for _, x := range s.v.Sessions {
			if x.System == system {
				pictures = append(pictures, s.bodyPictures(front, x.Body)...)
			}
		}
		for _, p := range pictures {
			if !shown[p.Href] {
				shown[p.Href] = true
				add(2, func(at string, b *SystemBlock) { b.Pictures = append(b.Pictures, p.from(at)) })
			}
		}
	}
	return list
}

// fitted tells whether a part is on the vehicle.
func fitted(x *journal.PartView) bool { return x.State == "fitted" || x.State == "refitted" }
