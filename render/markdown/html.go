package markdown

import (
	"strings"

	"github.com/yuin/goldmark/ast"
)

// HTML in a note is shown as it was typed.

func (p *page) rawHTML(n ast.Node, _ bool) ast.WalkStatus {
	p.text(rawText(n.(*ast.RawHTML), p.src))
	return p.skip(n)
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
	var b strings.Builder
	lines := n.Lines()
	for i := range lines.Len() {
		s := lines.At(i)
		b.Write(s.Value(p.src))
	}
	if h := n.(*ast.HTMLBlock); h.HasClosure() {
		b.Write(h.ClosureLine.Value(p.src))
	}
	p.put(`<p class="raw-html">`)
	p.text(strings.TrimSpace(b.String()))
	p.put("</p>\n")
	return p.skip(n)
}
