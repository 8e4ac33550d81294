package source

import (
	"math/rand/v2"
	"strings"
	"testing"
)

func TestWithout(t *testing.T) {
	f := NewFile("a.md", []byte("a é<1\n23>b\n<4>\nc `<5>` d<6\n7")).Without([]Range{{4, 10}, {12, 15}, {19, 22}, {25, 29}})
	if want := "a éb\n\nc ` ` d"; string(f.Data) != want {
		t.Fatalf("without its parts it is %q, want %q", f.Data, want)
	}
	for _, test := range []struct {
		start, end  int
		begin, ends Position
	}{
		{0, 1, Position{1, 1}, Position{1, 2}},
		{2, 4, Position{1, 3}, Position{1, 4}},
		{2, 5, Position{1, 3}, Position{2, 5}},   // over what was left out
		{4, 5, Position{2, 4}, Position{2, 5}},   // behind it
		{5, 5, Position{2, 5}, Position{2, 5}},   // a line's end
		{6, 6, Position{3, 1}, Position{3, 1}},   // where a line was
		{10, 11, Position{4, 4}, Position{4, 5}}, // the space in its place
		{13, 13, Position{4, 9}, Position{4, 9}}, // where it was left out up to the end
	} {
		span := f.Span(test.start, test.end)
		if span.Begin() != test.begin || span.Finish() != test.ends {
			t.Errorf("%d to %d stands from %v to %v, want %v to %v", test.start, test.end, span.Begin(), span.Finish(), test.begin, test.ends)
		}
	}
	if line, start, end := f.Span(2, 5).InLine(); line != "a é<1" || start != 2 || end != len(line) {
		t.Errorf("the span stands in %q from %d to %d", line, start, end)
	}
}

// Whatever is left out, what is not stands where it was typed, and the lines are those
// that were typed.
func TestPlacesHold(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 5000 {
		text := make([]byte, r.IntN(40))
		for i := range text {
			text[i] = "abé<-\n \r"[r.IntN(9)]
		}
		var left []Range
		for at := 0; ; {
			start := at + r.IntN(12)
			end := start + 1 + r.IntN(8)
			if end > len(text) {
				break
			}
			left, at = append(left, Range{start, end}), end+1
		}
		f := NewFile("a.md", text).Without(left)
		for i := range f.Data {
			at := f.Span(i, i+1).TypedRange()
			space := f.Data[i] == ' ' && at.Start+1 == at.End // it may stand for what was left out
			if text[at.Start] != f.Data[i] && !space && !strings.ContainsRune("\r\n", rune(f.Data[i])) {
				t.Fatalf("%q without %v is %q, and %q at %d was typed at %d", text, left, f.Data, f.Data[i], i, at.Start)
			}
			if !space && f.InData(at.End-1) != i {
				t.Fatalf("%q without %v is %q: what stands at %d is looked for at %d", text, left, f.Data, i, f.InData(at.End-1))
			}
		}
		joined, number := "", 0
		for line := range f.Lines {
			joined += line.Text()
			if number++; strings.Trim(line.Text(), "\r\n") != "" && line.Begin().Line != number {
				t.Fatalf("%q without %v: line %d, %q, is told as %d", text, left, number, line.Text(), line.Begin().Line)
			}
		}
		if joined != string(f.Data) {
			t.Fatalf("%q without %v has the lines %q, want %q", text, left, joined, f.Data)
		}
	}
}
