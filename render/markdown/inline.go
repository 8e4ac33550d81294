package markdown

import (
	"bytes"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/renderer/html"
)

// words writes a run of text. goldmark's own writer resolves escapes and entities.
func (p *page) words(n ast.Node, entering bool) ast.WalkStatus {
	if !entering {
		return ast.WalkContinue
	}
	t := n.(*ast.Text)
	if value := t.Segment.Value(p.src); t.IsRaw() {
		p.text(string(value))
	} else {
		html.DefaultWriter.Write(p, value)
	}
	switch {
	case t.HardLineBreak():
		p.put("<br>\n")
	case t.SoftLineBreak():
		p.WriteByte('\n')
	}
	return ast.WalkContinue
}

func (p *page) string(n ast.Node, entering bool) ast.WalkStatus {
	if entering {
		html.DefaultWriter.Write(p, n.(*ast.String).Value)
	}
	return ast.WalkContinue
}

func (p *page) codeSpan(n ast.Node, _ bool) ast.WalkStatus {
	p.put("<code>")
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		if t, ok := c.(*ast.Text); ok {
			p.codeText(t.Segment.Value(p.src))
		}
	}
	p.put("</code>")
	return p.skip(n)
}

// codeText writes a line of a code span, whose end counts as a space.
func (p *page) codeText(line []byte) {
	words := bytes.TrimRight(line, "\r\n")
	escape(&p.Buffer, words)
	if len(words) < len(line) {
		p.WriteByte(' ')
	}
}

func (p *page) emphasis(n ast.Node, entering bool) ast.WalkStatus {
	if n.(*ast.Emphasis).Level == 2 {
		return p.mark("strong", entering)
	}
	return p.mark("em", entering)
}

func (p *page) strikethrough(_ ast.Node, entering bool) ast.WalkStatus {
	return p.mark("del", entering)
}

// mark writes the tags of emphasis, unless it is nested beyond what anybody sees.
func (p *page) mark(name string, entering bool) ast.WalkStatus {
	if entering {
		if p.inlines++; p.inlines <= maxInlines {
			p.put("<", name, ">")
		}
	} else {
		if p.inlines <= maxInlines {
			p.put("</", name, ">")
		}
		p.inlines--
	}
	return ast.WalkContinue
}

func (p *page) link(n ast.Node, entering bool) ast.WalkStatus {
	l := n.(*ast.Link)
	if entering {
		a := p.address(string(unescaped(l.Destination)))
		if a.href == "" {
			p.dead = n
			return ast.WalkContinue
		}
		p.open(a, string(unescaped(l.Title)))
		if !hasWords(n, p.src) {
			p.text(a.shown)
		}
		return ast.WalkContinue
	}
	if p.dead == n {
		p.dead = nil
	} else {
		p.put("</a>")
	}
	return ast.WalkContinue
}

func (p *page) open(a address, title string) {
	p.put("<a")
	p.attr("href", a.href)
	p.attr("title", title)
	if a.external {
		p.attr("rel", "noopener noreferrer external")
	}
	p.WriteByte('>')
}

func (p *page) autoLink(n ast.Node, _ bool) ast.WalkStatus {
	l := n.(*ast.AutoLink)
	label := string(l.Label(p.src))
	target := string(l.URL(p.src))
	if l.AutoLinkType == ast.AutoLinkEmail {
		target = "mailto:" + label
	}
	if a := p.address(target); a.href != "" && !inLink(n) {
		p.open(a, "")
		p.text(label)
		p.put("</a>")
	} else {
		p.text(label)
	}
	return p.skip(n)
}

// inLink tells whether a node stands in a link: HTML has no link in a link.
func inLink(n ast.Node) bool {
	for n = n.Parent(); n != nil; n = n.Parent() {
		if n.Kind() == ast.KindLink {
			return true
		}
	}
	return false
}

// hasWords tells whether something of a node can be seen or read out.
func hasWords(n ast.Node, src []byte) bool {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Text:
			if len(bytes.TrimSpace(c.Segment.Value(src))) > 0 {
				return true
			}
		case *ast.RawHTML, *ast.CodeSpan, *ast.AutoLink, *ast.String:
			return true
		default: // emphasis, pictures
			if hasWords(c, src) {
				return true
			}
		}
	}
	return false
}

// HTML in a note is shown as it was typed.

func (p *page) rawHTML(n ast.Node, _ bool) ast.WalkStatus {
	p.text(rawText(n.(*ast.RawHTML), p.src))
	return p.skip(n)
}

func rawText(n *ast.RawHTML, src []byte) string {
	return string(n.Segments.Value(src))
}

func (p *page) htmlBlock(n ast.Node, _ bool) ast.WalkStatus {
	typed := n.Lines().Value(p.src)
	if h := n.(*ast.HTMLBlock); h.HasClosure() {
		typed = append(typed, h.ClosureLine.Value(p.src)...)
	}
	p.element("p", "raw-html", string(bytes.TrimSpace(typed)))
	p.put("\n")
	return p.skip(n)
}
