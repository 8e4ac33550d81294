package markdown

import (
	"cmp"
	"slices"
	"strconv"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"
)

// A shot is a picture as shown: an image, or its words in place of one that is missing.
type shot struct {
	node       *ast.Image
	link       *ast.Link // around it; nil where there is none
	alt, title string
	picture    Picture
	found      bool
}

func putShot(p *page, n *ast.Image, link *ast.Link) shot {
	s := shot{node: n, link: link, alt: plain(n, p.src), title: string(unescaped(n.Title))}
	if p.l.Picture != nil && !p.bare {
		s.picture, s.found = p.l.Picture(string(unescaped(n.Destination)), s.alt)
		s.found = s.found && s.picture.Src != "" && safe(s.picture.Src) && schemeOf(s.picture.Src) == ""
	}
	return s
}

func (p *page) image(n ast.Node, _ bool) ast.WalkStatus {
	if s := putShot(p, n.(*ast.Image), nil); s.found && s.picture.Href != "" && !inLink(n) {
		p.put("<a")
		p.attr("href", string(util.URLEscape([]byte(s.picture.Href), false)))
		p.put(">")
		shownSize(p, s, true)
		p.put("</a>")
	} else if !s.picture.LeftOut {
		shownSize(p, s, true)
	}
	return p.skip(n)
}

// shownSize writes a picture, its title too where it has no caption to say it.
func shownSize(p *page, s shot, title bool) {
	switch {
	case !s.found && p.bare:
		p.text(s.alt)
		return
	case !s.found:
		p.tag("span", "missing-picture")
		if p.text(s.alt); s.alt == "" {
			p.text(s.title)
		}
		p.put("</span>")
		return
	}
	p.put("<img")
	p.attr("src", string(util.URLEscape([]byte(s.picture.Src), false)))
	p.attr("srcset", s.picture.Srcset)
	p.attr("sizes", s.picture.Sizes)
	if s.picture.Width > 0 && s.picture.Height > 0 {
		p.attr("width", strconv.Itoa(s.picture.Width))
		p.attr("height", strconv.Itoa(s.picture.Height))
	}
	p.put(` alt="`)
	p.text(s.alt)
	p.put(`"`)
	if title {
		p.attr("title", s.title)
	}
	if s.picture.Eager {
		p.put(` loading="eager" fetchpriority="high">`)
		return
	}
	p.put(` loading="lazy" decoding="async">`)
}

// putFigures writes a block of nothing but pictures as a figure or gallery, and tells whether it did.
func putFigures(p *page, n ast.Node) bool {
	all := putShots(p, n)
	shots := slices.DeleteFunc(slices.Clone(all), func(s shot) bool { return s.picture.LeftOut })
	if !slices.ContainsFunc(shots, func(s shot) bool { return s.found }) {
		return len(all) > 0 && len(shots) == 0
	}
	if len(shots) > 1 {
		p.put(`<div class="gallery">`, "\n")
	}
	for _, s := range shots {
		putFigure(p, s)
	}
	if len(shots) > 1 {
		p.put("</div>\n")
	}
	return true
}

func putFigure(p *page, s shot) {
	p.put("<figure>")
	a, title := address{href: string(util.URLEscape([]byte(s.picture.Href), false))}, ""
	if s.link != nil {
		a, title = p.address(string(unescaped(s.link.Destination))), string(unescaped(s.link.Title))
	}
	if a.href != "" {
		p.open(a, title)
	}
	shownSize(p, s, false)
	if a.href != "" {
		p.put("</a>")
	}
	if caption := cmp.Or(s.title, s.alt); caption != "" && s.found {
		p.element("figcaption", "", caption)
	}
	p.put("</figure>\n")
}

// putShots returns the pictures of a block, nil if there is anything else in it.
func putShots(p *page, n ast.Node) []shot {
	if p.l.Picture == nil || p.bare || !onlyPictures(n, p.src) {
		return nil
	}
	var list []shot
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Image:
			list = append(list, putShot(p, c, nil))
		case *ast.Link:
			list = append(list, putShot(p, c.FirstChild().(*ast.Image), c))
		}
	}
	return list
}

func onlyPictures(n ast.Node, src []byte) bool {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Image:
		case *ast.Link:
			if _, ok := c.FirstChild().(*ast.Image); !ok || c.ChildCount() > 1 {
				return false
			}
		case *ast.Text:
			if !util.IsBlank(c.Segment.Value(src)) {
				return false
			}
		default:
			return false
		}
	}
	return n.FirstChild() != nil
}
