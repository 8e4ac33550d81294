package render

import (
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/view"
	"guidecoat/render/markup"
)

// What was hit, and how fasteners were tightened.

// damage tells what was hit, place by place.
func (p *leaf) damage() {
	markup.Each(p.W, p.v.Damage, `<section aria-labelledby="_h-damage"><h2 id="_h-damage">{Damage}</h2>
<ul class="plain">
`, func(d *view.DamageView) {
		p.Raw("<li><b>").Text(title(d.Place)).Raw("</b>").With(": ", d.Words, "").If(d.Flood, " · {flooded}").With(" · {fired:} ", strings.Join(d.Fired, ", "), "")
		var systems []string
		for _, s := range d.Systems {
			systems = append(systems, p.Name(s))
		}
		p.With(" <small>", strings.Join(systems, ", "), "</small>")
		p.prints(d.Photos, note.PlainWords(d.Words)).Raw("</li>\n")
	}, "</ul></section>\n")
}

// putTightening writes what was done with a fastener.
func putTightening(p *leaf, t view.TighteningView) {
	p.value(p.Figure(t.How), t.Lacks.Some()).With(" <small>", t.Words, "</small>").With(" · {by} ", t.By, "").With(" · ", p.Tell(t.Lacks), "")
}

// fasteners tells how those of a part were tightened.
func (p *leaf) fasteners(x *view.PartView) {
	markup.Each(p.W, p.v.FastenersOf(x.ID), "<ul class=\"plain fasteners\">\n", p.fastener, "</ul>\n")
}

// fastener writes one of the job card's fasteners, and what was done with it last.
func (p *leaf) fastener(f *view.FastenerView) {
	p.Raw("<li>").Text(title(p.Name(f.ID))).Raw(", ").Text(p.Figure(f.Asked)).If(f.SingleUse, ", {single use}").If(f.RideHeight, ", {at ride height}").With(" <small>", f.Words, "</small>").Raw(": ")
	if n := len(f.Tightened); n > 0 {
		putTightening(p, f.Tightened[n-1])
		p.Raw(", ")
		p.date(f.Tightened[n-1].Session, f.Tightened[n-1].Date)
	} else {
		p.Raw("{not recorded as tightened}")
	}
	p.If(f.Loose, ` <strong class="late">{still to be tightened}</strong>`).Raw("</li>\n")
}
