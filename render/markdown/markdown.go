// Package markdown turns the Markdown of notes into HTML that a page may hold.
//
// goldmark's renderer walks the tree of a body with node renderers of our own. What they write is safe on any page: no
// markup of the note's own, no script, no style, no address outside the schemes
// in address.go. What Markdown cannot say is shown as it was typed.
package markdown

import (
	"strconv"
	"strings"
	"sync"
	"unicode"

	"guidecoat/journal/note"
	"guidecoat/journal/view"
	"guidecoat/render/tongue"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/util"
)

// Links are what a page knows that a body does not. The zero Links lead nowhere.
type Links struct {
	// Link rewrites a relative target, percent-escapes kept, into an href; "" shows the words only.
	Link func(target string) (href string)
	// Picture gives the published image of a target, ok false where there is none.
	Picture func(target, alt string) (p Picture, ok bool)
	// Snag gives the link to the entry of a snag or part; "" where it has none.
	Snag func(id string) (href string)
	// Tongue is the language of the page; nil means English.
	Tongue *tongue.Tongue
	// Lang is the language of the page, where that of the notes is another. It stands at the program's own words.
	Lang string
	// SkipHeading is the page's title. A first heading of the same words is left out.
	SkipHeading string
	// Under is the level of the heading that the body stands under; 0 means 1.
	Under int
	// Prefix goes before every id, so that a page can hold several bodies.
	Prefix string
}

// A Picture is a published image. Srcset, Sizes and Href may be empty.
type Picture struct {
	Src, Srcset, Sizes string
	Href               string // where it is shown large
	Width, Height      int
	Eager              bool // it is fetched before anybody scrolls to it
	LeftOut            bool // nothing stands in its place
}

// A Renderer renders Markdown, and remembers code. It is safe for concurrent use.
type Renderer struct {
	nodes renderer.Renderer
	pages sync.Pool
	code  memory
}

func New() *Renderer {
	return &Renderer{
		nodes: renderer.NewRenderer(renderer.WithNodeRenderers(util.Prioritized(nodes{}, 0))),
		pages: sync.Pool{New: func() any { return new(page) }},
	}
}

func (r *Renderer) Body(b *view.Body, l Links) (HTML, error) {
	if b == nil || b.Doc == nil {
		return HTML{}, nil
	}
	p := r.page(l)
	defer r.put(p)
	if p.src, p.body, p.doc = b.Source, b, b.Doc(); p.doc == nil { // of a note that could not be read
		return HTML{}, nil
	}
	if err := r.nodes.Render(p, b.Source, p.doc); err != nil {
		return HTML{}, err
	}
	return p.html(), nil
}

type place struct {
	level int
	id    string
}

// outlineOf returns the headings shown, each one level below the one it belongs to, whatever its number.
func outlineOf(p *page) map[*ast.Heading]place {
	if p.outlined != nil {
		return p.outlined
	}
	p.outlined = map[*ast.Heading]place{}
	p.anchors = map[string]string{}
	if p.body == nil {
		return p.outlined
	}
	o := outliner{page: p, under: max(p.l.Under, 1), used: map[string]int{}}
	o.walk(p.doc, 0)
	return p.outlined
}

type outliner struct {
	*page
	under int
	open  []int          // the written levels of the headings that the next may belong to
	used  map[string]int // how many headings bear a name
	seen  bool
}

func (o *outliner) walk(n ast.Node, depth int) {
	for c := n.FirstChild(); c != nil && depth <= 2*maxBlocks; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Heading:
			first := !o.seen
			o.seen = true
			if first && o.l.SkipHeading != "" && note.PlainText(c, o.src) == o.l.SkipHeading {
				continue
			}
			o.take(c)
		case *ast.List, *ast.ListItem, *ast.Blockquote:
			if !vanishes(o.page, c) {
				o.walk(c, depth+1)
			}
		}
	}
}

func (o *outliner) take(h *ast.Heading) {
	for len(o.open) > 0 && o.open[len(o.open)-1] >= h.Level {
		o.open = o.open[:len(o.open)-1]
	}
	level := min(o.under+1+len(o.open), 6)
	o.open = append(o.open, h.Level)
	name := slug(plain(h, o.src))
	free := name
	for o.used[free] > 0 {
		o.used[name]++
		free = name + "-" + strconv.Itoa(o.used[name])
	}
	o.used[free]++
	id := o.l.Prefix + "h-" + free // apart from the ids of the page itself
	o.outlined[h] = place{level, id}
	o.anchors[free] = id
}

// slug is what links call a heading: letters and digits in lower case, joined by hyphens.
func slug(words string) string {
	var b strings.Builder
	gap := false
	for _, r := range strings.ToLower(words) {
		switch {
		case unicode.IsLetter(r), unicode.IsDigit(r), unicode.Is(unicode.Mn, r), r == '_':
			if gap && b.Len() > 0 {
				b.WriteByte('-')
			}
			gap = false
			b.WriteRune(r)
		case unicode.IsSpace(r), r == '-':
			gap = true
		}
		if b.Len() >= 80 {
			break
		}
	}
	if b.Len() == 0 {
		return "section"
	}
	return b.String()
}
