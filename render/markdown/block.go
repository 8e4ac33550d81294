package markdown

import (
	"strconv"
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/pick"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"
)

func (p *page) heading(n ast.Node, entering bool) ast.WalkStatus {
	if saidBefore(p, n) {
		return p.skip(n)
	}
	at, ok := outlineOf(p)[n.(*ast.Heading)]
	if !ok {
		return p.skip(n)
	}
	level := "123456"[at.level-1 : at.level]
	if entering {
		p.put("<h", level)
		p.attr("id", at.id)
		p.put(">")
	} else {
		p.put("</h", level, ">\n")
	}
	return ast.WalkContinue
}

func (p *page) paragraph(n ast.Node, entering bool) ast.WalkStatus {
	if p.bare {
		if entering && n.PreviousSibling() != nil {
			p.WriteByte(' ')
		}
		return ast.WalkContinue
	}
	if entering {
		if putFigures(p, n) || saidBefore(p, n) {
			return p.skip(n)
		}
		p.put("<p>")
	} else {
		p.put("</p>\n")
	}
	return ast.WalkContinue
}

// textBlock writes the words of an item of a tight list, which have no paragraph.
func (p *page) textBlock(n ast.Node, entering bool) ast.WalkStatus {
	if entering {
		if putFigures(p, n) || saidBefore(p, n) {
			return p.skip(n)
		}
	} else if n.NextSibling() != nil && n.FirstChild() != nil {
		p.WriteByte('\n')
	}
	return ast.WalkContinue
}

// saidBefore tells whether a block holds the words of a snag, which its item has written.
func saidBefore(p *page, n ast.Node) bool {
	return putTask(n) != nil && putSnag(p, n.Parent()) != nil
}

func (p *page) quote(n ast.Node, entering bool) ast.WalkStatus {
	if entering {
		if vanishes(p, n) || tooDeep(p) {
			return p.skip(n)
		}
		p.blocks++
		p.put("<blockquote>\n")
	} else {
		p.blocks--
		p.put("</blockquote>\n")
	}
	return ast.WalkContinue
}

func (p *page) list(n ast.Node, entering bool) ast.WalkStatus {
	l := n.(*ast.List)
	name := pick.Either(l.IsOrdered(), "ol", "ul")
	if !entering {
		p.blocks--
		p.put("</", name, ">\n")
		return ast.WalkContinue
	}
	if vanishes(p, n) || tooDeep(p) {
		return p.skip(n)
	}
	p.blocks++
	p.put("<", name)
	if l.IsOrdered() && l.Start != 1 {
		p.attr("start", strconv.Itoa(l.Start))
	}
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		if c.FirstChild() != nil && putTask(c.FirstChild()) != nil {
			p.attr("class", "tasks")
			break
		}
	}
	p.put(">\n")
	return ast.WalkContinue
}

func (p *page) listItem(n ast.Node, entering bool) ast.WalkStatus {
	if !entering {
		p.put("</li>\n")
		return ast.WalkContinue
	}
	if vanishes(p, n) {
		return p.skip(n)
	}
	first := n.FirstChild()
	switch {
	case first == nil:
		p.put("<li>")
	case putTask(first) == nil:
		p.put("<li>")
		if first.Kind() != ast.KindTextBlock {
			p.WriteByte('\n')
		}
	default:
		putTaskItem(p, n, putTask(first).IsChecked)
	}
	return ast.WalkContinue
}

func (p *page) thematicBreak(n ast.Node, _ bool) ast.WalkStatus {
	p.put("<hr>\n")
	return p.skip(n)
}

// tooDeep writes a remark in place of what is nested too deeply, and tells whether it did.
func tooDeep(p *page) bool {
	if p.blocks < maxBlocks {
		return false
	}
	p.element("p", "too-deep", p.l.Tongue.Say("(nested too deeply to be shown)"))
	p.put("\n")
	return true
}

// vanishes tells whether nothing of a block is shown: a hidden snag, a comment, or only such.
func vanishes(p *page, n ast.Node) bool {
	switch n := n.(type) {
	case *ast.ListItem:
		if n.FirstChild() != nil && putTask(n.FirstChild()) != nil {
			return p.body != nil && p.body.Snags && p.body.Items[note.ItemAt(n)] == nil
		}
	case *ast.List, *ast.Blockquote:
	case *ast.LinkReferenceDefinition:
		return true
	default:
		return false
	}
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		if !vanishes(p, c) {
			return false
		}
	}
	return true
}

// putTable writes a table in a box that scrolls by the keyboard, and so has a name.
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

var alignments = map[east.Alignment]string{east.AlignLeft: "left", east.AlignRight: "right", east.AlignCenter: "center"}

// maxPadded is up to how many columns a short row is filled up, not thousands.
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
