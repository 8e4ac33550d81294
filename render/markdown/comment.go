package markdown

import (
	"bytes"
	"sort"

	"github.com/yuin/goldmark/ast"
)

// A span is a half-open range of the body's source.
type span struct{ start, end int }

// findComments finds the comments that Markdown takes for words, because they
// begin in the middle of a line and hold a blank one. To a builder they are
// comments, so they are hidden all the same: up to the `-->` that ends them.
func (p *page) findComments() {
	if !bytes.Contains(p.src, commentOpens) {
		return
	}
	_ = ast.Walk(p.doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.CodeSpan:
			return ast.WalkSkipChildren, nil
		case *ast.Text:
			if start := openComment(p.src, n.Segment.Start, n.Segment.Stop); start >= 0 {
				p.hideFrom(start)
			}
		case *ast.HTMLBlock:
			if lines := n.Lines(); n.HTMLBlockType >= ast.HTMLBlockType6 && lines.Len() > 0 {
				start, end := lines.At(0).Start, lines.At(lines.Len()-1).Stop
				if last := bytes.LastIndex(p.src[start:end], commentOpens); last >= 0 && !bytes.Contains(p.src[start+last+2:end], commentCloses) {
					p.hideFrom(start + last)
				}
			}
		}
		return ast.WalkContinue, nil
	})
}

// openComment returns where a comment begins in a run of words, or -1.
func openComment(src []byte, start, end int) int {
	for i := start; i < end; i++ {
		switch {
		case src[i] == '\\':
			i++
		case src[i] == '<' && bytes.HasPrefix(src[i:], commentOpens):
			return i
		}
	}
	return -1
}

// hideFrom hides what stands from start to the end of a comment, if it ends.
func (p *page) hideFrom(start int) {
	if k := len(p.hide); k > 0 && start < p.hide[k-1].end { // within the last, or past all that end
		return
	}
	if end := bytes.Index(p.src[start:], commentCloses); end >= 0 {
		p.hide = append(p.hide, span{start, start + end + len(commentCloses)})
	} else { // nor does any later one end
		p.hide = append(p.hide, span{len(p.src), len(p.src)})
	}
}

// hides tells whether all of a node lies in hidden comments.
func (p *page) hides(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.Document, *ast.List, *ast.ListItem, *ast.Blockquote, *ast.Text: // by what they hold
		return false
	default:
		if n.Type() == ast.TypeInline {
			return n.Pos() >= 0 && p.hidden(n.Pos(), n.Pos()+1)
		}
		lines := n.Lines()
		for i := range lines.Len() {
			if s := lines.At(i); !p.hidden(s.Start, max(s.Stop-1, s.Start)) {
				return false
			}
		}
		return lines.Len() > 0
	}
}

// hidden tells whether one comment holds all that stands from start to end.
func (p *page) hidden(start, end int) bool {
	i := p.after(start)
	return i < len(p.hide) && start >= p.hide[i].start && end <= p.hide[i].end
}

// after returns the first comment that ends after a place.
func (p *page) after(start int) int {
	return sort.Search(len(p.hide), func(i int) bool { return p.hide[i].end > start })
}

// unhidden calls show with what is not hidden of a range.
func (p *page) unhidden(start, end int, show func(start, end int)) {
	for i := p.after(start); i < len(p.hide) && p.hide[i].start < end; i++ {
		h := p.hide[i]
		if start < h.start {
			show(start, h.start)
		}
		start = h.end
	}
	if start < end {
		show(start, end)
	}
}

// cutOpenComment takes out of the words of a line a comment that does not end in it.
func cutOpenComment(doc ast.Node, src []byte) {
	if !bytes.Contains(src, commentOpens) {
		return
	}
	var from ast.Node
	_ = ast.Walk(doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		t, ok := n.(*ast.Text)
		if !entering || !ok || n.Parent().Kind() == ast.KindCodeSpan {
			return ast.WalkContinue, nil
		}
		if start := openComment(src, t.Segment.Start, t.Segment.Stop); start >= 0 {
			t.Segment = t.Segment.WithStop(start)
			from = t
			return ast.WalkStop, nil
		}
		return ast.WalkContinue, nil
	})
	for n := from; n != nil && n.Parent() != nil; n = n.Parent() {
		for n.NextSibling() != nil {
			n.Parent().RemoveChild(n.Parent(), n.NextSibling())
		}
	}
}
