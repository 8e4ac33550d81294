package render

import (
	"html/template"
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
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
	Drive        Drive
	Vehicle      []Fact
	About        template.HTML // the job card's own words
	Found        []*Picture    // of the sessions before anything was put on it
	Workers      []Worker
	Receipts     string // leads to where the receipts of all lines are
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
	Stops []StopRow
	More  []string // what else stands in its way, without saying what it is
}

// A StopRow is one thing that stands in the way, leading to it.
type StopRow struct {
	Link template.HTML
	ID   string
}

// Drive is whether the vehicle may be driven by its record.
type Drive struct {
	May      bool
	Open     []RequirementRow // what is not met
	Test     *CheckRow        // the newest roadworthiness test
	ToChecks string
}

// A Worker is somebody other than the builder with what they did.
type Worker struct {
	Name string
	Did  []Link
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
	Remark                    string // of the line that says where it is now
	When                      template.HTML
	Facts                     []Fact
	Receipts                  template.HTML
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
	anchors  []string // its own
	put      func(at string, p *packPage)
}

// bindPack keeps the pack on one page, to be printed whole, unless it is as long as a
// book. Then what a buyer must know is in front, and each section begins a page.
func (s *site) bindPack() {
	var list []packEntry
	if s.v.Handover != nil {
		shown := map[string]bool{} // pictures; each is shown once
		list = slices.Concat(s.packFound(shown), s.packSnags(false), s.packSnags(true), s.packSystems(shown), s.packTables())
	}
	s.pack = bind(binding{front: "pack.html", taken: s.paths.taken}, list, func(e packEntry) entry {
		shelf := entry{shelf: strings.TrimPrefix(e.id, "_h-"), name: e.name, weight: e.weight, anchors: append([]string{e.id}, e.anchors...)}
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
			if err := s.packFront(at, p); err != nil {
				return nil, err
			}
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
func (s *site) packFront(at string, p *packPage) (err error) {
	v := s.v
	p.Cleared, p.Vehicle, p.Withheld = v.Handover.Cleared, s.vehicleFacts(), s.withheld()
	for _, r := range v.Handover.Requirements {
		p.Requirements = append(p.Requirements, s.requirementRow(at, r))
	}
	p.Drive, p.Workers = s.drive(at), s.workers(at)
	if s.hasMoney() && len(s.receiptsOf(at, func(*view.MoneyLine) bool { return true })) > 0 {
		p.Receipts = root(at) + moneyFront
	}
	if tells(v.About) {
		if p.About, err = s.body(at, v.About, opening(v.About)); err != nil {
			return err
		}
	}
	for _, d := range v.Vehicle {
		if d.Kind() == journal.Contact {
			p.Contact = strings.TrimPrefix(p.Contact+"; "+d.Value, "; ")
		}
	}
	p.Contents = s.contents(at, p)
	return nil
}

// openSections are those that stand in front.
var openSections = map[string]bool{"_h-happened": true, "_h-disclosed": true, "_h-left": true, "_h-open": true, "_h-questions": true}

// contents lead to the sections there are, in their order.
func (s *site) contents(at string, p *packPage) []Link {
	var list []Link
	add := func(text, id string) {
		if href := s.pack.to(at, id); len(list) == 0 || list[len(list)-1].Href != href {
			list = append(list, Link{Text: text, Href: href})
		}
	}
	add("May it be driven?", "_h-drive")
	add(map[bool]string{true: "Cleared for sale by its record", false: "Not cleared for sale"}[p.Cleared], "_h-requirements")
	if len(p.Vehicle) > 0 {
		add("The vehicle", "_h-vehicle")
	}
	if p.About != "" {
		add(happenedTo, "_h-happened")
	}
	entries := s.pack.list
	for len(entries) > 0 && openSections[entries[0].id] {
		add(entries[0].name, entries[0].id)
		entries = entries[1:]
	}
	add("Open questions", "_h-questions")
	add("Who worked on it", "_h-workers")
	if p.Contact != "" {
		add("Who to ask", "_h-contact")
	}
	for _, e := range entries {
		add(e.name, e.id)
	}
	return list
}

func (s *site) requirementRow(at string, r view.RequirementView) RequirementRow {
	row := RequirementRow{About: title(r.About), Met: r.Met}
	for _, stop := range r.Stops[:min(len(r.Stops), stopsShown)] {
		row.Stops = append(row.Stops, s.stopRow(at, stop))
	}
	if more := len(r.Stops) - stopsShown; more > 0 {
		row.More = append(row.More, "and "+grouped(more)+" more")
	}
	row.More = append(row.More, withheldWords(r.Withheld)...)
	return row
}

// stopRow leads to what stands in the way. An id is told where the words do not say
// the same.
func (s *site) stopRow(at string, stop view.StopView) StopRow {
	switch {
	case stop.Snag != nil:
		row := StopRow{Link: link(s.pack.to(at, s.paths.snags[stop.Snag]), title(stop.Words))}
		if stop.Snag.Source == state.FromNote {
			row.ID = stop.Snag.ID
		}
		return row
	case stop.Part != nil:
		return StopRow{link(s.id(at, stop.Part.ID), title(stop.Words)), stop.Part.ID}
	}
	return StopRow{Link: link("", title(stop.Words))}
}

// drive tells whether the vehicle may be driven by its record.
func (s *site) drive(at string) Drive {
	d := Drive{May: s.v.Handover.Drivable, ToChecks: s.pack.to(at, "_h-checks")}
	for _, r := range s.v.Handover.ToDrive {
		if !r.Met {
			d.Open = append(d.Open, s.requirementRow(at, r))
		}
	}
	for _, c := range s.v.Checks {
		if strings.HasPrefix(c.Name, "roadworth") {
			d.Test = new(s.checkRow(at, c))
		}
	}
	return d
}

// workers are those that checks and paid labour name, in the order of their coming.
func (s *site) workers(at string) []Worker {
	var list []Worker
	did := func(name, what, session string) {
		i := slices.IndexFunc(list, func(w Worker) bool { return w.Name == name })
		if i < 0 {
			i, list = len(list), append(list, Worker{Name: name})
		}
		if !slices.ContainsFunc(list[i].Did, func(l Link) bool { return l.Text == what }) {
			list[i].Did = append(list[i].Did, Link{Text: what, Href: s.session(at, session)})
		}
	}
	if s.v.Money != nil {
		for _, l := range s.v.Money.Lines {
			if l.Category == "labour" && !l.Credit && l.Supplier != "" {
				did(l.Supplier, l.Description, l.Session)
			}
		}
	}
	for _, c := range s.v.Checks {
		if c.By != "" {
			did(c.By, said(c.Name), c.Session)
		}
	}
	return list
}
