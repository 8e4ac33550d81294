package render

import (
	"cmp"
	"html/template"
	"slices"
	"strings"

	"guidecoat/journal/view"
)

type partsPage struct {
	Frame
	Count  string
	Jump   []Shelf
	Groups []PartGroup
}

// A PartGroup is the parts in one place: to come, in hand, on the vehicle, gone. Of
// many in one place it is those of one system.
type PartGroup struct {
	ID, Name string
	Rows     []PartCard
}

// A PartCard is one part.
type PartCard struct {
	ID, Name string
	State    string
	Late     bool
	Due      string
	Facts    []Fact
	Paid     string
	Events   []PartStep
	Pictures []*Picture
}

// A PartStep is one change of a part's state.
type PartStep struct {
	State  string
	When   template.HTML
	Remark string
}

// places are where a part can be, in the order of the page, and the states it is then in.
var places = []partPlace{
	{"_to-come", "Still to come", []string{"needed", "ordered"}, true},
	{"_in-hand", "In hand", []string{"arrived"}, true},
	{"_fitted", "On the vehicle", []string{"fitted", "refitted"}, false},
	{"_gone", "Returned, cancelled or sold", []string{"returned", "cancelled", "sold"}, false},
}

type partPlace struct {
	id, name string
	states   []string
	loose    bool // there is still something to be done with it
}

// whereabouts is where a part is, in places.
func whereabouts(x *view.PartView) int {
	return slices.IndexFunc(places, func(p partPlace) bool { return slices.Contains(p.states, x.State) })
}

// manyParts is how many parts in one place are listed by system.
const manyParts = 30

// A partHeading is what parts are listed under.
type partHeading struct {
	partPlace
	system string // "" where there are few in that place
}

func (h partHeading) anchor() string {
	if h.system == "" {
		return h.id
	}
	return h.id + "_" + slug(h.system)
}

func (h partHeading) heading() string {
	if h.system == "" {
		return h.name
	}
	return h.name + ": " + h.system
}

// partHeadings says of each part what it is listed under.
func (s *site) partHeadings() func(*view.PartView) partHeading {
	in := make([]int, len(places))
	for _, x := range s.v.Parts {
		in[whereabouts(x)]++
	}
	return func(x *view.PartView) partHeading {
		h := partHeading{partPlace: places[whereabouts(x)]}
		if in[whereabouts(x)] > manyParts {
			h.system = cmp.Or(said(x.System), x.Stage, "other")
		}
		return h
	}
}

// bindParts puts in front what is still to come or in hand.
func (s *site) bindParts() {
	list, under := slices.Clone(s.v.Parts), s.partHeadings()
	slices.SortStableFunc(list, func(a, b *view.PartView) int {
		return cmp.Or(whereabouts(a)-whereabouts(b), cmp.Compare(under(a).system, under(b).system))
	})
	s.parts = bind(binding{front: "parts.html", taken: s.paths.taken}, list, func(x *view.PartView) entry {
		where := places[whereabouts(x)]
		e := entry{shelf: slug(where.name), name: where.name, weight: 1 + len(x.Events) + len(x.Photos), anchors: []string{x.ID}}
		if where.loose {
			e.shelf, e.name = "loose", "To come and in hand"
		}
		return e
	})
}

func (s *site) partsSheets() []sheet {
	return s.parts.sheets(len(s.v.Parts) > 0, func(v volume) (any, error) {
		at := v.path
		p := partsPage{Frame: s.frame(at, "parts", v.heading("Parts"), "Every part of "+s.v.Name+" and where it is.")}
		p.Volumes = s.parts.nav(at)
		p.Count = count(len(s.v.Parts), "part")
		under := s.partHeadings()
		for _, x := range s.parts.in(v) {
			h := under(x)
			if n := len(p.Groups); n == 0 || p.Groups[n-1].ID != h.anchor() {
				p.Groups = append(p.Groups, PartGroup{ID: h.anchor(), Name: h.heading()})
				p.jumpTo(h)
			}
			g := &p.Groups[len(p.Groups)-1]
			g.Rows = append(g.Rows, s.partCard(at, x))
		}
		return p, nil
	})
}

// jumpTo leads to a heading of the page: those of one place stand behind its name.
func (p *partsPage) jumpTo(h partHeading) {
	place, to := "", Link{Text: h.name, Href: "#" + h.anchor()}
	if h.system != "" {
		place, to.Text = h.name, h.system
	}
	if n := len(p.Jump); n == 0 || p.Jump[n-1].Name != place {
		p.Jump = append(p.Jump, Shelf{Name: place})
	}
	last := &p.Jump[len(p.Jump)-1]
	last.Pages = append(last.Pages, to)
}

func (s *site) partCard(at string, x *view.PartView) PartCard {
	c := PartCard{ID: x.ID, Name: title(x.Description), State: x.State, Late: x.Late, Pictures: s.pictures(at, x.Photos, x.Description)}
	fact := func(name, value string) {
		if value != "" {
			c.Facts = append(c.Facts, Fact{Name: name, Value: value})
		}
	}
	waited := x.State == "needed" || x.State == "ordered"
	if waited {
		fact("Due", day(x.Due))
	}
	fact("Kind", strings.Join(nonEmpty(x.Condition, x.Origin), ", "))
	fact("Stage", x.Stage)
	fact("System", said(x.System))
	fact("From", x.Supplier)
	fact("Number", x.Number)
	fact("Donor", x.Donor)
	fact("Warranty until", day(x.Warranty))
	switch {
	case x.Paid != nil && !x.Paid.IsZero():
		c.Paid = minus(s.sum(*x.Paid))
		if !x.SurchargeBack.IsZero() {
			fact("Surcharge back", s.sum(x.SurchargeBack)+", not taken off what was paid")
		}
	case x.Free:
		c.Paid = "free"
	case x.Estimate != nil && waited:
		fact("Estimate", s.three(*x.Estimate))
	}
	for _, e := range x.Events {
		c.Events = append(c.Events, PartStep{e.State, around(s.session(at, e.Session), s.shortWhen(e.Date)), e.Remark})
	}
	return c
}
