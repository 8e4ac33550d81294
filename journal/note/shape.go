package note

import (
	"bytes"
	"fmt"
	"strings"

	"guidecoat/journal/source"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	gtext "github.com/yuin/goldmark/text"
)

// Some shapes of Markdown cost a parser far beyond their size. They are reported and not parsed.

// TooTangled is Markdown in a shape that no reader should be asked to follow.
const TooTangled source.Flaw = "too-tangled"

// The shapes that are followed. Each is far more than any prose, list or table has.
const (
	maxNesting = 100  // quotes and lists that a line opens or stands in
	maxClauses = 200  // semicolons in one line or item
	maxMarks   = 2000 // marks of emphasis, links and code in one paragraph or line
)

// marks counts the characters that may begin or end something inside a line.
func marks(text []byte) int {
	count := 0
	for _, c := range text {
		switch c {
		case '*', '_', '~', '`', '[', ']', '<', '&':
			count++
		}
	}
	return count
}

// nesting counts the quotes and lists that a line opens or stands in: a list takes two columns at least.
func nesting(line []byte) int {
	depth := 0
	for i := 0; i < len(line); i++ {
		if isSpace(line[i]) {
			continue
		}
		if line[i] != '>' {
			for line[i] >= '0' && line[i] <= '9' && i+1 < len(line) {
				i++
			}
			if !bytes.ContainsRune([]byte("-*+.)"), rune(line[i])) || i+1 < len(line) && !isSpace(line[i+1]) {
				break
			}
		}
		depth++
	}
	if depth > 0 {
		indent, _ := trim(line, 0, len(line))
		depth += (indent + 3*bytes.Count(line[:indent], []byte{'\t'})) / 2
	}
	return depth
}

// tooManyClauses tells of a line that would give a message for each of thousands.
func (n *Note) tooManyClauses(l *Line) bool {
	if strings.Count(l.Text.S, ";") <= maxClauses {
		return false
	}
	n.lineFault(l, source.Fault{Flaw: TooTangled, Span: l.Text.Whole(),
		Why:  fmt.Sprintf("a line has more than %d semicolons", maxClauses),
		Help: "Semicolons part clauses and nothing else: write commas, or several lines."})
	return true
}

// tangledLine finds the first line from an offset on that is not to be parsed.
func tangledLine(n *Note, from int) (at source.Span, found bool) {
	for from < len(n.File.Data) {
		line, next := cutLine(n.File.Data, from)
		if len(line) > maxNesting && (nesting(line) > maxNesting || marks(line) > maxMarks) {
			start, _ := trim(n.File.Data, from, from+len(line))
			return n.File.Span(start, from+len(line)), true
		}
		from = next
	}
	return at, false
}

// tangledKey holds, for the pass over one note, where paragraphs were not parsed.
var tangledKey = parser.NewContextKey()

type untangler struct {
	tooMuch func(lines *gtext.Segments, src []byte) bool
}

func (u untangler) Transform(node *ast.Paragraph, reader gtext.Reader, pc parser.Context) {
	if !u.tooMuch(node.Lines(), reader.Source()) {
		return
	}
	first, last := node.Lines().At(0), node.Lines().At(node.Lines().Len()-1)
	found, _ := pc.Get(tangledKey).([]gtext.Segment)
	pc.Set(tangledKey, append(found, gtext.NewSegment(first.Start, last.Stop)))
	raw := ast.NewCodeBlock()
	raw.SetLines(node.Lines())
	node.Parent().ReplaceChild(node.Parent(), node, raw)
}

func tooManyMarks(lines *gtext.Segments, src []byte) bool {
	count := 0
	for i := range lines.Len() {
		seg := lines.At(i)
		count += marks(src[seg.Start:seg.Stop])
	}
	return count > maxMarks
}

// tooManyReferences judges a paragraph that may be a list of link references.
func tooManyReferences(lines *gtext.Segments, src []byte) bool {
	count := 0
	for i := range lines.Len() {
		seg := lines.At(i)
		if start, end := trim(src, seg.Start, seg.Stop); start < end && src[start] == '[' {
			count++
		}
	}
	return count > maxMarks
}

// mostlyPadding judges a table: goldmark fills every row up to as many cells as the heading has.
func mostlyPadding(lines *gtext.Segments, src []byte) bool {
	const slack = 200
	for i := 1; i < lines.Len(); i++ {
		seg := lines.At(i)
		row := src[seg.Start:seg.Stop]
		if len(bytes.Trim(row, "|:- \t\r\n")) > 0 || !bytes.ContainsRune(row, '-') {
			continue
		}
		cells := (bytes.Count(row, []byte{'|'}) + 1) * (lines.Len() - i + 1)
		return 2*cells > lines.At(lines.Len()-1).Stop-lines.At(i-1).Start+slack
	}
	return false
}

// reportTangles records what goldmark was not given.
func reportTangles(n *Note, pc parser.Context) {
	found, _ := pc.Get(tangledKey).([]gtext.Segment)
	for _, seg := range found {
		line, _ := cutLine(n.File.Data, seg.Start)
		n.lose(source.Fault{Flaw: TooTangled, Span: n.File.Span(seg.Start, seg.Start+len(line))})
	}
}
