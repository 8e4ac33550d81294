package render

import (
	"html/template"
	"strings"

	"guidecoat/journal"
)

type partsPage struct {
	Frame
	Count  string
	Groups []PartGroup
}

// A PartGroup is the parts in one place: to come, in hand, on the vehicle, gone.
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
var places = []struct {
	id, name string
	states   []string
}{
	{"_to-come", "Still to come", []string{"needed", "ordered"}},
	{"_in-hand", "In hand", []string{"arrived"}},
	{"_fitted", "On the vehicle", []string{"fitted", "refitted"}},
	{"_gone", "Returned, cancelled or sold", []string{"returned", "cancelled", "sold"}},
}

func (s *site) partsSheets() []sheet {
	const at = "parts.html"
	return one(len(s.v.Parts) > 0, at, func() (any, error) {
		p := partsPage{Frame: s.frame(at, "parts", "Parts", "Every part of "+s.v.Name+" and where it is.")}
		p.Count = count(len(s.v.Parts), "part")
		for _, where := range places {
			g := PartGroup{ID: where.id, Name: where.name}
			for _, x := range s.v.Parts {
				for _, state := range where.states {
					if x.State == state {
						g.Rows = append(g.Rows, s.partCard(at, x))
					}
				}
			}
			if len(g.Rows) > 0 {
				p.Groups = append(p.Groups, g)
			}
		}
		return p, nil
	})
}

func (s *site) partCard(at string, x *journal.PartView) PartCard {
	c := PartCard{ID: x.ID, Name: title(x.Description), State: x.State, Late: x.Late, Pictures: s.pictures(at, x.Photos, x.Description)}
	fact := func(name, value string) {
		if value != "" {
			c.Facts = append(c.Facts, Fact{name, value})
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
		c.Events = append(c.Events, PartStep{e.State, around(s.session(at, e.Session), shortWhen(e.Date)), e.Remark})
	}
	return c
}
