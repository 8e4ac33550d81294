package problem

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"guidecoat/journal/source"

	"github.com/rivo/uniseg"
)

const (
	// widest is how many terminal columns of a source line are shown.
	widest = 160
	// reach is how many bytes to either side are looked at, so that a line of megabytes is not read for each problem.
	reach = 4096
	// tabStop is the most columns that a tab takes on a usual terminal.
	tabStop = 8
)

// A cell is what is seen as one character.
type cell struct {
	start, end int    // the bytes of the line that it stands for
	text       string // what is printed for it
	width      int    // in terminal columns
}

// snippet returns the line on which the span begins, and carets below it; empty where there is no text.
func snippet(span source.Span) (line, carets string) {
	text, start, end := span.InLine()
	if text == "" {
		return "", ""
	}
	cells := split(text, start)
	first := 0 // the span's first cell
	for first < len(cells) && cells[first].end <= start {
		first++
	}
	after := first // the first cell after the span
	for after < len(cells) && cells[after].start < end {
		after++
	}
	from, to := window(cells, first, after)

	blanks := below(cells[from:first], " ")
	marks := strings.TrimRight(below(cells[first:min(after, to)], "^"), "\t")
	if marks == "" { // an empty span, or one of tabs alone
		marks = "^"
	}
	var shown strings.Builder
	if from > 0 || cells[0].start > 0 {
		shown.WriteString("…")
		blanks = " " + blanks
	}
	for _, c := range cells[from:to] {
		shown.WriteString(c.text)
	}
	if to < len(cells) || cells[len(cells)-1].end < len(text) {
		shown.WriteString("…")
	}
	return shown.String(), blanks + marks
}

func split(line string, around int) []cell {
	var cells []cell
	at := max(around-reach, 0)
	rest := line[at:min(around+reach, len(line))]
	for state := -1; rest != ""; {
		c := cell{start: at}
		c.text, rest, c.width, state = uniseg.FirstGraphemeClusterInString(rest, state)
		at += len(c.text)
		c.end = at
		if c.text == "\t" {
			c.width = tabStop
		} else if text := Visible(c.text); text != c.text {
			c.text, c.width = text, uniseg.StringWidth(text)
		}
		cells = append(cells, c)
	}
	return cells
}

// window returns which of the cells to show: all, or what fits around the span.
func window(cells []cell, first, after int) (from, to int) {
	room := widest
	for _, c := range cells {
		room -= c.width
	}
	if room >= 0 {
		return 0, len(cells)
	}
	room = widest - 2 // what is cut off leaves an ellipsis
	fits := func(i int) bool {
		if i < 0 || i >= len(cells) || cells[i].width > room {
			return false
		}
		room -= cells[i].width
		return true
	}
	from, to = first, first
	for to < after && fits(to) {
		to++
	}
	for left, right := true, true; left || right; {
		if left = fits(from - 1); left {
			from--
		}
		if right = fits(to); right {
			to++
		}
	}
	return from, to
}

// below returns what stands below the cells: tabs below tabs, so that both agree at any width.
func below(cells []cell, mark string) string {
	var line strings.Builder
	for _, c := range cells {
		if c.text == "\t" {
			line.WriteByte('\t')
		} else {
			line.WriteString(strings.Repeat(mark, c.width))
		}
	}
	return line.String()
}

// Visible writes out what would not be seen or a terminal would obey: controls, line breaks, marks of direction.
func Visible(text string) string {
	if utf8.ValidString(text) && !strings.ContainsFunc(text, unseen) {
		return text
	}
	var out strings.Builder
	before := ' '
	for _, r := range text {
		// The joiners are left alone where words and emoji need them, never behind ASCII.
		if unseen(r) && (!isJoiner(r) || before < utf8.RuneSelf) {
			fmt.Fprintf(&out, "<U+%04X>", r)
		} else {
			out.WriteRune(r)
		}
		before = r
	}
	return out.String()
}

// unseen tells whether a character would not be seen.
func unseen(r rune) bool {
	return unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp)
}

func isJoiner(r rune) bool { return r == '\u200c' || r == '\u200d' }

// indent stands before what explains a problem, so that places alone stand at the left.
const indent = "    "

// Text prints problems for people, the place first, as editors expect it:
//
//	2026-04-11.md:3:8: error, unknown-stage: no stage called "rear axel"
//	    stage: rear axel
//	           ^^^^^^^^^
//	    Nearest: "rear axle". The stages are listed in build.md.
//	    Corrected: stage: rear axle
type Text struct {
	Colour bool // whether to mark up for a terminal
	Brief  bool // the first line of each alone
}

// Write prints the problems in the order given. Its error is the writer's.
//
// Notes may come from anybody: nothing that a terminal would obey is passed on.
func (t Text) Write(w io.Writer, problems []Problem) error {
	out := bufio.NewWriter(w) // keeps the first error for Flush
	for _, p := range problems {
		at := p.Span.Begin()
		place := fmt.Sprintf("%s:%d:%d:", Visible(p.Span.File.Path), at.Line, at.Column)
		fmt.Fprintf(out, "%s %s, %s: %s\n", t.paint(bold, place), t.paint(p.Severity.style(), p.Severity.String()), p.Check, Visible(p.Message))
		if t.Brief {
			continue
		}
		if line, carets := snippet(p.Span); line != "" {
			fmt.Fprintf(out, "%s%s\n%s%s\n", indent, line, indent, t.paintCarets(p.Severity, carets))
		}
		for line := range strings.Lines(p.Help) {
			fmt.Fprintln(out, strings.TrimRight(indent+Visible(strings.TrimSuffix(line, "\n")), " "))
		}
		if line := corrected(p.Fix); line != "" {
			fmt.Fprintln(out, indent+"Corrected: "+line)
		}
	}
	return out.Flush()
}

// corrected is the line as a fix leaves it, "" for one that touches several.
func corrected(fix *source.Fix) string {
	if fix == nil || strings.Contains(fix.Text, "\n") || fix.Span.Begin().Line != fix.Span.Finish().Line {
		return ""
	}
	line, start, end := fix.Span.InLine()
	put := source.NewFile("", []byte(line[:start]+fix.Text+line[end:]))
	shown, _ := snippet(put.Span(start, start+len(fix.Text)))
	return strings.TrimSpace(shown)
}

// A style is what ECMA-48 calls the parameters of a graphic rendition.
type style string

const bold style = "1"

func (s Severity) style() style {
	switch s {
	case Error:
		return "1;31"
	case Warning:
		return "1;33"
	}
	return "1;36"
}

func (t Text) paint(s style, text string) string {
	if !t.Colour {
		return text
	}
	return "\x1b[" + string(s) + "m" + text + "\x1b[0m"
}

// paintCarets colours the carets and not the blanks, which some terminals would fill.
func (t Text) paintCarets(s Severity, line string) string {
	at := strings.IndexByte(line, '^')
	return line[:at] + t.paint(s.style(), line[at:])
}
