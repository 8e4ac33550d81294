package render

import (
	"cmp"
	"html/template"
	"path"
	"slices"
	"strconv"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
	"guidecoat/render/markdown"
)

type snagsPage struct {
	Frame
	Jump     []Shelf // to the parts of the page; nil where there is one
	Open     []SnagGroup
	Cleared  []SnagRow
	Count    string
	Counted  string // what the figures count
	Withheld []string
	Dial     *Dial
	Chart    *Chart // open snags over time
}

// A SnagGroup is snags under a heading.
type SnagGroup struct {
	ID, Name string
	Rows     []SnagRow
	More     string // how many are not listed here
}

// A SnagRow is one snag.
type SnagRow struct {
	Anchor            string
	ID                string
	Kind, Severity    string
	Words             template.HTML
	Link              template.HTML // the words, leading to the snag
	Where             string        // stage and system
	Opened, Cleared   template.HTML
	How               template.HTML // how it was cleared
	Due               string
	Overdue, Doable   bool
	SameDay           bool // opened and cleared by one session
	Waits             template.HTML
	Takes             string
	Disclose, Private bool
	Source            string
	Pictures          []*Picture
	Events            []EventRow
	Raw               template.HTML // its line in the note as typed
}

// An EventRow is one thing that was said of a snag.
type EventRow struct {
	What  string
	When  template.HTML
	Words template.HTML
}

// sources say where a snag comes from that nobody wrote down as one.
var sources = map[state.Source]string{
	state.FromDue:       "a check that the work made due",
	state.FromCheck:     "a check that failed",
	state.FromReading:   "a reading outside its limits",
	state.FromScan:      "a fault code",
	state.FromSurcharge: "a surcharge to come back",
}

// happened words what an event did.
var happened = map[journal.EventKind]string{
	journal.Opened: "Opened", journal.Remarked: "Noted", journal.Cleared: "Cleared", journal.Reopened: "Opened again",
}

// Where a snag stands in the list of all: temporary fixes first, then what else is
// outstanding, and last what was cleared.
const (
	atTemporary = iota
	atOpen
	atCleared
)

func standing(x *view.SnagView) int {
	switch {
	case !x.Open:
		return atCleared
	case isTemporary(x):
		return atTemporary
	}
	return atOpen
}

// bindSnags puts in front what is outstanding, and behind it by year what was
// cleared, the newest first.
func (s *site) bindSnags() {
	list := slices.Clone(s.v.Snags)
	slices.SortStableFunc(list, func(a, b *view.SnagView) int {
		if a.Open || b.Open {
			return standing(a) - standing(b)
		}
		return cmp.Compare(b.Cleared, a.Cleared)
	})
	s.snags = bind(binding{front: "snags.html", taken: s.paths.taken}, list, func(x *view.SnagView) entry {
		e := entry{shelf: "outstanding", name: "Outstanding", weight: 2 + len(told(x)) + len(x.Photos), anchors: []string{s.paths.snags[x], snagGroups[standing(x)].ID}}
		if !x.Open {
			e.shelf, e.name = year(x.Cleared), "Cleared in "+year(x.Cleared)
		}
		return e
	})
}

func (s *site) snagsSheets() []sheet {
	t := s.tally()
	return s.snags.sheets(len(s.v.Snags) > 0, func(v volume) (any, error) {
		at := v.path
		p := snagsPage{}
		if v.front {
			p.Withheld, p.Dial, p.Chart = s.withheld(), t.dial(), s.openChart()
		}
		p.Count = s.snagsOn(v, t)
		p.Frame = s.frame(at, "snags", v.heading("Snags"), "What is outstanding on "+s.v.Name+" and what was put right. "+p.Count)
		p.Volumes = s.snags.nav(at)
		list := s.snags.in(v)
		p.Open = s.outstanding(at, list, len(list))
		for _, x := range list {
			if !x.Open {
				p.Cleared = append(p.Cleared, s.fullRow(at, x))
			}
		}
		p.Jump = p.jump()
		if v.front {
			p.Counted = counted
		}
		return p, nil
	})
}

// counted says once what the figures of snags count.
const counted = "That counts what was written down as to be done, and checks due or failed, readings outside their limits, fault codes, surcharges to come back."

// snagsOn says how many snags there are, or of another page of the list, how many of
// those it goes on with.
func (s *site) snagsOn(v volume, t tally) string {
	if list := s.snags.in(v); !v.front {
		all, how := s.snags.on[v.name], " outstanding."
		if !list[0].Open {
			how = " cleared in " + year(list[0].Cleared) + "."
		}
		if len(list) == all {
			return grouped(all) + how
		}
		return grouped(len(list)) + " of the " + grouped(all) + how
	}
	switch {
	case t.unseen > 0:
		return grouped(t.open) + " outstanding, " + grouped(t.unseen) + " of them not shown here; " + grouped(t.cleared) + " cleared."
	case t.open > 0:
		return grouped(t.open) + " outstanding, " + grouped(t.cleared) + " cleared."
	default:
		return "Nothing is outstanding; " + grouped(t.cleared) + " cleared."
	}
}

// jump leads to the parts of the page.
func (p *snagsPage) jump() []Shelf {
	var list []Link
	for _, g := range p.Open {
		list = append(list, Link{Text: g.Name, Href: "#" + g.ID})
	}
	if p.Chart != nil {
		list = append(list, Link{Text: "Over time", Href: "#_h-time"})
	}
	if p.Cleared != nil {
		list = append(list, Link{Text: "Cleared", Href: "#_cleared"})
	}
	if len(list) < 2 {
		return nil
	}
	return []Shelf{{Pages: list}}
}

// snagGroups are the headings in the list of all, by where a snag stands.
var snagGroups = [...]SnagGroup{{ID: "_temporary", Name: "Temporary fixes"}, {ID: "_open", Name: "To be done"}, {ID: "_cleared"}}

// outstanding groups the open snags of a list, at most so many in each group.
func (s *site) outstanding(at string, all []*view.SnagView, most int) []SnagGroup {
	groups := slices.Clone(snagGroups[:atCleared])
	left := [atCleared]int{}
	for _, x := range all {
		if !x.Open {
			continue
		}
		i := standing(x)
		if len(groups[i].Rows) == most {
			left[i]++
			continue
		}
		groups[i].Rows = append(groups[i].Rows, s.fullRow(at, x))
	}
	var list []SnagGroup
	for i, g := range groups {
		if left[i] > 0 {
			g.More = "and " + grouped(left[i]) + " more"
		}
		if len(g.Rows) > 0 {
			list = append(list, g)
		}
	}
	return list
}

// snagRows are the snags of a session. What follows by itself is told as it was on
// that day: later work or readings may have given it other words.
func (s *site) snagRows(at string, list []*view.SnagView, session string) []SnagRow {
	var rows []SnagRow
	for _, x := range list {
		row := s.snagRow(at, x)
		for _, e := range x.Events {
			switch {
			case e.Session != session || e.What == journal.Cleared:
			case x.Source == state.FromReading:
				row.Link = s.leading(s.snag(at, x), e.Words)
			case x.Source == state.FromCheck && e.What == journal.Opened && e.Date != x.Failed: // it failed later
				row.Link = s.leading(s.snag(at, x), said(x.ID)+", "+e.Words)
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// snagRow is what a line of a list tells.
func (s *site) snagRow(at string, x *view.SnagView) SnagRow {
	return SnagRow{Anchor: s.paths.snags[x], ID: x.ID, Kind: kindOf(x), Severity: x.Severity.String(), Link: s.leading(s.snag(at, x), x.Words),
		Private: x.Private, Overdue: x.Overdue}
}

// leading makes words of the notes lead somewhere. Links of their own give way.
func (s *site) leading(href, words string) template.HTML {
	inline := s.md.Inline(words)
	if strings.Contains(string(inline), "<a") {
		return link(href, markdown.Plain(words))
	}
	return around(href, inline)
}

// kindOf leaves out the kind that is taken for granted.
func kindOf(x *view.SnagView) string {
	if x.Kind == "job" {
		return ""
	}
	return x.Kind
}

// fullRow is all that is known of a snag.
func (s *site) fullRow(at string, x *view.SnagView) SnagRow {
	r, links := s.snagRow(at, x), s.links(at, path.Dir(x.Note))
	r.Words = s.md.InlineWith(x.Words, links)
	r.Where = x.Stage
	if x.System != "" && x.System != x.Stage {
		if r.Where != "" {
			r.Where += ", "
		}
		r.Where += said(x.System)
	}
	r.Opened = around(s.session(at, x.Session), when(x.Opened))
	r.Cleared = around(s.session(at, x.ClearedInSession), when(x.Cleared))
	if x.Open {
		r.Due = day(x.Due)
		if x.DueAt != "" {
			r.Due = words(nonEmpty(r.Due, "at "+distance(x.DueAt))...)
		}
		var waits []template.HTML
		for _, id := range x.WaitsFor {
			waits = append(waits, link(s.id(at, id), s.named(id)))
		}
		r.Waits = joined(waits, ", ")
		r.Doable, r.Disclose = x.Doable && len(x.WaitsFor) > 0, x.Disclose
	}
	if x.Takes > 0 {
		r.Takes = minutes(x.Takes)
	}
	if to := s.paths.notes[x.Note]; to != "" {
		r.Raw = link(root(at)+to+"#L"+strconv.Itoa(x.Line), "line "+strconv.Itoa(x.Line))
	}
	r.Source = sources[x.Source]
	if x.Source == state.FromCheck && x.Failed != x.Opened { // the work made it due before it failed
		r.Source = "a check that was due then, and failed on " + day(x.Failed)
	}
	r.Pictures = s.pictures(at, x.Photos, note.PlainWords(x.Words))
	for i, e := range x.Events {
		said := EventRow{happened[e.What], around(s.session(at, e.Session), when(e.Date)), s.md.InlineWith(e.Words, links)}
		if e.What == journal.Cleared && i == len(x.Events)-1 {
			if said.Words != r.Words { // ticked in the line that opened it: said once
				r.How = said.Words
			}
		}
		r.Events = append(r.Events, said)
	}
	r.Events = r.Events[:len(told(x))]
	return r
}

// told are the events of a snag that are worth telling: opened and cleared are told anyway.
func told(x *view.SnagView) []view.EventView {
	if len(x.Events) < 3 {
		return nil
	}
	return x.Events
}

func nonEmpty(list ...string) []string {
	var out []string
	for _, s := range list {
		if s != "" {
			out = append(out, s)
		}
	}
	return out
}
