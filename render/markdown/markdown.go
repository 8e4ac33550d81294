// Package markdown turns the Markdown of notes into HTML that a page may hold.
//
// goldmark's renderer walks the tree of a body with node renderers of our own. What they write is safe on any page: no
// markup of the note's own, no script, no style, no address outside the schemes
// in address.go. What Markdown cannot say is shown as it was typed.
package markdown

import (
	"sync"

	"guidecoat/journal/view"
	"guidecoat/render/tongue"

	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/util"
)

// Links are what a page knows that a body does not: where things lead, and how
// the body fits in. The zero Links lead nowhere.
type Links struct {
	// Link rewrites a relative target into an href of the page; "" shows the words
	// only. The target is as it was written: its percent-escapes are kept.
	Link func(target string) (href string)
	// Picture gives the published image of a target, ok false where there is none.
	Picture func(target, alt string) (p Picture, ok bool)
	// Snag gives the link to the entry of a snag or part; "" where it has none.
	Snag func(id string) (href string)
	// Tongue is the language of the page; nil means English.
	Tongue *tongue.Tongue
	// Lang is the language of the page, where that of the notes is another.
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

// A Renderer renders Markdown, and remembers the code it has highlighted. It is
// safe for concurrent use.
type Renderer struct {
	nodes renderer.Renderer
	pages sync.Pool
	code  memory
}

// New returns a Renderer.
func New() *Renderer {
	return &Renderer{
		nodes: renderer.NewRenderer(renderer.WithNodeRenderers(util.Prioritized(nodes{}, 0))),
		pages: sync.Pool{New: func() any { return new(page) }},
	}
}

// Body renders a body on a page that has those links.
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
