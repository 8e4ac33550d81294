package note

import (
	"unicode"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/parser"
	gtext "github.com/yuin/goldmark/text"
)

// boxParser finds the box that a task-list item begins with. It takes what people
// type for one: any space of Unicode in it, or none, and characters without width.
type boxParser struct{}

func (boxParser) Trigger() []byte { return []byte{'['} }

func (boxParser) Parse(parent ast.Node, block gtext.Reader, _ parser.Context) ast.Node {
	item, ok := parent.Parent().(*ast.ListItem)
	if !ok || item.FirstChild() != parent || parent.HasChildren() {
		return nil
	}
	line, _ := block.PeekLine()
	ticked, width := box(line)
	if width == 0 {
		return nil
	}
	block.Advance(width)
	return east.NewTaskCheckBox(ticked)
}

// box reads the box at the beginning of a line and the spaces behind it; its width
// is 0 where there is none. What a parenthesis follows is a link.
func box(line []byte) (ticked bool, width int) {
	if len(line) == 0 || line[0] != '[' {
		return false, 0
	}
	at := 1 + blank(line[1:])
	if at < len(line) && (line[at] == 'x' || line[at] == 'X') {
		ticked = true
		at++
		at += blank(line[at:])
	}
	if at >= len(line) || line[at] != ']' || at+1 < len(line) && line[at+1] == '(' {
		return false, 0
	}
	return ticked, at + 1 + blank(line[at+1:])
}

// blank counts the bytes of spaces and of characters without width, up to a line's end.
func blank(line []byte) (width int) {
	for width < len(line) {
		r, size := utf8.DecodeRune(line[width:])
		if r == '\n' || !unicode.IsSpace(r) && !unicode.Is(unicode.Cf, r) {
			break
		}
		width += size
	}
	return width
}
