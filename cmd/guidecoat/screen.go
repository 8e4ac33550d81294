package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"guidecoat/journal/export"
	"guidecoat/journal/problem"
	"guidecoat/render"

	"github.com/rivo/uniseg"
)

// A screen collects what is for people to read, and prints it at once: trouble on the way leaves nothing half said.
type screen struct {
	out    io.Writer
	b      bytes.Buffer
	width  int  // columns that sentences are broken to
	edge   bool // there is an edge: what is wider is cut. A file or another program gets all of it
	colour bool
}

// The columns a screen uses: narrowWidth where nobody looks, on a terminal what it has, within reason.
const (
	leastWidth  = 40
	narrowWidth = 80
	widestWidth = 120
)

func newScreen(out io.Writer, getenv func(string) string) *screen {
	s := &screen{out: out, width: narrowWidth}
	if o, ok := out.(*overheard); ok {
		out = o.Writer
	}
	if file, ok := out.(*os.File); ok {
		if columns, ok := terminal(file); ok {
			s.width, s.edge = min(max(columns, leastWidth), widestWidth), true
			s.colour = colourWanted(getenv)
		}
	}
	return s
}

// colourWanted follows no-color.org, and terminals that say they have none.
func colourWanted(getenv func(string) string) bool {
	return getenv("NO_COLOR") == "" && getenv("TERM") != "dumb"
}

// photoLine shows on a terminal how far the photos are, on a line that is written over until rub takes it away.
func (w *world) photoLine() (photos *render.Progress, rub func()) {
	if !newScreen(w.stderr, w.getenv).colour { // nobody looks, or what looks cannot go back in a line
		return nil, func() {}
	}
	out := w.stderr
	if o, ok := out.(*overheard); ok {
		out = o.Writer
	}
	photos = &render.Progress{Tell: func(done, all int) { fmt.Fprintf(out, "\rphotos %d of %d", done, all) }}
	return photos, func() { fmt.Fprint(out, "\r\x1b[K") }
}

func (s *screen) flush() error {
	_, err := s.out.Write(s.b.Bytes())
	return cannotPrint(err)
}

// print prints an answer as JSON, or shows it.
func (w *world) print(asJSON bool, answer any, show func(*screen)) error {
	if asJSON {
		return cannotPrint(export.Write(w.stdout, answer))
	}
	s := newScreen(w.stdout, w.getenv)
	show(s)
	return s.flush()
}

// cannotPrint ends the run for an error in printing, if it is one.
func cannotPrint(err error) error {
	if _, ok := errors.AsType[*exit](err); ok || err == nil { // an exit says so already
		return err
	}
	return fileTrouble("", "the result could not be printed: %v", err)
}

// A style is what ECMA-48 calls the parameters of a graphic rendition.
type style string

const (
	plain  style = ""
	bold   style = "1"
	red    style = "1;31"
	yellow style = "1;33"
	cyan   style = "1;36"
)

func (s *screen) paint(as style, text string) string {
	if !s.colour || as == plain || text == "" {
		return text
	}
	return "\x1b[" + string(as) + "m" + text + "\x1b[0m"
}

// gap leaves an empty line, unless the screen is empty.
func (s *screen) gap() {
	if s.b.Len() > 0 {
		s.b.WriteByte('\n')
	}
}

func (s *screen) cut(text string, width int) string {
	if !s.edge {
		return text
	}
	return cut(text, width)
}

// line prints one line, cut off at the edge.
func (s *screen) line(text string) {
	s.b.WriteString(s.cut(clean(text), s.width) + "\n")
}

// heading prints a line that stands out.
func (s *screen) heading(text string) {
	s.b.WriteString(s.paint(bold, s.cut(clean(text), s.width)) + "\n")
}

// say prints sentences, broken into lines, each behind the indent.
func (s *screen) say(indent, text string) {
	room := s.width - uniseg.StringWidth(indent)
	for _, line := range wrap(clean(text), room) {
		s.b.WriteString(indent + s.cut(line, room) + "\n")
	}
}

// sayIf says something where there is something to say.
func (s *screen) sayIf(text string) {
	if text != "" {
		s.say("", text)
	}
}

// below says something apart from what stands above it, where there is something to say.
func (s *screen) below(text string) {
	if text != "" {
		s.gap()
		s.say("", text)
	}
}

// incomplete says below figures which lines do not count in them.
func (s *screen) incomplete(p *place) {
	if left := p.leftOut(); left != "" {
		s.below(left + " So the figures above are not complete.")
	}
}

func (s *screen) list(rows [][2]string) {
	left := 0
	for _, r := range rows {
		left = max(left, uniseg.StringWidth(r[0]))
	}
	for _, r := range rows {
		for i, line := range wrap(clean(r[1]), s.width-left-4) {
			name := ""
			if i == 0 {
				name = clean(r[0])
			}
			s.b.WriteString("  " + pad(name, left) + "  " + s.cut(line, s.width-left-4) + "\n")
		}
	}
}

// wrap breaks sentences at spaces. A word that is longer than a line stands on one of its own.
func wrap(text string, width int) (lines []string) {
	line := ""
	for w := range strings.FieldsSeq(text) {
		switch {
		case line == "":
			line = w
		case uniseg.StringWidth(line)+1+uniseg.StringWidth(w) <= width:
			line += " " + w
		default:
			lines = append(lines, line)
			line = w
		}
	}
	return append(lines, line)
}

// cut shortens a text to a width, with an ellipsis where something is missing.
func cut(text string, width int) string {
	if uniseg.StringWidth(text) <= width {
		return text
	}
	var b strings.Builder
	used, state := 1, -1 // the ellipsis takes one
	for text != "" {
		var cluster string
		var w int
		cluster, text, w, state = uniseg.FirstGraphemeClusterInString(text, state)
		if used += w; used > width {
			break
		}
		b.WriteString(cluster)
	}
	return strings.TrimRight(b.String(), " ") + "…"
}

// pad fills a text up to a width.
func pad(text string, width int) string {
	return text + strings.Repeat(" ", max(width-uniseg.StringWidth(text), 0))
}

// clean writes out what a terminal would obey rather than show: notes may come from anybody.
func clean(text string) string { return problem.Visible(text) }

func (w *world) say(format string, args ...any) {
	fmt.Fprintln(w.stderr, clean(fmt.Sprintf(format, args...)))
}
