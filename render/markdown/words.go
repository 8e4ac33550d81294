package markdown

import (
	"bytes"
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// inline reads inlines of [note.Markdown] without its blocks: "1. of three" stays what it is.
var inline = parser.NewParser(
	parser.WithBlockParsers(util.Prioritized(parser.NewParagraphParser(), 0)),
	parser.WithInlineParsers(append(parser.DefaultInlineParsers(), util.Prioritized(extension.NewStrikethroughParser(), 500))...),
)

// markup are the characters that can mean anything in the words of a line.
const markup = "\\`*_[]<>&~!\n\r\x00"

// Inline renders words as inline HTML; relative links and pictures as their words.
func (r *Renderer) Inline(words string) HTML { return r.InlineWith(words, Links{}) }

// InlineWith is [Renderer.Inline] for a page where relative links lead somewhere.
func (r *Renderer) InlineWith(words string, l Links) HTML {
	p := r.page(l)
	defer r.put(p)
	p.inline(words)
	return p.html()
}

func (p *page) inline(words string) {
	words = strings.TrimSpace(words)
	if !strings.ContainsAny(words, markup) {
		p.text(words)
		return
	}
	pc := parser.NewContext()
	if p.body != nil && strings.Contains(words, "[") {
		for _, ref := range putReferences(p) {
			pc.AddReference(ref)
		}
	}
	src := []byte(words)
	doc := inline.Parse(text.NewReader(src), parser.WithContext(pc))
	outer, bare := p.src, p.bare
	p.src, p.bare = src, true
	_ = p.r.nodes.Render(p, src, doc) // the page's Write never fails
	p.src, p.bare = outer, bare
}

// putReferences are the link definitions of the body, for the words of its items.
func putReferences(p *page) []parser.Reference {
	if !p.refsRead {
		p.refsRead = true
		collectReferences(p, p.doc, 0)
	}
	return p.refs
}

func collectReferences(p *page, n ast.Node, depth int) {
	for c := n.FirstChild(); c != nil && depth <= 2*maxBlocks; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.LinkReferenceDefinition:
			p.refs = append(p.refs, parser.NewReference(c.Label, c.Destination, c.Title))
		case *ast.List, *ast.ListItem, *ast.Blockquote:
			collectReferences(p, c, depth+1)
		}
	}
}

// Plain returns the words of a line without their markup.
func Plain(words string) string {
	words = strings.TrimSpace(words)
	if !strings.ContainsAny(words, markup) {
		return words
	}
	src := []byte(words)
	return plain(inline.Parse(text.NewReader(src)), src)
}

// plain returns the words of a node, with their entities resolved and without markup.
func plain(n ast.Node, src []byte) string {
	if t, ok := n.FirstChild().(*ast.Text); ok && t.NextSibling() == nil {
		if value := t.Segment.Value(src); !bytes.ContainsAny(value, "&\\") && isClean(value) {
			return string(bytes.TrimSpace(value))
		}
	}
	w := plainWriter{src: src}
	w.walk(n, 0)
	return strings.TrimSpace(clean(unescapeHTML(w.Bytes())))
}

// A plainWriter writes HTML's own characters as entities; unescapeHTML takes them back.
type plainWriter struct {
	bytes.Buffer
	src []byte
}

func (w *plainWriter) Flush() error  { return nil }
func (w *plainWriter) Buffered() int { return 0 }

func (w *plainWriter) walk(n ast.Node, depth int) {
	if n.Type() == ast.TypeBlock && n.PreviousSibling() != nil {
		w.WriteByte(' ')
	}
	for c := n.FirstChild(); c != nil && depth < 100; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Text:
			if value := c.Segment.Value(w.src); n.Kind() == ast.KindCodeSpan || c.IsRaw() {
				escape(&w.Buffer, bytes.TrimRight(value, "\r\n"))
				if bytes.HasSuffix(value, []byte("\n")) {
					w.WriteByte(' ')
				}
			} else {
				html.DefaultWriter.Write(w, value)
			}
			if c.SoftLineBreak() || c.HardLineBreak() {
				w.WriteByte(' ')
			}
		case *ast.String:
			html.DefaultWriter.Write(w, c.Value)
		case *ast.AutoLink:
			escape(&w.Buffer, c.Label(w.src))
		case *ast.RawHTML:
			escape(&w.Buffer, rawText(c, w.src))
		default:
			w.walk(c, depth+1)
		}
	}
}

var entities = strings.NewReplacer("&amp;", "&", "&lt;", "<", "&gt;", ">", "&quot;", `"`)

func unescapeHTML(b []byte) []byte { return []byte(entities.Replace(string(b))) }
