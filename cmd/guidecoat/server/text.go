package server

import (
	"slices"
	"strings"
	"unicode/utf8"

	"guidecoat/journal/source"
)

// The encodings of positions that are spoken.
const (
	utf8Positions  = "utf-8"
	utf16Positions = "utf-16" // what every editor speaks
)

// Lines are where the lines of a text begin. The protocol ends a line at \n, \r\n and \r.
type lines struct {
	text   string
	starts []int
	utf8   bool // positions count bytes, not units of UTF-16
}

func linesOf(text string, utf8 bool) *lines {
	l := &lines{text: text, starts: []int{0}, utf8: utf8}
	for at := 0; ; {
		i := strings.IndexAny(text[at:], "\r\n")
		if i < 0 {
			return l
		}
		if at += i + 1; text[at-1] == '\r' && at < len(text) && text[at] == '\n' {
			at++
		}
		l.starts = append(l.starts, at)
	}
}

// line returns where a line begins and where its words end.
func (l *lines) line(n int) (start, end int) {
	start, end = l.starts[n], len(l.text)
	if n+1 < len(l.starts) {
		end = l.starts[n+1]
	}
	return start, start + len(strings.TrimRight(l.text[start:end], "\r\n"))
}

// laid is the text as it is read. Front matter that is still being typed, with nothing
// below it so far, ends where the text does: so its lines are understood from the first on.
func (l *lines) laid() string {
	if !l.isFence(0) {
		return l.text
	}
	for n := 1; n < len(l.starts); n++ {
		start, end := l.line(n)
		empty := strings.TrimSpace(l.text[start:end]) == ""
		if l.isFence(n) || empty && strings.TrimSpace(l.text[end:]) != "" {
			return l.text
		}
	}
	return strings.TrimSuffix(l.text, "\n") + "\n---\n"
}

// offset is the byte at a position. One behind a line is its end, one behind the text
// the end of that, and one within a character where that begins.
func (l *lines) offset(p position) int {
	if int64(p.Line) >= int64(len(l.starts)) {
		return len(l.text)
	}
	at, end := l.line(int(p.Line))
	for left := int64(p.Character); at < end; {
		r, size := utf8.DecodeRuneInString(l.text[at:end])
		if left -= int64(l.units(r, size)); left < 0 {
			break
		}
		at += size
	}
	return at
}

func (l *lines) units(r rune, size int) int {
	switch {
	case l.utf8:
		return size
	case r > 0xffff:
		return 2
	}
	return 1
}

// position is where a byte stands.
func (l *lines) position(offset int) position {
	offset = min(max(offset, 0), len(l.text))
	n, exact := slices.BinarySearch(l.starts, offset)
	if !exact {
		n--
	}
	start, end := l.line(n)
	p := position{Line: uint32(n)}
	for at := start; at < min(offset, end); {
		r, size := utf8.DecodeRuneInString(l.text[at:end])
		if at+size > offset {
			break
		}
		p.Character += uint32(l.units(r, size))
		at += size
	}
	return p
}

func (l *lines) between(start, end int) textRange {
	return textRange{l.position(start), l.position(end)}
}

// edit returns the text as a change leaves it.
func (l *lines) edit(c change) string {
	if c.Range == nil {
		return c.Text
	}
	a, b := l.offset(c.Range.Start), l.offset(c.Range.End)
	return l.text[:min(a, b)] + c.Text + l.text[max(a, b):]
}

const byteOrderMark = "\ufeff"

// A page is a file as an editor shows it beside what was read of it.
type page struct {
	*lines
	file *source.File
	mark int // bytes before what was read
}

// span is where a span of the file stands.
func (p page) span(s source.Span) textRange {
	r := s.TypedRange()
	return p.between(r.Start+p.mark, r.End+p.mark)
}

// at is the place in what was read that a position stands for.
func (p page) at(pos position) int { return p.file.InData(max(p.offset(pos)-p.mark, 0)) }
