package note

import (
	"bytes"
	"cmp"
	"slices"
	"strings"

	"guidecoat/journal/money"
	"guidecoat/journal/source"

	"github.com/yuin/goldmark/ast"
)

// A Sort is what a part of a note was read as.
type Sort int

const (
	KeyPart     Sort = iota
	NamePart         // a name or id
	WordPart         // of the language: a clause, a kind, a box
	ChoicePart       // a word of a list, a fault code
	FigurePart       // an amount, a time, a date, a measurement
	QuotePart        // what is taken as it is: free text behind a clause, code
	HeadingPart      // of the body
	RemarkPart       // a line of front matter that is only for the builder
)

// A Part is a stretch of a note with what it was read as.
type Part struct {
	source.Span
	Sort Sort
}

// PartsOf returns what was understood of a file, in order.
func PartsOf(f *source.File) []Part {
	n := Open(f)
	n.Read(n.kinds(), money.Currency{})
	p := parter{n: n}
	p.front()
	for _, l := range n.Lines {
		if l.Name != "" {
			p.add(NamePart, l.NameSpan())
		}
		if l.Kind.Head != nil && l.Head != nil {
			p.add(l.Kind.Head.sort(), l.HeadSpan())
		}
		p.clauses(l)
	}
	for _, it := range n.Items {
		p.item(it)
		p.clauses(it.Line)
	}
	for _, s := range n.Scans {
		end := int(s.Span.End)
		p.add(WordPart, n.File.Span(int(s.Span.Start), int(s.Span.Start)+len("scan")))
		p.add(NamePart, n.File.Span(end-len(s.Name), end))
		for _, c := range s.Codes {
			p.add(ChoicePart, c.Span)
		}
	}
	if doc := n.Doc(); doc != nil {
		_ = ast.Walk(doc, p.node)
	}
	return p.inOrder()
}

// kinds are the keys that the file may have, by the key that tells its sort.
func (n *Note) kinds() []*Kind {
	switch {
	case n.Field("build") != nil:
		return Card
	case n.Field("garage") != nil:
		return Garage
	case n.Field("page") != nil:
		return Page
	}
	return Session
}

// sort is what a value of that form is.
func (v *Value) sort() Sort {
	switch {
	case v.Flaw == "":
		return QuotePart
	case v.Flaw == BadID:
		return NamePart
	case v.Near != nil:
		return ChoicePart
	}
	return FigurePart
}

type parter struct {
	n    *Note
	list []Part
}

func (p *parter) add(sort Sort, at source.Span) {
	if at.End > at.Start {
		p.list = append(p.list, Part{at, sort})
	}
}

func (p *parter) front() {
	for at := 0; at < p.n.front; {
		line, next := cutLine(p.n.File.Data, at)
		start, end := trim(line, 0, len(line))
		colon := nameEnd(string(line))
		switch {
		case start < end && line[start] == '#':
			p.add(RemarkPart, p.n.File.Span(at+start, at+end))
		case start == 0 && colon > 0 && line[0] != '-':
			p.add(KeyPart, p.n.File.Span(at, at+colon))
		}
		at = next
	}
}

// clauses adds the clauses of a line, each with what stands behind its word.
func (p *parter) clauses(l *Line) {
	for _, c := range l.Clauses {
		if c.Arg.S == "" {
			p.add(WordPart, c.Span)
			continue
		}
		p.add(WordPart, p.n.File.Span(int(c.Span.Start), int(c.Span.Start)+len(c.Word)))
		if c.Clause.Value != nil {
			p.add(c.Clause.Value.sort(), c.Arg.Whole())
		}
	}
}

// item adds the box of an item and what stands before its words.
func (p *parter) item(it *Item) {
	line, _ := cutLine(p.n.File.Data, it.At)
	_, width := box(line)
	p.add(WordPart, p.n.File.Span(it.At, it.At+len(bytes.TrimRight(line[:width], " \t"))))
	p.add(NamePart, it.IDSpan)
	for _, w := range wordsOf(it.Text.Slice(int(it.head.start), max(int(it.head.start), int(it.words.start)))) {
		if bare := strings.TrimSuffix(w.S, ":"); kindOf(bare) != "" {
			p.add(WordPart, w.Span(0, len(bare)))
		}
	}
}

// node adds a heading or code of the body.
func (p *parter) node(node ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	data := p.n.File.Data
	span := func(start, end int) source.Span { return p.n.File.Span(start, end) }
	switch node := node.(type) {
	case *ast.Heading:
		for i := range node.Lines().Len() {
			s := node.Lines().At(i)
			p.add(HeadingPart, span(bytes.LastIndexByte(data[:s.Start], '\n')+1, s.Stop))
		}
	case *ast.CodeSpan:
		if first, ok := node.FirstChild().(*ast.Text); ok {
			start, end := first.Segment.Start, node.LastChild().(*ast.Text).Segment.Stop
			before, after := bytes.TrimSuffix(data[:start], []byte(" ")), bytes.TrimPrefix(data[end:], []byte(" "))
			p.add(QuotePart, span(len(bytes.TrimRight(before, "`")), len(data)-len(bytes.TrimLeft(after, "`"))))
		}
	case *ast.CodeBlock, *ast.FencedCodeBlock:
		if f, ok := node.(*ast.FencedCodeBlock); ok && f.Info != nil {
			at := f.Info.Segment
			p.add(WordPart, span(at.Start, at.Start+wordEnd(string(data[at.Start:at.Stop]))))
			if bytes.HasPrefix(data[at.Start:at.Stop], []byte("scan")) {
				return ast.WalkContinue, nil
			}
		}
		for i := range node.Lines().Len() {
			s := node.Lines().At(i)
			p.add(QuotePart, span(s.Start, s.Start+len(bytes.TrimRight(s.Value(data), "\r\n"))))
		}
	}
	return ast.WalkContinue, nil
}

// inOrder sorts the parts and leaves out what lies in another one.
func (p *parter) inOrder() []Part {
	slices.SortStableFunc(p.list, func(a, b Part) int { return cmp.Or(cmp.Compare(a.Start, b.Start), cmp.Compare(b.End, a.End)) })
	var end int32
	return slices.DeleteFunc(p.list, func(x Part) bool {
		within := x.Start < end
		end = max(end, x.End)
		return within
	})
}
