package source

import (
	"bytes"
	"sort"
	"strings"
)

// A Range is a half-open range of the bytes of a file as it was typed.
type Range struct{ Start, End int }

// A cut says that from an offset of Data on, so many bytes of what was typed were left out.
type cut struct{ at, skipped int }

// Without returns the file without those ranges, in order. A space keeps apart what would join to a mark.
func (f *File) Without(ranges []Range) *File {
	if len(ranges) == 0 {
		return f
	}
	w := &File{Path: f.Path, typed: f.typed, Data: make([]byte, 0, len(f.typed))}
	at := 0
	for _, r := range ranges {
		if r.End <= at {
			continue
		}
		w.Data = append(w.Data, f.typed[at:max(at, r.Start)]...)
		at = r.End
		if r.Start > 0 && at < len(f.typed) && joins(f.typed[r.Start-1]) && joins(f.typed[at]) {
			w.Data = append(w.Data, ' ')
		}
		w.cuts = append(w.cuts, cut{len(w.Data), at - len(w.Data)})
	}
	w.Data = append(w.Data, f.typed[at:]...)
	return w
}

func joins(c byte) bool { return strings.IndexByte("<!-`~", c) >= 0 }

// IsCut tells whether anything was left out.
func (f *File) IsCut() bool { return len(f.cuts) > 0 }

// inTyped returns where the byte at an offset of Data was typed: before what was left out at a line's end.
func (f *File) inTyped(offset int) int {
	offset = min(max(offset, 0), len(f.Data))
	i := sort.Search(len(f.cuts), func(i int) bool { return f.cuts[i].at > offset })
	for i > 0 && f.cuts[i-1].at == offset && f.endsLine(offset) {
		i--
	}
	if i == 0 {
		return offset
	}
	return offset + f.cuts[i-1].skipped
}

func (f *File) endsLine(offset int) bool {
	return offset == len(f.Data) || bytes.HasPrefix(f.Data[offset:], []byte("\n")) || bytes.HasPrefix(f.Data[offset:], []byte("\r\n"))
}

// InData returns where the byte that was typed at an offset stands in Data, or would.
func (f *File) InData(typed int) int {
	i := sort.Search(len(f.cuts), func(i int) bool { return f.cuts[i].at+f.cuts[i].skipped > typed })
	before := 0
	if i > 0 {
		before = f.cuts[i-1].skipped
	}
	if typed -= before; i < len(f.cuts) {
		return min(typed, f.cuts[i].at)
	}
	return typed
}

// TypedRange returns where a span was typed, with all that was left out of it.
func (s Span) TypedRange() Range { return Range{s.File.inTyped(int(s.Start)), s.typedEnd()} }

func (s Span) typedEnd() int {
	if s.End <= s.Start {
		return s.File.inTyped(int(s.End))
	}
	return s.File.inTyped(int(s.End)-1) + 1
}

// InLine returns the line that a span begins on, as it was typed, and where in it.
func (s Span) InLine() (line string, start, end int) {
	r := s.TypedRange()
	n, begin := s.File.lineAt(r.Start)
	line = s.File.Line(n)
	start = min(r.Start-begin, len(line)) // it may begin in the line ending
	return line, start, min(max(r.End-begin, start), len(line))
}

// Lines yields the spans of the lines as typed, with their endings. One that was left out is empty.
func (f *File) Lines(yield func(Span) bool) {
	starts := f.index()
	for i, start := range starts {
		from, to := f.InData(int(start)), len(f.Data)
		if i+1 < len(starts) {
			to = f.InData(int(starts[i+1]))
		}
		if !yield(f.Span(from, to)) || i+1 < len(starts) && f.inTyped(len(f.Data)) < int(starts[i+1]) {
			return
		}
	}
}
