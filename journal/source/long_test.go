package source

import (
	"strings"
	"testing"
	"unicode/utf8"
)

// In long lines columns are counted from milestones, which must give what counting
// from the beginning of the line gives.
func TestLongLines(t *testing.T) {
	text := "short\n" + strings.Repeat("é\xff漢x", 5000) + "\n\n" + strings.Repeat("a", 9000) + "\r\nend\n" + strings.Repeat("\xf0\x9f\x98\x80", 3000)
	f := NewFile("a.md", []byte(text))
	for offset := range len(text) + 1 {
		if offset%7 > 1 && offset%4096 > 3 {
			continue
		}
		begin := strings.LastIndexByte(text[:offset], '\n') + 1
		at := begin
		for column := 1; ; column++ {
			_, size := utf8.DecodeRuneInString(text[at:])
			if at+size > offset || size == 0 {
				if got := f.Position(offset); got.Column != column || got.Line != strings.Count(text[:offset], "\n")+1 {
					t.Fatalf("the byte at %d stands at %v, want column %d", offset, got, column)
				}
				break
			}
			at += size
		}
	}
}
