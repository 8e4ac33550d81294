package render

import "guidecoat/render/markup"

// A Plate is one key figure.
type Plate struct{ Label, Value, Note, Href string }

func writePlates(w *markup.W, list []Plate) {
	markup.Each(w, list, "<dl class=\"plates\">\n", func(p Plate) {
		label := w.Called(p.Label)
		w.Raw(`<div class="plate"><dt>`).Text(label).Raw("</dt><dd>")
		if p.Href != "" {
			w.Raw(`<a class="figure"`).Href(p.Href).Raw(` aria-label="`).Text(label).Raw(": ").Text(p.Value).Raw(`">`).Text(p.Value).Raw("</a>")
		} else {
			w.Raw(`<span class="figure">`).Text(p.Value).Raw("</span>")
		}
		w.With(" <small>", p.Note, "</small>").Raw("</dd></div>\n")
	}, "</dl>\n")
}

func (p *leaf) volumes(b *book) {
	markup.Each(p.W, b.nav(p.path), "<nav class=\"volumes\" aria-label=\"{Pages of this list}\"><ul>\n", func(shelf Shelf) {
		p.Raw("<li>").With("", shelf.Name, ": ")
		for _, l := range shelf.Pages {
			p.Raw("<a").Href(l.Href)
			if shelf.Name != "" {
				p.Raw(` aria-label="`).Text(p.Say("%s, page %s", shelf.Name, l.Text)).Raw(`"`)
			}
			p.With(` aria-current="`, l.Current, `"`).Raw(">").Text(l.Text).Raw("</a> ")
		}
		p.Raw("</li>\n")
	}, "</ul></nav>\n")
}

// writeLink writes words that lead somewhere, or plain words where Href is "".
func writeLink(w *markup.W, l Link) *markup.W {
	if l.Href == "" || l.Text == "" {
		return w.Words(l.Typed, l.Text)
	}
	return w.Raw("<a").Href(l.Href).With(` aria-current="`, l.Current, `"`).Raw(">").Words(l.Typed, l.Text).Raw("</a>")
}

// A Fact is a name and what is known under it.
type Fact struct {
	Name, Value string
	Note        string // what the name means, where few will know it
	Typed       bool   // the value is of the notes
}

func (p *leaf) facts(list []Fact) *markup.W {
	p.Raw("<dl class=\"facts\">\n")
	for _, f := range list {
		p.Raw("<div><dt>").Text(f.Name).Raw("</dt><dd>").Words(f.Typed, f.Value).With("<br><small>", f.Note, "</small>").Raw("</dd></div>\n")
	}
	return p.Raw("</dl>")
}

// writeImage writes a picture; sizes says how wide it is shown.
func writeImage(w *markup.W, class string, p *Picture, sizes string) *markup.W {
	w.Raw("<img").With(` class="`, class, `"`).Src(p.Src)
	if p.Srcset != "" {
		w.Raw(` srcset="`).Text(p.Srcset).Raw(`" sizes="`).Text(sizes).Raw(`"`)
	}
	return w.Raw(` width="`).Int(p.Width).Raw(`" height="`).Int(p.Height).Raw(`" alt="`).Text(p.Alt).Raw(`"`).InTyped().
		If(p.Eager, ` loading="eager" fetchpriority="high">`).If(!p.Eager, ` loading="lazy" decoding="async">`)
}

// inTurn has the first picture of a page fetched at once, and the others when somebody scrolls to them.
func (p *leaf) inTurn(x *Picture) *Picture {
	x.Eager, p.pictured = !p.pictured, true
	return x
}

// prints writes those of a list of files that are pictures, small, each leading to its large one.
func (p *leaf) prints(files []string, alt string) *markup.W {
	markup.Each(p.W, p.pictures(p.path, files, alt), "<div class=\"prints\">\n", func(x *Picture) {
		writeImage(p.Raw(`<a class="print"`).Href(x.Href).Raw(">"), "", p.inTurn(x), "14rem").Raw("</a>\n")
	}, "</div>")
	return p.W
}

// writeWithheld tells of what is outstanding but not shown.
func (p *leaf) writeWithheld() *markup.W {
	first := true
	markup.Each(p.W, withheldFrom(p.site), `<p class="withheld">{Outstanding besides these:} `, func(s string) {
		p.If(!first, "; ").Text(s)
		first = false
	}, ". {Ask the builder about it.}</p>")
	return p.W
}
