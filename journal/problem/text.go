package problem

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"guidecoat/journal/source"
)

// indent stands before everything that explains a problem, so that the places
// alone stand at the left.
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
// Notes may come from anybody, and what they hold is quoted in messages: nothing
// that a terminal would obey rather than show is passed on, from any part of a problem.
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

// paintCarets colours the carets and not the blanks before them, which some
// terminals would fill.
func (t Text) paintCarets(s Severity, line string) string {
	at := strings.IndexByte(line, '^')
	return line[:at] + t.paint(s.style(), line[at:])
}
