// Package markdown turns the Markdown of notes into HTML that a page may hold.
package markdown

import (
	"html/template"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

// Links are what a page knows that a body does not: where things lead. A nil
// function leads nowhere.
type Links struct {
	// Link rewrites a relative target, as it was written, into an href of the page; "" shows the words only.
	Link func(target string) (href string)
	// Picture gives the published image of a target.
	Picture func(target, alt string) (p Picture, ok bool)
	// Snag gives the link to the entry of a snag or part; "" where it has none.
	Snag func(id string) (href string)
	// Date writes a date for people; nil writes it as the notes do.
	Date func(measure.Date) string
	// SkipHeading is the page's title: a first heading of the same words is left out.
	SkipHeading string
	// Under is the level of the heading that the body stands under; 0 means 1.
	Under int
	// Prefix goes before every id, where a page holds several bodies.
	Prefix string
}

// A Picture is a published image.
type Picture struct {
	Src, Srcset, Sizes string
	Width, Height      int
}

// A Renderer renders Markdown. It is safe for concurrent use.
type Renderer struct{}

// New returns a renderer.
func New() *Renderer { return &Renderer{} }

// Body renders a body.
func (r *Renderer) Body(b *journal.Body, l Links) (template.HTML, error) { return "", nil }

// Inline renders the inline Markdown of a line's words.
func (r *Renderer) Inline(words string) template.HTML { return "" }

// InlineWith is Inline on a page whose relative links lead somewhere.
func (r *Renderer) InlineWith(words string, l Links) template.HTML { return "" }

// Plain returns the words without their markup.
func Plain(words string) string { return words }

// CSS returns the rules for highlighted code.
func CSS() string { return "" }

// Note shows a note as it was typed, line by line, with its problems.
func (r *Renderer) Note(f *source.File, problems []problem.Problem) template.HTML { return "" }
