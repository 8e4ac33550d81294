package render

import (
	"cmp"
	"slices"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/view"
	"guidecoat/render/markup"
)

// What the buyer's pack lists, section by section, to be bound in volumes.

// A packEntry is one thing in the pack: the section that it stands in, and how it is
// written.
type packEntry struct {
	id, name string
	heading  string // of the section, where the name is not all of it
	weight   int
	anchors  []string     // its own
	in       *markup.Wrap // the list or table that it is in
	write    func(packLeaf)
}

// The lists and tables of the pack.
var (
	album       = markup.Around("<ul class=\"album\">\n", "</ul>")
	openItems   = markup.Around("<ul class=\"items\">\n", "</ul>")
	doneItems   = markup.Around("<ul class=\"items cleared\">\n", "</ul>")
	systemItems = markup.Around("<ul class=\"items cleared\">\n", "</ul>\n")
	systemParts = markup.Around("<ul class=\"plain\">\n", "</ul>\n")
	checkItems  = markup.Around("<ul class=\"checks\">\n", "</ul>")
	partsTable  = markup.Around(`<table class="lines"><thead><tr><th scope="col">Part</th><th scope="col">Condition and origin</th><th scope="col">Since</th></tr></thead><tbody>
`, "</tbody></table>")
	fastenersTable = markup.Around(`<table class="lines"><thead><tr><th scope="col">Part</th><th scope="col">How it was tightened</th></tr></thead><tbody>
`, "</tbody></table>")
	readingsTable = markup.Around(`<table class="lines"><thead><tr><th scope="col">Reading</th><th scope="col">Value</th><th scope="col">Limits</th><th scope="col">Measured</th></tr></thead><tbody>
`, "</tbody></table>")
	scansTable = markup.Around(`<table class="lines"><thead><tr><th scope="col">Control unit</th><th scope="col">First scan</th><th scope="col">Last scan</th></tr></thead><tbody>
`, "</tbody></table>")
)

// bindPack keeps the pack on one page, to be printed whole, unless it is as long as a
// book. Then what a buyer must know is in front, and each section begins a page.
func bindPack(s *site) {
	var list []packEntry
	if s.v.Handover != nil {
		shown := map[string]bool{} // pictures; each is shown once
		list = slices.Concat(packFound(s, shown), packSnags(s, false), packSnags(s, true), packSystems(s, shown), packTables(s))
	}
	s.pack = bind(binding{front: packFront, taken: s.paths.taken}, list, func(e packEntry) entry {
		shelf := entry{shelf: strings.TrimPrefix(e.id, "_h-"), name: e.name, weight: e.weight, anchors: append([]string{e.id}, e.anchors...)}
		if openSections[e.id] {
			shelf.shelf, shelf.name = "open", "What to know"
		}
		return shelf
	})
}

// happenedTo is the heading over the job card's own words and the pictures of the
// vehicle as it came.
const happenedTo = "What happened to it"

// packFound are the pictures of the sessions before anything was put on the vehicle,
// but for those of a system, which come with it.
func packFound(s *site, shown map[string]bool) []packEntry {
	var list []packEntry
	for _, x := range s.v.Sessions {
		if slices.ContainsFunc(x.Parts, func(e view.PartEvent) bool { return e.State == "fitted" || e.State == "refitted" }) {
			break
		}
		if x.System == "" {
			list = append(list, packAlbum(packEntry{id: "_h-happened", name: happenedTo}, bodyPictures(s, packFront, x.Body), shown)...)
		}
	}
	return list
}

// packAlbum are pictures that were not shown yet, as entries of that section.
func packAlbum(of packEntry, pictures []*Picture, shown map[string]bool) []packEntry {
	var list []packEntry
	for _, x := range pictures {
		if shown[x.Href] {
			continue
		}
		shown[x.Href] = true
		of.weight, of.in, of.write = 2, album, func(p packLeaf) {
			x := x.from(p.path)
			writeImage(p.Raw("<li><figure><a").Href(x.Href).Raw(">"), "", x, "(min-width: 40em) 14rem, 45vw").Raw("</a>").With(`<figcaption aria-hidden="true">`, x.Alt, "</figcaption>").Raw("</figure></li>\n")
		}
		list = append(list, of)
	}
	return list
}

// receiptsOf are the receipts of the lines of money that are so, each once.
func receiptsOf(s *site, at string, is func(*view.MoneyLine) bool) []Link {
	if s.v.Money == nil {
		return nil
	}
	var list []Link
	for _, l := range s.v.Money.Lines {
		if l.Receipt != "" && is(l) {
			if r := receiptLink(s, at, l.Note, l.Receipt); !slices.Contains(list, r) {
				list = append(list, r)
			}
		}
	}
	return list
}

// packSnags are the snags that have a list of their own, those that are cleared or
// the others, list by list.
func packSnags(s *site, cleared bool) []packEntry {
	var list []packEntry
	for i, section := range packLists {
		for _, x := range s.v.Snags {
			if packList(x) == i && x.Open != cleared {
				e := section
				e.weight, e.anchors, e.in, e.write = 2, []string{s.paths.snags[x]}, openItems, func(p packLeaf) { p.packOpen(x) }
				if cleared {
					e.in, e.write = doneItems, func(p packLeaf) { p.packDone(x) }
				}
				list = append(list, e)
			}
		}
	}
	return list
}

// packLists are the lists of snags in the pack, in their order.
var packLists = []packEntry{
	{id: "_h-disclosed", name: "Not mended, and told to you"},
	{id: "_h-left", name: "Temporary fixes still in place"},
	{id: "_h-open", name: "Still outstanding"},
	{id: "_h-questions", name: "Open questions"},
	{id: "_h-temporary", name: "Temporary fixes put right", heading: "Temporary fixes, and how each was put right"},
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

// packOpen writes a snag that is outstanding.
func (p packLeaf) packOpen(x *view.SnagView) {
	p.Raw(`<li class="item `).Text(x.Severity.String()).Raw(`" id="`).Text(p.paths.snags[x]).Raw(`"><p class="labels">`)
	p.severity(x).With(` <span class="kind">`, kindOf(x), "</span>")
	p.snagID(x).Raw(`</p>
<p class="words" dir="auto">`)
	p.words(x, x.Words).Raw("</p>\n")
	p.prints(x.Photos(), note.PlainWords(x.Words)).Raw(`<p class="about">since `)
	p.date(x.Session, x.Opened).With(" · ", whereOf(x), "").With(" · ", sourceOf(x), "").Raw("</p>\n")
	p.packStory(x)
}

// packDone writes a snag that was put right.
func (p packLeaf) packDone(x *view.SnagView) {
	p.Raw(`<li class="item" id="`).Text(p.paths.snags[x]).Raw(`"><p class="words" dir="auto">`)
	p.words(x, x.Words).Raw("</p>\n")
	p.how(x).Raw(`<p class="about">`).With("<code>", x.ID, "</code> ")
	p.fromTo(x).With(" · ", sourceOf(x), "").Raw("</p>\n")
	p.packStory(x)
}

// packStory tells of a snag that came back what was done, and ends it.
func (p packLeaf) packStory(x *view.SnagView) {
	events := told(x)
	if slices.ContainsFunc(events, func(e view.EventView) bool { return e.What == fact.Reopened }) {
		p.events(x, slices.DeleteFunc(slices.Clone(events), func(e view.EventView) bool { return e.What == fact.Remarked }))
		p.Raw("\n")
	}
	p.Raw("</li>\n")
}

// packTables are the tables behind the systems: parts, checks, readings, scans.
func packTables(s *site) []packEntry {
	var list []packEntry
	for _, x := range s.v.Parts {
		if fitted(x) {
			list = append(list, packEntry{id: "_h-parts", name: "Parts on the vehicle", weight: 1, in: partsTable, write: func(p packLeaf) { p.packPart(x) }})
		}
	}
	for _, x := range s.v.Parts {
		if fitted(x) && slices.ContainsFunc(x.Systems, note.IsSafety) {
			list = append(list, packEntry{id: "_h-fasteners", name: "Fasteners", heading: "Fasteners of what carries, steers, stops and protects", weight: 1, in: fastenersTable, write: func(p packLeaf) { p.packFasteners(x) }})
		}
	}
	for _, c := range s.v.Checks {
		list = append(list, packEntry{id: "_h-checks", name: "Checks", weight: 1, in: checkItems, write: func(p packLeaf) {
			p.checkItem(c)
			p.Raw("</div></li>\n")
		}})
	}
	for _, x := range s.series {
		list = append(list, packEntry{id: "_h-readings", name: "Readings", weight: 1, in: readingsTable, write: func(p packLeaf) { p.packReading(x) }})
	}
	for _, x := range s.v.ScansByUnit() {
		first, last := x[0], x[len(x)-1]
		list = append(list, packEntry{id: "_h-scans", name: "Fault scans", heading: "Fault scans, before and after", weight: 1 + len(first.Codes) + len(last.Codes), in: scansTable, write: func(p packLeaf) {
			p.Raw(`<tr><th scope="row">`).Text(title(said(last.Unit))).Raw("</th><td>")
			if first == last {
				p.Raw("the only one")
			} else {
				p.packScan(first)
			}
			p.Raw("</td><td>")
			p.packScan(last)
			p.Raw("</td></tr>\n")
		}})
	}
	return list
}

func (p packLeaf) packScan(sc *view.ScanView) {
	p.date(sc.Session, sc.Date).Raw(": ").Text(scanned(sc))
	for _, c := range sc.Codes {
		p.Raw("<br><code>")
		p.code(sc, c).Raw(" <small>").Text(note.Decode(c.Code)).Raw("</small>")
	}
}

// since is the event since which a part is what it is; without one, a date alone.
func since(x *view.PartView) view.PartEvent {
	now := view.PartEvent{State: x.State, Date: x.Since}
	for _, e := range x.Events {
		if e.State == x.State {
			now = e
		}
	}
	return now
}

// origin says of a part where it comes from and in what condition.
func origin(x *view.PartView) string {
	if kind := words(nonEmpty(x.Condition, x.Origin)...); kind != "" || x.State != "refitted" {
		return kind
	}
	return "the vehicle’s own"
}

// packPart writes a part that is on the vehicle.
func (p packLeaf) packPart(x *view.PartView) {
	p.Raw("<tr><td>").Text(title(x.Description)).With(" <small>", said(x.System), "</small>").With(" <small>from ", x.Supplier, "</small>").With(" <small>number ", x.Number, "</small>").
		With(" <small>donor ", p.donor(x.Donor), "</small>").With(" <small>warranty until ", day(x.Warranty), "</small>")
	first := true
	markup.Each(p.W, receiptsOf(p.leaf.site, p.path, func(l *view.MoneyLine) bool { return l.Part == x.ID }), " <small>receipt ", func(l Link) {
		p.If(!first, ", ")
		p.link(l.Href, l.Text)
		first = false
	}, "</small>")
	now := since(x)
	p.Raw("</td><td>").Text(origin(x)).Raw(`</td><td class="date">`)
	p.date(now.Session, now.Date).Raw("</td></tr>\n")
}

// packReading writes the newest reading of one name.
func (p packLeaf) packReading(x *view.ReadingSeries) {
	r := x.Newest()
	p.Raw("<tr><td>").Text(title(said(x.Name))).Raw("</td><td>")
	p.value(minus(r.Value.String()), r.Outside != "").With(" <small>", verdict(r), "</small>").Raw("</td><td>").Text(limits(r.Limits)).Raw(`</td><td class="date">`)
	p.date(r.Session, r.Date)
	if n := len(x.Readings); n > 1 {
		p.Raw(" <small>newest of ").Text(grouped(n)).Raw("</small>")
	}
	p.Raw("</td></tr>\n")
}

// packSystem is the system that a snag is told under. That of a fault code is what its
// control unit's name holds, whatever was worked on when it was read.
func packSystem(x *view.SnagView) string { return cmp.Or(note.SystemOfUnit(x.Unit), x.System) }

// systemID begins the ids of the sections of systems.
const systemID = "_h-system-"

// packSystems tell what was done, system by system; what belongs to none comes last.
func packSystems(s *site, shown map[string]bool) []packEntry {
	var list []packEntry
	for _, system := range append(slices.Clone(note.Systems), "") {
		of := packEntry{id: systemID + cmp.Or(system, "none"), name: cmp.Or(title(said(system)), "Everything else") + ": what was done"}
		var pictures []*Picture
		for _, x := range s.v.Parts {
			if x.System == system && fitted(x) {
				of.weight, of.in, of.write = 1, systemParts, func(p packLeaf) { p.systemPart(x) }
				list = append(list, of)
				pictures = append(pictures, s.pictures(packFront, x.Photos(), x.Description)...)
			}
		}
		for _, x := range s.v.Snags {
			if packSystem(x) == system && !x.Open && x.ID != "" && !isTemporary(x) && x.Source != fact.FromSurcharge {
				e := of
				e.weight, e.anchors, e.in, e.write = 2, []string{s.paths.snags[x]}, systemItems, func(p packLeaf) { p.packDone(x) }
				list = append(list, e)
				pictures = append(pictures, s.pictures(packFront, x.Photos(), note.PlainWords(x.Words))...)
			}
		}
		for _, x := range s.v.Checks {
			if x.System == system {
				pictures = append(pictures, s.pictures(packFront, x.Photos, title(said(x.Name)))...)
			}
		}
		for _, x := range s.v.Sessions {
			if x.System == system {
				pictures = append(pictures, bodyPictures(s, packFront, x.Body)...)
			}
		}
		list = append(list, packAlbum(of, pictures, shown)...)
	}
	return list
}

// systemPart writes a part of a system that is on the vehicle.
func (p packLeaf) systemPart(x *view.PartView) {
	now := since(x)
	p.Raw("<li>")
	p.state(x.State).Raw(" ").Text(title(x.Description)).With(": ", now.Remark, "").Raw(" <small>")
	p.date(now.Session, now.Date).With(" · ", origin(x), "").Raw("</small></li>\n")
}

// fitted tells whether a part is on the vehicle.
func fitted(x *view.PartView) bool { return x.State == "fitted" || x.State == "refitted" }
