package render

import "guidecoat/render/markup"

func (p *leaf) chart(c *Chart, section *markup.Wrap) {
	if c == nil {
		return
	}
	p.Open(section).Raw(`<figure class="chart `).Text(c.Kind).Raw("\">\n")
	for _, d := range c.Drawings {
		d.write(p.W, c.Words)
	}
	p.Raw("<figcaption>").Text(c.Words).With(" ", c.Note, "").Raw(`</figcaption>
</figure>
<details><summary>`).Text(c.Table).Raw(`</summary>
<table class="lines"><thead><tr><th scope="col">`).Text(c.Head[0]).Raw(`</th><th scope="col" class="sum">`).Text(c.Head[1]).Raw("</th></tr></thead><tbody>\n")
	for _, r := range c.Rows {
		p.Raw(`<tr><th scope="row">`).Text(r.When).Raw(`</th><td class="sum">`).Text(r.Value).Raw("</td></tr>\n")
	}
	p.Raw("</tbody></table></details>").Close(section)
}

func (d *Drawing) write(w *markup.W, words string) {
	w.Raw(`<svg class="`).Text(d.Class).Raw(`" viewBox="0 0 `).Text(d.Width).Raw(" ").Text(d.Height).Raw(`" role="img" aria-label="`).Text(words).Raw("\">\n")
	across := func(class, at string) *markup.W {
		return w.Raw(`<line class="`).Text(class).Raw(`" x1="`).Text(d.Left).Raw(`" x2="`).Text(d.Right).Raw(`" y1="`).Text(at).Raw(`" y2="`).Text(at).Raw(`"/>`)
	}
	for _, t := range d.Y {
		across("grid", t.At).Raw(`<text class="y" x="`).Text(d.Left).Raw(`" dx="-10" y="`).Text(t.At).Raw(`" dy="5" text-anchor="end">`).Text(t.Words).Raw("</text>\n")
	}
	for _, t := range d.X {
		w.Raw(`<line class="month" x1="`).Text(t.At).Raw(`" x2="`).Text(t.At).Raw(`" y1="`).Text(d.Base).Raw(`" y2="`).Text(d.Base)
		w.Raw(`"/><text class="x" x="`).Text(t.At).Raw(`" y="`).Text(d.Base).Raw(`" dy="26" text-anchor="middle">`).Text(t.Words).Raw("</text>\n")
	}
	for _, b := range d.Bars {
		w.Raw(`<rect class="week" x="`).Text(b.X).Raw(`" y="`).Text(b.Y).Raw(`" width="`).Text(b.Width).Raw(`" height="`).Text(b.Height).Raw(`"/>`)
	}
	w.Raw("\n")
	if d.Line != "" {
		w.Raw(`<path class="area" d="`).Text(d.Area).Raw(`"/><path class="line" d="`).Text(d.Line).Raw("\"/>\n")
	}
	for _, t := range d.Rules {
		across("rule", t.At).Raw(`<text class="rule" x="`).Text(d.Left).Raw(`" dx="8" y="`).Text(t.At).Raw(`" dy="-8">`).Text(t.Words).Raw("</text>\n")
	}
	if e := d.End; e != nil {
		w.Raw(`<circle class="end" cx="`).Text(e.X).Raw(`" cy="`).Text(e.Y).Raw(`" r="5"/><text class="end" x="`).Text(e.X).Raw(`" dx="2" y="`).Text(e.At).Raw(`" text-anchor="end">`).Text(e.Words).Raw("</text>\n")
	}
	w.Raw("</svg>\n")
}
