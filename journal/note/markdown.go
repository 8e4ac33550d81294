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

// Markdown is the dialect of the notes: CommonMark with tables, strikethrough
// and task lists. Bare addresses are not made links: finding them costs as much
// as all the rest.
var Markdown = goldmark.New(
	goldmark.WithExtensions(
		extension.NewTable(extension.WithTableCellAlignMethod(extension.TableCellAlignAttribute)),
		extension.Strikethrough, extension.TaskList,
	),
	goldmark.WithParserOptions(
		parser.WithBlockParsers(util.Prioritized(&frontParser{meta.NewParser()}, 0)),
		// goldmark takes link references out of paragraphs at 100, and makes tables of them at 200.
		parser.WithParagraphTransformers(util.Prioritized(untangler{tooManyReferences}, 90),
			util.Prioritized(untangler{mostlyPadding}, 190), util.Prioritized(untangler{tooManyMarks}, 210)),
	),
)

// maxPortable is how much front matter goldmark-meta is given, in bytes; YAML
// readers may take more than linear time over long input.
const maxPortable = 64 << 10

// frontKey holds, for the pass over one note, where its front matter ends.
var frontKey = parser.NewContextKey()

// frontParser recognises front matter in goldmark's own pass, so that what
// follows keeps its place in the whole file. goldmark-meta reads the block as
// YAML; this wrapper makes it begin and end where package note says: only at an
// exact `---`, never at other runs of dashes, and never without an end.
type frontParser struct{ parser.BlockParser }

func (p *frontParser) Open(parent ast.Node, reader gtext.Reader, pc parser.Context) (ast.Node, parser.State) {
	if end, _ := pc.Get(frontKey).(int); end == 0 {
		return nil, parser.NoChildren
	}
	return p.BlockParser.Open(parent, reader, pc)
}

func (p *frontParser) Continue(node ast.Node, reader gtext.Reader, pc parser.Context) parser.State {
	line, segment := reader.PeekLine()
	if isFence(line[:len(line)-endOfLine(line)]) {
		return p.BlockParser.Continue(node, reader, pc)
	}
	node.Lines().Append(segment)
	return parser.Continue | parser.NoChildren
}

func endOfLine(line []byte) int {
	if len(line) > 0 && line[len(line)-1] == '\n' {
		return 1
	}
	return 0
}

func (p *frontParser) Close(node ast.Node, reader gtext.Reader, pc parser.Context) {
	if end := pc.Get(frontKey).(int); end <= maxPortable {
		p.BlockParser.Close(node, reader, pc)
	}
	if parent := node.Parent(); parent != nil { // left there on an error of the YAML
		parent.RemoveChild(parent, node)
	}
}

// A Ref is a link or picture of the body.
type Ref struct {
	Picture bool
	Target  string
	Alt     string // a picture's text
	Span    source.Span
	Node    ast.Node
}

// readBody parses the whole file with goldmark and keeps what the build needs of it.
func (n *Note) readBody(frontEnd int) {
	if at, tangled := n.tangledLine(frontEnd); tangled {
		n.fault(source.Fault{Flaw: TooTangled, Span: at})
		n.Lost++
		n.Doc = ast.NewDocument()
		return
	}
	pc := parser.NewContext()
	pc.Set(frontKey, frontEnd)
	n.Doc = Markdown.Parser().Parse(gtext.NewReader(n.File.Data), parser.WithContext(pc))
	n.reportTangles(pc)
	if frontEnd > 0 {
		n.comparePortable(pc)
	}
	_ = ast.Walk(n.Doc, func(node ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch node := node.(type) {
		case *ast.Heading:
			if n.Heading == "" {
				n.Heading = PlainText(node, n.File.Data)
			}
		case *ast.FencedCodeBlock:
			n.readScan(node)
		case *east.TaskCheckBox:
			if t, item, ok := n.itemText(node); ok {
				n.Items = append(n.Items, n.readItem(t, item, node.IsChecked))
			}
		case *ast.Image:
			n.Refs = append(n.Refs, Ref{Picture: true, Target: string(node.Destination), Alt: PlainText(node, n.File.Data), Span: n.refSpan(node), Node: node})
		case *ast.Link:
			n.Refs = append(n.Refs, Ref{Target: string(node.Destination), Span: n.refSpan(node), Node: node})
		}
		return ast.WalkContinue, nil
	})
}

// refSpan is where a link or picture begins, up to its closing parenthesis on that line.
func (n *Note) refSpan(node ast.Node) source.Span {
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
