package markdown

import (
	"bytes"
	"strings"

	"github.com/yuin/goldmark/ast"
)

// HTML in a note is shown as it was typed. Only comments are left out: they are
// the builder's own, and never reach a page.

var (
	commentOpens  = []byte("<!--")
	commentCloses = []byte("-->")
)

func (p *page) rawHTML(n ast.Node, _ bool) ast.WalkStatus {
	if raw := n.(*ast.RawHTML); !isComment(raw, p.src) {
		p.text(rawText(raw, p.src))
	}
	return p.skip(n)
}

func isComment(n *ast.RawHTML, src []byte) bool {
	if n.Segments.Len() == 0 {
		return true
	}
	first := n.Segments.At(0)
	return bytes.HasPrefix(first.Value(src), commentOpens)
}

func rawText(n *ast.RawHTML, src []byte) string {
	var b strings.Builder
	for i := range n.Segments.Len() {
		s := n.Segments.At(i)
		b.Write(s.Value(src))
	}
	return b.String()
}

func (p *page) htmlBlock(n ast.Node, _ bool) ast.WalkStatus {
	if shown := p.shownHTML(n.(*ast.HTMLBlock)); shown != "" {
		p.put(`<p class="raw-html">`)
		p.text(shown)
		p.put("</p>\n")
	}
	return p.skip(n)
}

// shownHTML returns a block of HTML without its comments.
func (p *page) shownHTML(n *ast.HTMLBlock) string {
	var b []byte
	lines := n.Lines()
	for i := range lines.Len() {
		s := lines.At(i)
		b = append(b, s.Value(p.src)...)
	}
	if n.HasClosure() {
		b = append(b, n.ClosureLine.Value(p.src)...)
	}
	return strings.TrimSpace(string(withoutComments(b)))
}

// withoutComments cuts the comments out of HTML. One that never closes ends with it.
func withoutComments(b []byte) []byte {
	start := bytes.Index(b, commentOpens)
	if start < 0 {
		return b
	}
	var out []byte
	for start >= 0 {
		out = append(out, b[:start]...)
		// A comment may be as short as <!-->: its end may share the dashes of its begin.
		end := bytes.Index(b[start+2:], commentCloses)
		if end < 0 {
			return out
		}
		b = b[start+2+end+len(commentCloses):]
		start = bytes.Index(b, commentOpens)
	}
	return append(out, b...)
}
