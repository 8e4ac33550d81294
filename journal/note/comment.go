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

// HTML comments are the builder's own words to himself. They are found here, once,
// and taken out of the text before anything reads it, so that nothing can show one.
// A comment is what HTML takes for one: from `<!--` to the next `-->`, over lines,
// empty lines and items. In code, and behind a backslash, `<!--` is text.

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
			if line := c.data[bytes.LastIndexByte(c.data[:r.Start], '\n')+1:]; bytes.HasPrefix(bytes.TrimLeft(line, " \t"), []byte("#")) {
				continue
			}
			f.Why = "in front matter a comment ends on its own line"
		}
		n.fault(f)
		n.Lost++
	}
}

// A commentFinder looks for the comments of one file, as it was typed.
type commentFinder struct {
	file  *source.File
	data  []byte
	front int // where the body begins
}

// Of a text in which comments and code are mixed, goldmark says what is code. It must
// see the text without the comments above, since a fence in one opens no code: so
// it is asked again behind each comment that may have changed what follows, but in a
// long text no more often than this. Behind so many comments, all that are left are
// judged at once, and where even that comes to no end, code is taken for text.
const (
	patience  = 6
	rounds    = 4       // after that
	shortText = 1 << 18 // bytes that may be read again, however often
)

// find returns the comments, in order. Where in doubt, it takes for one what may be none.
func (c *commentFinder) find() []source.Range {
	inFront, closed := c.inFront()
	all := joinTouching(append(inFront, c.inBody(nil, nil, false)...))
	without := c.file.Without(all)
	switch opened, _, _ := frontEnd(without.Data); {
	case !closed && opened: // by its first line, behind a comment of several, or it never ends
		return all
	case !mayHoldCode(without.Data[without.InData(c.front):]):
		return all
	}
	found := inFront
	careful := patience + shortText/len(c.data)
	for round := range careful + rounds {
		code, ok := c.codeWithout(found)
		if !ok {
			return all
		}
		more := c.inBody(found, code, round < careful)
		if len(more) == 0 {
			without := c.file.Without(found)
			if _, _, end := frontEnd(without.Data); end != without.InData(c.front) {
				return all
			}
			return found
		}
		found = append(found, more...)
		slices.SortFunc(found, func(a, b source.Range) int { return cmp.Compare(a.Start, b.Start) })
		found = joinTouching(found)
	}
	return all
}

// joinTouching makes one of comments without anything between them.
func joinTouching(list []source.Range) []source.Range {
	var joined []source.Range
	for _, r := range list {
		if k := len(joined); k > 0 && r.Start <= joined[k-1].End {
			joined[k-1].End = max(joined[k-1].End, r.End)
		} else {
			joined = append(joined, r)
		}
	}
	return joined
}

// inFront finds the comments of the front matter and where it ends; closed is false
// where there is none, or no end.
func (c *commentFinder) inFront() (list []source.Range, closed bool) {
	for at := 0; at < len(c.data); {
		line, next := cutLine(c.data, at)
		here := c.inLine(at, at+len(line))
		list = append(list, here...)
		fence := isFence(lineWithout(line, at, here))
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

func lineWithout(line []byte, at int, comments []source.Range) []byte {
	var here []source.Range
	for _, r := range comments {
		here = append(here, source.Range{Start: r.Start - at, End: r.End - at})
	}
	return source.NewFile("", line).Without(here).Data
}

// longestCode is more than any code in a line of front matter has.
const longestCode = 200

// inLine finds the comments of a line of front matter. There code ends with its clause.
func (c *commentFinder) inLine(at, end int) (list []source.Range) {
	for last := at + bytes.LastIndex(c.data[at:end], []byte(commentBegin)); at <= last; {
		switch rest := c.data[at:end]; {
		case rest[0] == '\\':
			at += 2
		case rest[0] == '`':
			clause := string(rest[:min(len(rest), longestCode)])
			if i := strings.IndexAny(clause, ";:"); i >= 0 {
				clause = clause[:i]
			}
			at += codeSpan(clause) + 1
		case bytes.HasPrefix(rest, []byte(commentBegin)):
			r := source.Range{Start: at, End: c.closing(at, end)}
			list = append(list, r)
			at = r.End
		default:
			at++
		}
	}
	return joinTouching(list)
}

// closing returns where the comment that begins at a place ends. Its end may share the
// dashes of its begin, as HTML has it.
func (c *commentFinder) closing(at, end int) int {
	if i := bytes.Index(c.data[at+2:end], []byte(commentEnd)); i >= 0 {
		return at + 2 + i + len(commentEnd)
	}
	return end
}

// inBody finds the comments of the body that are neither among those found before nor
// in code. Where careful, it stops behind the first that may have changed what is code.
func (c *commentFinder) inBody(found, code []source.Range, careful bool) (list []source.Range) {
	for at := c.front; ; {
		i := bytes.Index(c.data[at:], []byte(commentBegin))
		if i < 0 {
			return list
		}
		at += i
		if end := endAround(&found, at); end > 0 {
			at = end
			continue
		}
		if end := endAround(&code, at); end > 0 {
			at = end
			continue
		}
		before := bytes.TrimRight(c.data[:at], "\\")
		if (at-len(before))%2 == 1 {
			at += len(commentBegin)
			continue
		}
		r := source.Range{Start: at, End: c.closing(at, len(c.data))}
		for bytes.HasPrefix(c.data[r.End:], []byte(commentBegin)) { // it stands where this one does
			r.End = c.closing(r.End, len(c.data))
		}
		list = append(list, r)
		if careful && !c.changesNothing(r) {
			return list
		}
		at = r.End
	}
}

// endAround returns the end of the range that a place is in, 0 where it is in none. It
// drops the ranges that end before.
func endAround(list *[]source.Range, at int) int {
	for len(*list) > 0 && (*list)[0].End <= at {
		*list = (*list)[1:]
	}
	if len(*list) > 0 && (*list)[0].Start <= at {
		return (*list)[0].End
	}
	return 0
}

// changesNothing tells whether a comment stands on one line behind words, or alone on
// it: without it, code further on is the same.
func (c *commentFinder) changesNothing(r source.Range) bool {
	const near = 80 // enough to see words in
	before := c.data[max(r.Start-near, 0):r.Start]
	before = before[bytes.LastIndexAny(before, "\n>")+1:] // without comments before it
	after, _ := cutLine(c.data[:min(len(c.data), r.End+near)], r.End)
	alone := len(bytes.TrimSpace(before)) == 0 && len(bytes.TrimSpace(after)) == 0
	return bytes.IndexByte(c.data[r.Start:r.End], '\n') < 0 && (alone || bytes.ContainsFunc(before, isLetter))
}

func isLetter(r rune) bool { return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' }

// mayHoldCode tells whether a text has anything that makes code.
func mayHoldCode(data []byte) bool {
	return slices.ContainsFunc([]string{"`", "~~~", "\t", "    "}, func(mark string) bool { return bytes.Contains(data, []byte(mark)) })
}

// codeWithout returns where the code of the body was typed, once those comments are taken
// out; ok is false where the body is too tangled to tell.
func (c *commentFinder) codeWithout(found []source.Range) (list []source.Range, ok bool) {
	f := c.file.Without(found)
	b := body{front: f.InData(c.front), data: f.Data}
	if _, tangled := (&Note{File: f}).tangledLine(b.front); tangled {
		return nil, false
	}
	pc := parser.NewContext()
	for _, at := range codeIn(b.parse(pc), f) {
		// A fence that ends a block but for the comment behind it does end it.
		if line := strings.TrimLeft(at.Text(), " \t>"); !strings.HasPrefix(line, "```") && !strings.HasPrefix(line, "~~~") {
			list = append(list, at.TypedRange())
		}
	}
	slices.SortFunc(list, func(a, b source.Range) int { return cmp.Compare(a.Start, b.Start) })
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
