package markdown

import (
	"strconv"
	"strings"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"
)

// putTable writes a table in a box of its own, so that a wide one scrolls without the
// page. The box takes the keyboard's focus to be scrolled by it, and so has a name.
func putTable(p *page, n ast.Node, entering bool) ast.WalkStatus {
	if entering {
		p.tables++
		p.openScroll(p.l.Tongue.Say("Table %s", strconv.Itoa(p.tables)), headersOf(p, n))
		p.put("<table>\n")
	} else {
		p.put("</table>\n</div>\n")
	}
	return ast.WalkContinue
}

// openScroll opens the box of a table, named by what it is and holds.
func (p *page) openScroll(name, holds string) {
	if holds != "" {
		name += ": " + holds
	}
	p.put(`<div class="table-scroll" tabindex="0" role="region"`)
	p.attr("aria-label", name)
	p.put(">\n")
}

// headersOf returns the words of a table's first row.
func headersOf(p *page, n ast.Node) string {
	var list []string
	size := 0
	for c := n.FirstChild().FirstChild(); c != nil && size < 80; c = c.NextSibling() {
		if words := plain(c, p.src); words != "" {
			list = append(list, words)
			size += len(words)
		}
	}
	return strings.Join(list, ", ")
}

func putTableHeader(p *page, n ast.Node, entering bool) ast.WalkStatus {
	if entering {
		p.put("<thead>\n<tr>\n")
	} else {
		p.put("</tr>\n</thead>\n")
		if n.NextSibling() != nil {
			p.put("<tbody>\n")
		}
	}
	return ast.WalkContinue
}

func putTableRow(p *page, n ast.Node, entering bool) ast.WalkStatus {
	if entering {
		p.put("<tr>\n")
	} else {
		p.put("</tr>\n")
		if n.NextSibling() == nil {
			p.put("</tbody>\n")
		}
	}
	return ast.WalkContinue
}

// alignments are the classes of cells.
var alignments = map[east.Alignment]string{east.AlignLeft: "left", east.AlignRight: "right", east.AlignCenter: "center"}

// maxPadded is up to how many columns a short row is filled up: not to the
// thousands that one hostile line can ask for.
const maxPadded = 100

func putTableCell(p *page, n ast.Node, entering bool) ast.WalkStatus {
	name, scope := "td", ""
	if n.Parent().Kind() == east.KindTableHeader && n.FirstChild() != nil {
		name, scope = "th", "col"
	}
	if !entering {
		p.put("</", name, ">\n")
		return ast.WalkContinue
	}
	if n.FirstChild() == nil && n.Parent().ChildCount() > maxPadded {
		return p.skip(n)
	}
	p.put("<", name)
	p.attr("scope", scope)
	p.attr("class", alignments[n.(*east.TableCell).Alignment])
	p.WriteByte('>')
	return ast.WalkContinue
}
