package render

import (
	"path"
	"slices"
	"strings"
	"unicode/utf8"

	"guidecoat/journal/measure"
	"guidecoat/journal/pick"
	"guidecoat/journal/speech"
	"guidecoat/journal/view"
	"guidecoat/render/markdown"
	"guidecoat/render/markup"
)

// The pieces that pages are written of.

func (p *leaf) begin() *markup.W { return writeHeading(p.Raw("<header class=\"head\">\n"), p.heading) }

// longHeading is how many letters a heading has that is set smaller.
const longHeading = 60

// typedHeading writes the one h1 of a page that the notes have words for.
func typedHeading(w *markup.W, words string) *markup.W { return headingIn(w.Raw("<h1").Typed(), words) }

// writeHeading writes the one h1 of any other page, in the direction of its own letters.
func writeHeading(w *markup.W, words string) *markup.W {
	return headingIn(w.Raw(`<h1 dir="auto"`), words)
}

func headingIn(w *markup.W, words string) *markup.W {
	return w.If(utf8.RuneCountInString(words) > longHeading, ` class="long"`).Raw(">").Text(words).Raw("</h1>\n")
}

// A Plate is one key figure.
type Plate struct{ Label, Value, Note, Href string }

// A Fact is a name and what is known under it.
type Fact struct {
	Name, Value string
	Note        string // what the name means, where few will know it
	Typed       bool   // the value is of the notes
}

// wording writes the language of a snag's words, which are the notes' or the program's.
func (p *leaf) wording(own speech.Phrase, typed string) *markup.W {
	if own.Some() && p.Tell(own) != typed {
		return p.Raw(` dir="auto"`)
	}
	return p.Typed()
}

// worded writes words within other words, in their language.
func (p *leaf) worded(own speech.Phrase, typed string, write func()) *markup.W {
	if p.spoken() == "" {
		write()
		return p.W
	}
	p.Raw("<span")
	p.wording(own, typed).Raw(">")
	write()
	return p.Raw("</span>")
}

func (p *leaf) link(href, words string) *markup.W {
	return writeLink(p.W, Link{Text: words, Href: href})
}

// quoted does as link for words of the notes.
func (p *leaf) quoted(href, words string) *markup.W {
	return writeLink(p.W, Link{Text: words, Href: href, Typed: true})
}

// writeTime writes a date for people and machines; nothing for none.
func writeTime(w *markup.W, d measure.Date, words string) *markup.W {
	if d == 0 {
		return w
	}
	return w.Raw(`<time datetime="`).Text(d.String()).Raw(`">`).Text(words).Raw("</time>")
}

// date writes a date that leads to the session of that name.
func (p *leaf) date(session string, d measure.Date) *markup.W { return p.dated(session, d, p.Day(d)) }

// shortDate writes "11 Apr", with the year in a build that lasts longer than one.
func (p *leaf) shortDate(session string, d measure.Date) *markup.W {
	return p.dated(session, d, p.ShortDay(d, p.inYears))
}

func (p *leaf) dated(session string, d measure.Date, words string) *markup.W {
	href := p.toSession(p.path, session)
	if href == "" || d == 0 {
		return writeTime(p.W, d, words)
	}
	return writeTime(p.Raw("<a").Href(href).Raw(">"), d, words).Raw("</a>")
}

// body writes a note's Markdown below the heading, without the pictures shown already.
func (p *leaf) body(b *view.Body, heading string, shown ...*shot) *markup.W {
	if b == nil {
		return p.W
	}
	l := linksFrom(p.site, p.path, b.Dir)
	l.SkipHeading = heading
	picture := l.Picture
	l.Picture = func(target, alt string) (markdown.Picture, bool) {
		f := p.find(b.Dir, unescaped(target))
		if b.Later[unescaped(target)] || f != nil && slices.ContainsFunc(shown, func(x *shot) bool { return x.file.at == f.at }) {
			return markdown.Picture{LeftOut: true}, false
		}
		pic, ok := picture(target, alt)
		if ok {
			pic.Eager, p.pictured = !p.pictured, true
		}
		return pic, ok
	}
	h, err := p.md.Body(b, l)
	if err != nil {
		p.err = err
	}
	return p.Markdown(h)
}

// leading writes words that were said of a snag, which lead there. Links of their own give way.
func (p *leaf) leading(x *view.SnagView, words string) *markup.W {
	href, inline := p.toSnag(p.path, x), p.md.Inline(words)
	return p.worded(x.Said, x.Words, func() {
		switch {
		case strings.Contains(inline.String(), "<a"):
			p.link(href, markdown.Plain(words))
		case href == "" || inline.String() == "":
			p.Markdown(inline)
		default:
			p.Raw("<a").Href(href).Raw(">").Markdown(inline).Raw("</a>")
		}
	})
}

// receipt writes the name of a receipt in a note, leading to its file where it is one.
func (p *leaf) receipt(note, ref string) *markup.W {
	l := receiptLink(p.site, p.path, note, ref)
	return p.link(l.Href, l.Text)
}

func receiptLink(s *site, at, note, ref string) Link {
	if f := s.find(path.Dir(note), ref); f != nil {
		return Link{Text: path.Base(ref), Href: root(at) + f.at}
	}
	return Link{Text: ref}
}

// private marks what the public is not shown.
func (p *leaf) private(private bool) *markup.W {
	return p.If(private, ` <span class="private">{private}</span>`)
}

func (p *leaf) state(state string) *markup.W {
	return p.Raw(`<span class="state `).Text(state).Raw(`">`).Text(p.Word(state)).Raw("</span>")
}

func (p *leaf) value(value string, outside bool) *markup.W {
	return p.Raw(`<b class="value`).If(outside, " outside").Raw(`">`).Text(value).Raw("</b>")
}

// runsOf parts a list where the key changes.
func runsOf[T any, K comparable](list []T, key func(T) K) [][]T {
	var parts [][]T
	for begin := 0; begin < len(list); {
		end := begin + 1
		for end < len(list) && key(list[end]) == key(list[begin]) {
			end++
		}
		parts = append(parts, list[begin:end])
		begin = end
	}
	return parts
}

// writePlates writes those that have a value.
func writePlates(w *markup.W, list []Plate) *markup.W {
	list = pick.Where(list, func(p Plate) bool { return p.Value != "" })
	return markup.Each(w, list, "<dl class=\"plates\">\n", func(p Plate) {
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

func (p *leaf) volumes(b *book) *markup.W {
	return markup.Each(p.W, b.nav(p.path), "<nav class=\"volumes\" aria-label=\"{Pages of this list}\"><ul>\n", func(shelf Shelf) {
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
	return markup.Each(p.W, p.pictures(p.path, files, alt), "<div class=\"prints\">\n", func(x *Picture) {
		writeImage(p.Raw(`<a class="print"`).Href(x.Href).Raw(">"), "", p.inTurn(x), "14rem").Raw("</a>\n")
	}, "</div>")
}

// writeWithheld tells of what is outstanding but not shown.
func (p *leaf) writeWithheld() *markup.W {
	words := strings.Join(p.withheldWords(p.v.Withheld), "; ")
	return p.With(`<p class="withheld">{Outstanding besides these:} `, words, ". {Ask the builder about it.}</p>")
}

func (s *voice) plainFact(name, value string) Fact { return Fact{Name: s.Word(name), Value: value} }

// neighbours leads from one of a list of pages to those before and after it. Tell writes what a page is about.
func neighbours[T any](p *leaf, nav *markup.Wrap, list []T, i int, href func(T) string, tell func(T)) {
	if len(list) == 1 {
		return
	}
	p.Open(nav)
	lead := func(x T, rel, label string) {
		p.Raw(`<a class="`).Text(rel).Raw(`"`).Href(href(x)).Raw(` rel="`).Text(rel).Raw(`"><small>`).Text(p.Called(label))
		tell(x)
		p.Raw("</span></a>\n")
	}
	if i > 0 {
		lead(list[i-1], "prev", "Earlier")
	}
	if i+1 < len(list) {
		lead(list[i+1], "next", "Later")
	}
	p.Close(nav)
}
