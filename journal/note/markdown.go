package note

import (
	"strings"

	"guidecoat/journal/source"

	"github.com/yuin/goldmark"
	meta "github.com/yuin/goldmark-meta"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	east "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/parser"
	gtext "github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// Markdown is CommonMark with tables, strikethrough and task lists. Finding bare addresses costs as much as all the rest.
var Markdown = goldmark.New(
	goldmark.WithExtensions(
		extension.NewTable(extension.WithTableCellAlignMethod(extension.TableCellAlignAttribute)),
		extension.Strikethrough,
	),
	goldmark.WithParserOptions(
		parser.WithBlockParsers(util.Prioritized(&frontParser{meta.NewParser()}, 0)),
		parser.WithInlineParsers(util.Prioritized(boxParser{}, 0)),
		// goldmark takes link references out of paragraphs at 100, and makes tables of them at 200.
		parser.WithParagraphTransformers(util.Prioritized(untangler{tooManyReferences}, 90),
			util.Prioritized(untangler{mostlyPadding}, 190), util.Prioritized(untangler{tooManyMarks}, 210)),
	),
)

// What a pass over one note is told: where its front matter ends, and whether to read it as YAML, which takes long.
var frontKey, portableKey = parser.NewContextKey(), parser.NewContextKey()

// frontParser passes over front matter in goldmark's own pass, so that places are those of the file. It begins and ends
// where package note says: only at an exact `---`.
type frontParser struct{ parser.BlockParser }

func (p *frontParser) Open(parent ast.Node, reader gtext.Reader, pc parser.Context) (ast.Node, parser.State) {
	if end, _ := pc.Get(frontKey).(int); end == 0 {
		return nil, parser.NoChildren
	}
	return p.BlockParser.Open(parent, reader, pc)
}

func (p *frontParser) Continue(node ast.Node, reader gtext.Reader, pc parser.Context) parser.State {
	line, segment := reader.PeekLine()
	if isFence(line) {
		return p.BlockParser.Continue(node, reader, pc)
	}
	node.Lines().Append(segment)
	return parser.Continue | parser.NoChildren
}

func (p *frontParser) Close(node ast.Node, reader gtext.Reader, pc parser.Context) {
	if pc.Get(portableKey) != nil {
		p.BlockParser.Close(node, reader, pc)
	}
	if parent := node.Parent(); parent != nil { // goldmark-meta leaves it there on an error of the YAML
		parent.RemoveChild(parent, node)
	}
}

type Ref struct {
	Picture bool
	Target  string
	Alt     string // a picture's text
	Span    source.Span
	Within  []int // the task-list items that it stands in, by their places
}

func (n *Note) readBody(frontEnd int, kinds []*Kind) {
	if at, tangled := tangledLine(n, frontEnd); tangled {
		n.lose(source.Fault{Flaw: TooTangled, Span: at})
		return
	}
	n.hasBody = true
	pc := parser.NewContext()
	doc := n.parse(pc)
	n.tree = doc
	reportTangles(n, pc)
	r := bodyReader{Note: n, doc: doc, kinds: kinds}
	_ = ast.Walk(doc, func(node ast.Node, entering bool) (ast.WalkStatus, error) {
		if entering {
			r.enter(node)
		} else if node.Kind() == ast.KindListItem {
			r.leaveItem(node)
		}
		return ast.WalkContinue, nil
	})
}

type bodyReader struct {
	*Note
	doc   ast.Node
	kinds []*Kind // the keys of its front matter
	end   int     // of the lines so far
	open  []*Item // those that the walk is in
}

func (r *bodyReader) enter(node ast.Node) {
	n := r.Note
	if node.Type() == ast.TypeBlock {
		if lines := node.Lines(); lines.Len() > 0 {
			r.end = max(r.end, lines.At(lines.Len()-1).Stop)
		}
	}
	switch node := node.(type) {
	case *ast.Heading:
		if n.Heading == "" {
			n.Heading = PlainText(node, n.File.Data)
		}
	case *ast.Paragraph:
		if n.Lead == "" && node.Parent() == r.doc && node.FirstChild() != nil && node.FirstChild().Kind() != ast.KindImage {
			n.Lead = PlainText(node, n.File.Data)
		}
		findNearItems(n, node)
		r.findStrayKeys(node)
	case *ast.TextBlock, *ast.CodeBlock:
		findNearItems(n, node)
	case *ast.FencedCodeBlock:
		readScan(n, node)
	case *east.TaskCheckBox:
		if t, at, ok := itemText(n, node); ok {
			it := n.readItem(t, at, node.IsChecked)
			n.Items, r.open = append(n.Items, it), append(r.open, it)
		}
	case *ast.Image:
		n.Refs = append(n.Refs, Ref{Picture: true, Target: string(node.Destination), Alt: PlainText(node, n.File.Data), Span: refSpan(n, node), Within: standsIn(node)})
	case *ast.Link:
		n.Refs = append(n.Refs, Ref{Target: string(node.Destination), Span: refSpan(n, node), Within: standsIn(node)})
	case *ast.RawHTML:
		if s := node.Segments; s.Len() > 0 {
			n.Markup = append(n.Markup, n.File.Span(s.At(0).Start, s.At(s.Len()-1).Stop))
		}
	case *ast.HTMLBlock:
		readHTMLBlock(n, node)
	}
}

func (r *bodyReader) leaveItem(node ast.Node) {
	if last := len(r.open) - 1; last >= 0 && r.open[last].At == ItemAt(node) {
		r.open[last].End = r.end
		r.open = r.open[:last]
	}
}

// A body is all that the tree of a note is made of: who keeps [Note.Doc] keeps nothing else of the note.
type body struct {
	// Unread says that the file could not be taken as a note at all. It has no lines and no body.
	Unread  bool
	hasBody bool // it was read, and its body is not too tangled
	front   int  // where the front matter ends
	data    []byte
	tree    ast.Node // nil where it is not kept
}

// parse reads the body with goldmark, in which all places are those of the file.
func (b body) parse(pc parser.Context) ast.Node {
	pc.Set(frontKey, b.front)
	return Markdown.Parser().Parse(gtext.NewReader(b.data), parser.WithContext(pc))
}

// Doc is the tree of the body, parsed once more where it was dropped. It is nil for a note not read.
func (b body) Doc() ast.Node {
	switch {
	case b.tree != nil:
		return b.tree
	case b.hasBody:
		return b.parse(parser.NewContext())
	case b.Unread:
		return nil
	}
	return ast.NewDocument()
}

// DropTree lets go of the tree, which takes ten times the room of its words.
func (b *body) DropTree() { b.tree = nil }

func readHTMLBlock(n *Note, node *ast.HTMLBlock) {
	lines := node.Lines()
	if lines.Len() == 0 {
		return
	}
	end := lines.At(lines.Len() - 1).Stop
	if node.HasClosure() {
		end = max(end, node.ClosureLine.Stop)
	}
	n.Markup = append(n.Markup, n.File.Span(lines.At(0).Start, end))
}

// ItemAt is the place of the first words of a list item, by which a task-list item is known, or -1.
func ItemAt(item ast.Node) int {
	if first := item.FirstChild(); first != nil && first.Type() == ast.TypeBlock && first.Lines().Len() > 0 {
		return first.Lines().At(0).Start
	}
	return -1
}

// standsIn are the places of the list items that a node stands in.
func standsIn(node ast.Node) (list []int) {
	for ; node != nil; node = node.Parent() {
		if node.Kind() == ast.KindListItem {
			list = append(list, ItemAt(node))
		}
	}
	return list
}

// refSpan is where a link or picture begins, up to its closing parenthesis on that line.
func refSpan(n *Note, node ast.Node) source.Span {
	start := max(min(node.Pos(), len(n.File.Data)), 0)
	line, _ := cutLine(n.File.Data, start)
	end := start + len(line)
	if i := strings.IndexByte(string(line), ')'); i >= 0 {
		end = start + i + 1
	}
	return n.File.Span(start, end)
}

// PlainText returns the words of a node without any markup.
func PlainText(node ast.Node, src []byte) string {
	var b strings.Builder
	_ = ast.Walk(node, func(c ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch c := c.(type) {
		case *ast.Text:
			b.Write(util.UnescapePunctuations(util.ResolveNumericReferences(util.ResolveEntityNames(c.Segment.Value(src)))))
			if c.SoftLineBreak() || c.HardLineBreak() {
				b.WriteByte(' ')
			}
		case *ast.String:
			b.Write(c.Value)
		case *ast.AutoLink:
			b.Write(c.Label(src))
		case *ast.CodeSpan:
			for t := c.FirstChild(); t != nil; t = t.NextSibling() {
				if t, ok := t.(*ast.Text); ok {
					b.Write(t.Segment.Value(src))
				}
			}
			return ast.WalkSkipChildren, nil
		}
		return ast.WalkContinue, nil
	})
	return strings.TrimSpace(b.String())
}

// PlainWords returns inline Markdown without its markup.
func PlainWords(s string) string {
	if !strings.ContainsAny(s, "\\`*_[]<>&~!#") {
		return s
	}
	// A word in front keeps words such as "- a" from being read as a block.
	const guard = "x "
	src := []byte(guard + s)
	return strings.TrimPrefix(PlainText(Markdown.Parser().Parse(gtext.NewReader(src)), src), guard)
}
