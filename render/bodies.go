package render

import (
	"bytes"

	"github.com/yuin/goldmark/ast"

	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
	"guidecoat/render/markdown"
)

// inText is how wide a picture in running text is shown; the theme's layout must agree.
const inText = "(min-width: 64em) 42rem, 94vw"

// linksFrom says where what a body in dir refers to leads from a page. Pictures shown elsewhere are left out.
func linksFrom(s *site, at, dir string) markdown.Links {
	return markdown.Links{
		Link: func(target string) string { return s.follow(at, dir, target) },
		Picture: func(target, alt string) (markdown.Picture, bool) {
			f := s.find(dir, unescaped(target))
			if f == nil || f.picture == nil {
				return markdown.Picture{}, false
			}
			p := s.picture(at, f, alt)
			out := markdown.Picture{Src: p.Src, Srcset: p.Srcset, Href: p.Href, Width: p.Width, Height: p.Height}
			if out.Srcset != "" {
				out.Sizes = inText
			}
			return out, true
		},
		Snag:   func(id string) string { return s.id(at, id) },
		Tongue: s.Tongue,
		Lang:   s.spoken(),
	}
}

// bodyPictures are the pictures in a body but for those in its items, which may not be shown.
func bodyPictures(s *site, at string, b *view.Body) []*Picture {
	return pick.Map(shotsIn(s, b), func(x shot) *Picture { return s.picture(at, x.file, x.alt) })
}

func shotsIn(s *site, b *view.Body) []shot {
	if b == nil || b.Doc == nil || !bytes.Contains(b.Source, []byte("![")) { // to parse it takes long
		return nil
	}
	var list []shot
	_ = ast.Walk(b.Doc(), func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		switch n := n.(type) {
		case *ast.ListItem:
			return ast.WalkSkipChildren, nil
		case *ast.Image:
			target := unescaped(string(n.Destination))
			if f := s.find(b.Dir, target); entering && f != nil && f.picture != nil && !b.Later[target] {
				list = append(list, shot{file: f, alt: note.PlainText(n, b.Source), alone: n.Parent().Kind() == ast.KindParagraph && n.Parent().ChildCount() == 1})
			}
		}
		return ast.WalkContinue, nil
	})
	return list
}

// bare returns the words of the first paragraph of a body, without markup.
func bare(b *view.Body) string {
	if b == nil {
		return ""
	}
	return b.Lead
}

// tells tells whether a body holds more than headings.
func tells(b *view.Body) bool {
	if b == nil || b.Doc == nil {
		return false
	}
	for n := b.Doc().FirstChild(); n != nil; n = n.NextSibling() {
		switch n.(type) {
		case *ast.Heading, *ast.ThematicBreak:
		default:
			return true
		}
	}
	return false
}

// opening is the heading that a body begins with, "" where it begins with none.
func opening(b *view.Body) string {
	if h, ok := b.Doc().FirstChild().(*ast.Heading); ok {
		return note.PlainText(h, b.Source)
	}
	return ""
}
