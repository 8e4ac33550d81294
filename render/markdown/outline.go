package markdown

import (
	"strconv"
	"strings"
	"unicode"

	"guidecoat/journal/note"

	"github.com/yuin/goldmark/ast"
)

// A place is where a heading stands on the page.
type place struct {
	level int
	id    string
}

// outlineOf returns the headings that are shown. A heading stands one level below
// the one it belongs to, whatever number it was written with, so that the page
// has one h1 and leaves out no level.
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

// slug turns the words of a heading into what links call it: letters and digits in
// lower case, joined by hyphens.
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
