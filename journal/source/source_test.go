package source

import (
	"strings"
	"testing"
	"unicode/utf8"
)

func TestPosition(t *testing.T) {
	tests := []struct {
		name, data string
		offset     int
		want       Position
	}{
		{"empty file", "", 0, Position{1, 1}},
		{"first byte", "ab\ncd", 0, Position{1, 1}},
		{"line break stands on its line", "ab\ncd", 2, Position{1, 3}},
		{"first byte of a later line", "ab\ncd", 3, Position{2, 1}},
		{"end without newline", "ab\ncd", 5, Position{2, 3}},
		{"end after newline", "ab\n", 3, Position{2, 1}},
		{"past the end", "ab", 99, Position{1, 3}},
		{"before the start", "ab", -1, Position{1, 1}},
		{"é is one column", "é=x", 2, Position{1, 2}},
		{"a combining accent is a code point of its own", "e\u0301=x", 3, Position{1, 3}},
		{"a wide character is one column", "車軸", 3, Position{1, 2}},
		{"an emoji of four bytes is one column", "🔧x", 4, Position{1, 2}},
		{"inside a code point", "a🔧x", 3, Position{1, 2}},
		{"stray bytes are a column each", "\x80\x80x", 2, Position{1, 3}},
		{"byte order mark uncounted", "\ufeffab", 1, Position{1, 2}},
		{"byte order mark counts on no later line", "\ufeffa\nb", 2, Position{2, 1}},
		{"a mark further on is a character", "a\n\ufeffb", 5, Position{2, 2}},
		{"CRLF: the feed follows the return", "ab\r\ncd", 3, Position{1, 4}},
		{"CRLF: next line", "ab\r\ncd", 4, Position{2, 1}},
	}
	for _, test := range tests {
		if got := NewFile("a.md", []byte(test.data)).Position(test.offset); got != test.want {
			t.Errorf("%s: Position(%d) of %q is %v, want %v", test.name, test.offset, test.data, got, test.want)
		}
	}
}

func TestLine(t *testing.T) {
	tests := []struct {
		name, data string
		want       []string // lines 1, 2, … and one past the last
	}{
		{"empty file", "", []string{"", ""}},
		{"last line without newline", "ab\ncd", []string{"ab", "cd", ""}},
		{"newline at the end begins an empty line", "ab\n", []string{"ab", "", ""}},
		{"CRLF", "ab\r\n\r\ncd\r\n", []string{"ab", "", "cd", "", ""}},
		{"byte order mark", "\ufeffab\ncd", []string{"ab", "cd", ""}},
		{"byte order mark alone", "\ufeff", []string{"", ""}},
	}
	for _, test := range tests {
		file := NewFile("a.md", []byte(test.data))
		for i, want := range test.want {
			if got := file.Line(i + 1); got != want {
				t.Errorf("%s: line %d of %q is %q, want %q", test.name, i+1, test.data, got, want)
			}
		}
		if got := file.Line(0); got != "" {
			t.Errorf("%s: line 0 is %q, want nothing", test.name, got)
		}
	}
}

func TestSpan(t *testing.T) {
	file := NewFile("a.md", []byte("\ufeffétage: b\nc"))
	span := file.Span(8, 11)
	if got := span.Text(); got != "b\nc" {
		t.Errorf("Text is %q", got)
	}
	if got, want := span.Begin(), (Position{1, 8}); got != want {
		t.Errorf("Begin is %v, want %v", got, want)
	}
	if got, want := span.Finish(), (Position{2, 2}); got != want {
		t.Errorf("Finish is %v, want %v", got, want)
	}
	if got := (Span{}).Text(); got != "" {
		t.Errorf("the text of no span is %q", got)
	}
}

// FuzzPosition holds positions to what they promise: they never go back, they
// name a line that is there, and a column within that line and its ending.
func FuzzPosition(f *testing.F) {
	for _, seed := range []string{"", "\ufeff", "\ufeffa\r\né\n", "車軸\n🔧", "\x80\xf0\x9f\x94\n\xe2\x82", "a\r\rb\n\n"} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		file := NewFile("a.md", data)
		last := Position{1, 1}
		for offset := range len(data) + 1 {
			at := file.Position(offset)
			if at.Line < last.Line || at.Line == last.Line && at.Column < last.Column {
				t.Fatalf("offset %d of %q is at %v, after %v", offset, data, at, last)
			}
			last = at
			if at.Line > strings.Count(string(data), "\n")+1 {
				t.Fatalf("offset %d of %q is at %v, past the last line", offset, data, at)
			}
			if width := utf8.RuneCountInString(file.Line(at.Line)) + len("\r\n"); at.Column > width {
				t.Fatalf("offset %d of %q is at %v, past its line", offset, data, at)
			}
		}
	})
}
