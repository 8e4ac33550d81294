package render

import (
	"cmp"
	"html/template"
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
)

// What the buyer's pack lists, section by section, to be bound in volumes.

// happenedTo is the heading over the job card's own words and the pictures of the
// vehicle as it came.
const happenedTo = "What happened to it"

// packFound are the pictures of the sessions before anything was put on the vehicle,
// but for those of a system, which come with it.
func (s *site) packFound(shown map[string]bool) []packEntry {
	var list []packEntry
	for _, x := range s.v.Sessions {
		if slices.ContainsFunc(x.Parts, func(e view.PartEvent) bool { return e.State == "fitted" || e.State == "refitted" }) {
			break
		}
		if x.System != "" {
			continue
		}
		for _, picture := range s.bodyPictures("pack.html", x.Body) {
			if !shown[picture.Href] {
				shown[picture.Href] = true
				list = append(list, packEntry{"_h-happened", happenedTo, 2, nil, func(at string, p *packPage) { p.Found = append(p.Found, picture.from(at)) }})
			}
		}
	}
	return list
}

// packRow is a snag with its story, if it came back.
func (s *site) packRow(at string, x *view.SnagView) SnagRow {
	row, events := s.fullRow(at, x), told(x)
	all := row.Events
	row.Anchor, row.Events = s.paths.snags[x], nil
	if slices.ContainsFunc(events, func(e view.EventView) bool { return e.What == journal.Reopened }) {
		for i, e := range events {
			if e.What != journal.Remarked {
				row.Events = append(row.Events, all[i])
			}
		}
	}
	return row
}

// receiptsOf are the receipts of the lines of money that are so, each once.
func (s *site) receiptsOf(at string, is func(*view.MoneyLine) bool) []template.HTML {
	if s.v.Money == nil {
		return nil
	}
	var list []template.HTML
	for _, l := range s.v.Money.Lines {
		if l.Receipt != "" && is(l) {
			if r := s.receipt(at, l.Note, l.Receipt); !slices.Contains(list, r) {
				list = append(list, r)
			}
		}
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
				list = append(list, packEntry{section.id, section.name, 2, []string{s.paths.snags[x]}, func(at string, p *packPage) {
					rows := section.of(p)
					*rows = append(*rows, s.packRow(at, x))
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
func packList(x *view.SnagView) int {
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
			list = append(list, packEntry{"_h-parts", "Parts on the vehicle", 1, nil, func(at string, p *packPage) { p.Parts = append(p.Parts, s.packPart(at, x)) }})
		}
	}
	for _, c := range s.v.Checks {
		list = append(list, packEntry{"_h-checks", "Checks", 1, nil, func(at string, p *packPage) { p.Checks = append(p.Checks, s.checkRow(at, c)) }})
	}
	for _, x := range s.series {
		list = append(list, packEntry{"_h-readings", "Readings", 1, nil, func(at string, p *packPage) { p.Readings = append(p.Readings, s.packReading(at, x)) }})
	}
	for _, x := range s.v.ScansByUnit() {
		first, last := x[0], x[len(x)-1]
		list = append(list, packEntry{"_h-scans", "Fault scans", 1 + len(first.Codes) + len(last.Codes), nil, func(at string, p *packPage) {
			p.Scans = append(p.Scans, PackScan{title(said(last.Unit)), s.scanRow(at, first), s.scanRow(at, last), first == last})
		}})
	}
	return list
}

func (s *site) packPart(at string, x *view.PartView) PackPart {
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
			p.When, p.Remark = around(s.session(at, e.Session), when(e.Date)), e.Remark
		}
	}
	p.Receipts = joined(s.receiptsOf(at, func(l *view.MoneyLine) bool { return l.Part == x.ID }), ", ")
	return p
}

func (s *site) packReading(at string, x *view.ReadingSeries) PackReading {
	r := x.Readings[len(x.Readings)-1]
	row := PackReading{Name: title(said(x.Name)), Value: minus(r.Value.String()), Limits: limits(r.Limits), Outside: r.Outside != "",
		Verdict: verdict(r), When: around(s.session(at, r.Session), when(r.Date))}
	if n := len(x.Readings); n > 1 {
		row.Times = "newest of " + grouped(n)
	}
	return row
}

// packSystem is the system that a snag is told under. That of a fault code is what its
// control unit's name holds, whatever was worked on when it was read.
func packSystem(x *view.SnagView) string { return cmp.Or(note.SystemOfUnit(x.Unit), x.System) }

// packSystems tell what was done, system by system; what belongs to none comes last.
func (s *site) packSystems(shown map[string]bool) []packEntry {
	const front = "pack.html"
	var list []packEntry
	for _, system := range append(slices.Clone(note.Systems), "") {
		id, name := "_h-system-"+system, title(said(system))
		if system == "" {
			id, name = "_h-system-none", "Everything else"
		}
		add := func(weight int, anchor string, put func(at string, b *SystemBlock)) {
			list = append(list, packEntry{id, name + ": what was done", weight, nonEmpty(anchor), func(at string, p *packPage) {
				if n := len(p.Systems); n == 0 || p.Systems[n-1].ID != id {
					p.Systems = append(p.Systems, SystemBlock{ID: id, Name: name})
				}
				put(at, &p.Systems[len(p.Systems)-1])
			}})
		}
		var pictures []*Picture
		for _, x := range s.v.Parts {
			if x.System == system && fitted(x) {
				add(1, "", func(at string, b *SystemBlock) { b.Parts = append(b.Parts, s.packPart(at, x)) })
				pictures = append(pictures, s.pictures(front, x.Photos, x.Description)...)
			}
		}
		for _, x := range s.v.Snags {
			if packSystem(x) == system && !x.Open && x.ID != "" && !isTemporary(x) && x.Source != state.FromSurcharge {
				add(2, s.paths.snags[x], func(at string, b *SystemBlock) { b.Done = append(b.Done, s.packRow(at, x)) })
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
				add(2, "", func(at string, b *SystemBlock) { b.Pictures = append(b.Pictures, p.from(at)) })
			}
		}
	}
	return list
}

// fitted tells whether a part is on the vehicle.
func fitted(x *view.PartView) bool { return x.State == "fitted" || x.State == "refitted" }
