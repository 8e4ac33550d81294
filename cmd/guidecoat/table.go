package main

import (
	"slices"
	"strings"

	"guidecoat/journal/pick"

	"github.com/rivo/uniseg"
)

// A column of a table. One in which every cell is empty is not shown.
type column struct {
	head  string
	right bool // figures stand at the right
	// least is what it may be cut down to on a narrow terminal; 0: never, as with ids, places, figures.
	least int
}

type row struct {
	cells []string
	below []string // lines that explain it, under its second cell
	style style    // of its first cell
}

// A table aligns cells by the width that they take on a terminal, in any alphabet.
type table struct {
	columns []column
	rows    []row
}

func (t *table) add(cells ...string) { t.rows = append(t.rows, row{cells: cells}) }

const gutter = 2

// print prints the table, or blocks of lines where even its narrowest form does not fit: no figure may be cut.
func (t *table) print(s *screen) {
	t.prepare()
	if len(t.columns) == 0 {
		return
	}
	widths := t.widths()
	if s.edge && !t.shrink(widths, s.width) {
		t.blocks(s)
		return
	}
	heads := pick.Map(t.columns, func(c column) string { return c.head })
	s.b.WriteString(s.paint(bold, t.join(heads, widths, s, plain)) + "\n")
	indent := strings.Repeat(" ", min(widths[0]+gutter, s.width/2))
	for _, r := range t.rows {
		s.b.WriteString(t.join(r.cells, widths, s, r.style) + "\n")
		for _, line := range r.below {
			s.b.WriteString(indent + s.cut(clean(line), s.width-len(indent)) + "\n")
		}
	}
}

// prepare cleans the cells and leaves out the columns that hold nothing.
func (t *table) prepare() {
	for i := len(t.columns) - 1; i >= 0; i-- {
		empty := true
		for _, r := range t.rows {
			r.cells[i] = clean(r.cells[i])
			empty = empty && r.cells[i] == ""
		}
		if !empty {
			continue
		}
		t.columns = slices.Delete(slices.Clone(t.columns), i, i+1)
		for j := range t.rows {
			t.rows[j].cells = slices.Delete(t.rows[j].cells, i, i+1)
		}
	}
}

func (t *table) widths() []int {
	widths := make([]int, len(t.columns))
	for i, c := range t.columns {
		widths[i] = uniseg.StringWidth(c.head)
		for _, r := range t.rows {
			widths[i] = max(widths[i], uniseg.StringWidth(r.cells[i]))
		}
	}
	return widths
}

// shrink takes from the widest column that may be cut until the table fits; false where it cannot.
func (t *table) shrink(widths []int, room int) bool {
	total := gutter * (len(widths) - 1)
	for _, w := range widths {
		total += w
	}
	for ; total > room; total-- {
		widest := -1
		for i, c := range t.columns {
			if c.least > 0 && widths[i] > c.least && (widest < 0 || widths[i] > widths[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			return false
		}
		widths[widest]--
	}
	return true
}

func (t *table) join(cells []string, widths []int, s *screen, first style) string {
	var b strings.Builder
	for i, text := range cells {
		text = s.cut(text, widths[i])
		fill := strings.Repeat(" ", widths[i]-uniseg.StringWidth(text))
		if i == 0 {
			text = s.paint(first, text)
		}
		if t.columns[i].right {
			text = fill + text
		} else {
			text += fill
		}
		if i > 0 {
			b.WriteString(strings.Repeat(" ", gutter))
		}
		b.WriteString(text)
	}
	return strings.TrimRight(b.String(), " ")
}

func (t *table) blocks(s *screen) {
	left := 0
	for _, c := range t.columns {
		left = max(left, uniseg.StringWidth(c.head))
	}
	for _, r := range t.rows {
		for i, text := range r.cells {
			if text == "" {
				continue
			}
			lead, as := "  ", plain
			if i == 0 {
				lead, as = "", r.style
			}
			if t.columns[i].least > 0 {
				text = cut(text, max(s.width-left-2*gutter, t.columns[i].least))
			}
			text = s.paint(as, text)
			s.b.WriteString(lead + pad(t.columns[i].head, left) + "  " + text + "\n")
		}
		for _, line := range r.below {
			s.b.WriteString("  " + cut(clean(line), s.width-2) + "\n")
		}
	}
}
