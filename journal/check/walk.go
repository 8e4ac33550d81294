package check

import (
	"bytes"
	"cmp"
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/source"
	"guidecoat/journal/state"

	"github.com/yuin/goldmark/ast"
)

// What several checks look at.

// Words are one file whose words a page shows: the job card, a session or an extra page.
type words struct {
	note    *note.Note
	private bool // of the whole note
}

// notes are all of them, whatever the date of the state.
func (p *Pass) notes() []words {
	b := p.State.Build
	all := []words{{b.Card.Note, false}}
	for _, s := range b.Sessions {
		all = append(all, words{s.Note, s.Private})
	}
	for _, pg := range b.Pages {
		all = append(all, words{pg.Note, pg.Private})
	}
	return all
}

// doubtful are the ids and other words of lines that were left out for a mistake.
// What such a line was to say of a part is not known, and nothing is said of that
// part for lack of it: one mistake, one message.
func (p *Pass) doubtful() map[string]bool {
	b := p.State.Build
	inBuild := map[*source.File]bool{}
	for _, w := range p.notes() {
		inBuild[w.note.File] = true
	}
	doubt := map[string]bool{}
	type line struct {
		file *source.File
		n    int
	}
	seen := map[line]bool{}
	for _, f := range p.errors {
		at := line{f.Span.File, 0} // the whole of a note that was left out
		text := ""
		if inBuild[f.Span.File] {
			at.n = f.Span.Begin().Line
		}
		if seen[at] {
			continue
		}
		seen[at] = true
		if at.n == 0 {
			text = string(f.Span.File.Data)
		} else {
			text = f.Span.File.Line(at.n)
		}
		for word := range strings.FieldsFuncSeq(text, func(r rune) bool { return !isIDRune(r) }) {
			doubt[word] = true
		}
	}
	for _, s := range b.Sessions {
		for i := range s.Note.Fields {
			if f := &s.Note.Fields[i]; f.Repeated {
				doubt[f.Value.S] = true
			}
		}
	}
	return doubt
}

func isIDRune(r rune) bool { return r == '-' || r >= 'a' && r <= 'z' || r >= '0' && r <= '9' }

// lastIn returns the line in which a part last came into that state from another.
func lastIn(part *state.Part, state string) *journal.PartLine {
	var at *journal.PartLine
	for i, l := range part.Lines {
		if l.State == state && (i == 0 || part.Lines[i-1].State != state) {
			at = l
		}
	}
	return at
}

const (
	commentOpens  = "<!--"
	commentCloses = "-->"
)

// comments are the HTML comments of a body, in order. In code they are words like
// any other; elsewhere a builder takes them for comments even where Markdown does
// not, since they hold an empty line.
func comments(n *note.Note) []source.Span {
	data := n.File.Data
	if n.Unread || !bytes.Contains(data, []byte(commentOpens)) {
		return nil
	}
	var list []source.Span
	code := codeOf(n)
	for at := n.BodyStart(); ; {
		i := bytes.Index(data[at:], []byte(commentOpens))
		if i < 0 {
			return list
		}
		start := at + i
		for len(code) > 0 && int(code[0].End) <= start {
			code = code[1:]
		}
		switch {
		case len(code) > 0 && int(code[0].Start) <= start:
			at = int(code[0].End)
			continue
		case start > 0 && data[start-1] == '\\':
			at = start + 1
			continue
		}
		// A comment may be as short as <!-->: its end may share the dashes of its begin.
		end := bytes.Index(data[start+2:], []byte(commentCloses))
		if end < 0 {
			return list
		}
		at = start + 2 + end + len(commentCloses)
		list = append(list, n.File.Span(start, at))
	}
}

// codeOf are the code spans and blocks of a body, in order.
func codeOf(n *note.Note) []source.Span {
	var list []source.Span
	add := func(start, end int) {
		if start < end {
			list = append(list, n.File.Span(start, end))
		}
	}
	_ = ast.Walk(n.Doc(), func(node ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch node := node.(type) {
		case *ast.CodeSpan:
			for c := node.FirstChild(); c != nil; c = c.NextSibling() {
				if c, ok := c.(*ast.Text); ok {
					add(c.Segment.Start, c.Segment.Stop)
				}
			}
		case *ast.CodeBlock, *ast.FencedCodeBlock:
			for i := range node.Lines().Len() {
				line := node.Lines().At(i)
				add(line.Start, line.Stop)
			}
		}
		return ast.WalkContinue, nil
	})
	slices.SortFunc(list, func(a, b source.Span) int { return cmp.Compare(a.Start, b.Start) })
	return list
}
