package render

import (
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
	"guidecoat/render/markup"
)

// What was hit, and how fasteners were tightened.

func writeDamage(p *leaf) {
	markup.Each(p.W, p.v.Damage, `<section aria-labelledby="_h-damage"><h2 id="_h-damage">{Damage}</h2>
<ul class="plain">
`, func(d *view.DamageView) {
		p.Raw("<li><b>").Quote("", title(d.Place), "").Raw("</b>").Quote(": ", d.Words, "").If(d.Flood, " · {flooded}").Quote(" · {fired:} ", strings.Join(d.Fired, ", "), "")
		systems := pick.Map(d.Systems, p.Name)
		p.With(" <small>", strings.Join(systems, ", "), "</small>")
		p.prints(d.Photos, note.PlainWords(d.Words)).Raw("</li>\n")
	}, "</ul></section>\n")
}

func putTightening(p *leaf, t view.TighteningView) {
	p.value(p.Figure(t.How), t.Lacks.Some()).Quote(" <small>", t.Words, "</small>").Quote(" · {by} ", t.By, "").With(" · ", p.Tell(t.Lacks), "")
}

// fasteners tells how those of a part were tightened.
func (p *leaf) fasteners(x *view.PartView) {
	markup.Each(p.W, p.v.FastenersOf(x.ID), "<ul class=\"plain fasteners\">\n", p.fastener, "</ul>\n")
}

// fastener writes one of the job card's fasteners, and what was done with it last.
func (p *leaf) fastener(f *view.FastenerView) {
	p.Raw("<li>").Named(f.ID, title(p.Name(f.ID))).Raw(", ").Text(p.Figure(f.Asked)).If(f.SingleUse, ", {single use}").If(f.RideHeight, ", {at ride height}").Quote(" <small>", f.Words, "</small>").Raw(": ")
	if n := len(f.Tightened); n > 0 {
		putTightening(p, f.Tightened[n-1])
		p.Raw(", ")
		p.date(f.Tightened[n-1].Session, f.Tightened[n-1].Date)
	} else {
		p.Raw("{not recorded as tightened}")
	}
	p.If(f.Loose, ` <strong class="late">{still to be tightened}</strong>`).Raw("</li>\n")
}

// vehicleFacts are what is known of the vehicle.
func vehicleFacts(s *site) []Fact {
	var list []Fact
	now := s.Distance(s.v.Odometer)
	var odometer []string // what the notes say now, and what the card said once
	for _, d := range s.v.Vehicle {
		switch {
		case now == "" || !isOdometer(d.Name):
			list = append(list, s.detail(d))
		case s.Distance(d.Value) != now:
			odometer = append(odometer, s.Distance(d.Value))
		}
	}
	if now != "" {
		words := now
		for _, other := range odometer {
			words = s.Say("%s; on the job card: %s", words, other)
		}
		list = append(list, Fact{Name: s.Word("Odometer"), Value: words})
	}
	return list
}

// details are what few know of a vehicle's details. What follows from a category differs by country, so nothing is said.
var details = map[string]Fact{
	"category": {Name: "Salvage category", Note: "how the damaged vehicle was classed before this work, such as by an insurer; what that means differs by country, so ask locally"},
	"keepers":  {Name: "Keepers", Note: "how many people or firms it has been registered to, as the builder knows it"},
}

// detail is one detail of the vehicle for people.
func (s *voice) detail(d view.Detail) Fact {
	f := details[strings.ToLower(d.Name)]
	if f.Name == "" {
		f.Name = s.Name(strings.ToLower(d.Name[:1]) + d.Name[1:])
	}
	return Fact{title(s.Word(f.Name)), d.Value, s.Word(f.Note), true}
}
