package note

import (
	"bytes"
	"cmp"
	"slices"
	"strings"

	"guidecoat/journal/source"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
)

// HTML comments are the builder's own words. They are found here, once, from `<!--` to the next `-->` outside code,
// and taken out before anything reads the text, so that nothing can show one.

// UnclosedComment is a comment that never ends.
const UnclosedComment source.Flaw = "unclosed-comment"

const commentBegin, commentEnd = "<!--", "-->"

// hideComments takes the comments out of the note's file.
func (n *Note) hideComments() {
	if n.File.IsCut() || !bytes.Contains(n.File.Data, []byte(commentBegin)) {
		return
	}
	c := commentFinder{file: n.File, data: n.File.Data}
	found := c.find()
	n.File = c.file.Without(found)
	for _, r := range found {
		if bytes.HasSuffix(c.data[r.Start:r.End], []byte(commentEnd)) {
			continue
		}
		at := n.File.InData(r.Start)
		f := source.Fault{Flaw: UnclosedComment, Span: n.File.Span(at, at)}
		if r.Start < c.front {
			if f.Why = "in front matter a comment ends on its own line"; bytes.HasPrefix(bytes.TrimLeft(c.data[bytes.LastIndexByte(c.data[:r.Start], '\n')+1:], " \t"), []byte("#")) {
				continue // the whole line is a comment
			}
		}
		n.lose(f)
	}
}

type commentFinder struct {
	file  *source.File
	data  []byte
	front int // where the body begins
}

// Where comments and code are mixed, goldmark says what is code. It is asked again behind each comment, since a fence in
// one opens no code, but no more often than this; where that comes to no end, code is taken for text.
const (
	patience  = 6
	rounds    = 4       // after that
	shortText = 1 << 18 // bytes that may be read again, however often
)

// find returns the comments, in order. Where in doubt, it takes for one what may be none.
func (c *commentFinder) find() []source.Range {
	found, closed := c.inFront()
	all := append(slices.Clone(found), c.inBody(nil, nil, false)...)
	without := c.file.Without(all)
	if opened, _, _ := frontEnd(without.Data); opened && !closed || !mayHoldCode(without.Data[without.InData(c.front):]) {
		return all // front matter that never ends, or begins behind a comment of several lines; or nothing is code
	}
	careful := patience + shortText/len(c.data)
	for round := range careful + rounds {
		f := c.file.Without(found)
		code, ok := c.codeIn(f)
		if !ok {
			return all
		}
		more := c.inBody(found, code, round < careful)
		if len(more) == 0 {
			if _, _, end := frontEnd(f.Data); end != f.InData(c.front) {
				return all
			}
			return found
		}
		found = append(found, more...)
		slices.SortFunc(found, byStart)
	}
	return all
}

func byStart(a, b source.Range) int { return cmp.Compare(a.Start, b.Start) }

// inFront finds the comments of the front matter and where it ends; closed is false without an end.
func (c *commentFinder) inFront() (list []source.Range, closed bool) {
	for at := 0; at < len(c.data); {
		line, next := cutLine(c.data, at)
		here := inLine(line)
		fence := isFence(source.NewFile("", line).Without(here).Data)
		for _, r := range here {
			list = append(list, source.Range{Start: at + r.Start, End: at + r.End})
		}
		switch {
		case at == 0 && !fence:
			return nil, false
		case at > 0 && fence:
			c.front = next
			return list, true
		}
		at = next
	}
	return nil, false
}

const longestCode = 200

// inLine finds the comments of a line of front matter. There code ends with its clause.
func inLine(line []byte) (list []source.Range) {
	for at, last := 0, bytes.LastIndex(line, []byte(commentBegin)); at <= last; {
		switch rest := line[at:]; {
		case rest[0] == '\\':
			at += 2
		case rest[0] == '`':
			clause := string(rest[:min(len(rest), longestCode)])
			if i := strings.IndexAny(clause, ";:"); i >= 0 {
				clause = clause[:i]
			}
			at += codeSpan(clause) + 1
		case bytes.HasPrefix(rest, []byte(commentBegin)):
			list = append(list, commentAt(line, at))
			at = list[len(list)-1].End
		default:
			at++
		}
	}
	return list
}

// commentAt returns the comment that begins there. Its end may share the dashes of its begin, as HTML has it.
func commentAt(text []byte, at int) source.Range {
	if i := bytes.Index(text[at+2:], []byte(commentEnd)); i >= 0 {
		return source.Range{Start: at, End: at + 2 + i + len(commentEnd)}
	}
	return source.Range{Start: at, End: len(text)}
}

// inBody finds the comments of the body that are not in code. Where careful, it stops behind the first.
func (c *commentFinder) inBody(found, code []source.Range, careful bool) (list []source.Range) {
	for at := c.front; ; {
		i := bytes.Index(c.data[at:], []byte(commentBegin))
		if i < 0 || careful && len(list) > 0 {
			return list
		}
		at += i
		before := bytes.TrimRight(c.data[:at], "\\")
		switch end := max(endAround(&found, at), endAround(&code, at)); {
		case end > 0:
			at = end
		case (at-len(before))%2 == 1:
			at += len(commentBegin)
		default:
			list = append(list, commentAt(c.data, at))
			at = list[len(list)-1].End
		}
	}
}

// endAround returns the end of the range that a place is in, or 0, and drops the ranges before.
func endAround(list *[]source.Range, at int) int {
	for len(*list) > 0 && (*list)[0].End <= at {
		*list = (*list)[1:]
	}
	if len(*list) > 0 && (*list)[0].Start <= at {
		return (*list)[0].End
	}
	return 0
}

func mayHoldCode(data []byte) bool {
	return slices.ContainsFunc([]string{"`", "~~~", "\t", "    "}, func(mark string) bool { return bytes.Contains(data, []byte(mark)) })
}

// codeIn returns where code was typed; ok is false where the body is too tangled to tell.
func (c *commentFinder) codeIn(f *source.File) (list []source.Range, ok bool) {
	b := body{front: f.InData(c.front), data: f.Data}
	if _, tangled := tangledLine((&Note{File: f}), b.front); tangled {
		return nil, false
	}
	pc := parser.NewContext()
	for _, at := range codeIn(b.parse(pc), f) {
		// A fence that ends a block but for the comment behind it does end it.
		if line := strings.TrimLeft(at.Text(), " \t>"); !strings.HasPrefix(line, "```") && !strings.HasPrefix(line, "~~~") {
			list = append(list, at.TypedRange())
		}
	}
	slices.SortFunc(list, byStart)
	return list, pc.Get(tangledKey) == nil
}

// Code returns where the code of the body stands: its spans, and the lines of its blocks.
func (n *Note) Code() []source.Span { return codeIn(n.Doc(), n.File) }

func codeIn(doc ast.Node, f *source.File) (list []source.Span) {
	_ = ast.Walk(doc, func(node ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch node := node.(type) {
		case *ast.CodeSpan:
			for t := node.FirstChild(); t != nil; t = t.NextSibling() {
				if t, ok := t.(*ast.Text); ok {
					list = append(list, f.Span(t.Segment.Start, t.Segment.Stop))
				}
			}
		case *ast.CodeBlock, *ast.FencedCodeBlock:
			for i := range node.Lines().Len() {
				list = append(list, f.Span(node.Lines().At(i).Start, node.Lines().At(i).Stop))
			}
		}
		return ast.WalkContinue, nil
	})
	return list
}
