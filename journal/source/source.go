// Package source holds the text of one file and places in it.
//
// Everything keeps the [Span] it was read from; lines and columns are worked out when something is printed.
package source

import (
	"bytes"
	"sort"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"
)

// bom is the UTF-8 byte order mark. It may begin a file and counts in no column.
const bom = "\ufeff"

// A File was read from one place. Path is slash-separated, from the folder the user named.
type File struct {
	Path string
	// Data is what was typed, but for the comments in it. All offsets are offsets in it.
	Data []byte

	typed []byte // as the user sees it, for lines and columns in messages and for nothing else
	cuts  []cut  // what of it is not in Data, in order

	once   sync.Once
	starts []int32 // byte offset in typed of the first byte of each line

	long   sync.Once
	stones []milestone // those of all long lines
}

// NewFile drops a byte order mark at the begin. The content is not copied and must not change.
func NewFile(path string, data []byte) *File {
	data = bytes.TrimPrefix(data, []byte(bom))
	return &File{Path: path, Data: data, typed: data}
}

func (f *File) index() []int32 {
	f.once.Do(func() {
		f.starts = make([]int32, 1, bytes.Count(f.typed, []byte("\n"))+1)
		for at := 0; ; {
			next := bytes.IndexByte(f.typed[at:], '\n')
			if next < 0 {
				return
			}
			at += next + 1
			f.starts = append(f.starts, int32(at))
		}
	})
	return f.starts
}

// Typed is the text as the user sees it, which must not be changed.
func (f *File) Typed() []byte { return f.typed }

// A Position is a line and a column, both counted from 1. Columns count code points.
type Position struct{ Line, Column int }

// Position returns where the byte at offset stands: the end if past it, the begin of its code point.
func (f *File) Position(offset int) Position { return f.position(f.inTyped(offset)) }

func (f *File) position(offset int) Position {
	line, begin := f.lineAt(offset)
	for back := 1; back < utf8.UTFMax && offset-back >= begin; back++ {
		if _, size := utf8.DecodeRune(f.typed[offset-back:]); size > back {
			offset -= back
			break
		}
	}
	return Position{Line: line, Column: f.column(begin, offset)}
}

// lineAt returns the number of the line at offset, and where it begins. Near the top counting beats the index.
func (f *File) lineAt(offset int) (line, begin int) {
	const nearTheTop = 16 << 10
	if above := f.typed[:offset]; offset < nearTheTop {
		return bytes.Count(above, []byte("\n")) + 1, bytes.LastIndexByte(above, '\n') + 1
	}
	starts := f.index()
	line = sort.Search(len(starts), func(i int) bool { return int(starts[i]) > offset }) // the first that begins after offset
	return line, int(starts[line-1])
}

// A milestone is a column on the way through a long line, which a thousand problems would count through.
type milestone struct{ offset, column int }

const milestones = 4096 // bytes from one to the next, and what a long line is

func (f *File) column(begin, offset int) int {
	from := milestone{begin, 1}
	if offset-begin > milestones {
		f.long.Do(f.measure)
		next := sort.Search(len(f.stones), func(i int) bool { return f.stones[i].offset > offset })
		if next > 0 && f.stones[next-1].offset > begin {
			from = f.stones[next-1]
		}
	}
	return from.column + utf8.RuneCount(f.typed[from.offset:offset])
}

// measure sets up the milestones of all long lines.
func (f *File) measure() {
	starts := append(f.index()[:len(f.index()):len(f.index())], int32(len(f.typed)))
	for i, start := range starts[:len(starts)-1] {
		begin, end := int(start), int(starts[i+1])
		if end-begin <= milestones {
			continue
		}
		last := milestone{begin, 1}
		for at, column := begin, 1; at < end; column++ {
			if at-last.offset >= milestones {
				last = milestone{at, column}
				f.stones = append(f.stones, last)
			}
			_, size := utf8.DecodeRune(f.typed[at:])
			at += size
		}
	}
}

// Line returns the text of line n (from 1) as it was typed, without its line ending; "" where there is no such line.
func (f *File) Line(n int) string {
	starts := f.index()
	if n < 1 || n > len(starts) {
		return ""
	}
	end := len(f.typed)
	if n < len(starts) {
		end = int(starts[n]) - 1
	}
	return strings.TrimSuffix(string(f.typed[starts[n-1]:end]), "\r")
}

// Span returns the span from start to end, both byte offsets, end exclusive.
func (f *File) Span(start, end int) Span { return Span{f, int32(start), int32(end)} }

// A Span is a half-open range of bytes: Start <= End, both within the file. A build holds many: kept small.
type Span struct {
	File       *File
	Start, End int32
}

// Text returns the bytes of the span as text.
func (s Span) Text() string {
	if s.File == nil {
		return ""
	}
	return string(s.File.Data[s.Start:s.End])
}

// Part returns the span of the bytes start to end of the span's text.
func (s Span) Part(start, end int) Span { return s.File.Span(int(s.Start)+start, int(s.Start)+end) }

// Begin returns the position of the first byte.
func (s Span) Begin() Position { return s.File.Position(int(s.Start)) }

// Finish returns the position just after the last byte.
func (s Span) Finish() Position { return s.File.position(s.typedEnd()) }

// Malformed says why a piece of text could not be read. Why completes "this is not an amount: ..."; Help shows the way out.
type Malformed struct {
	Start, End int
	Why, Help  string
	Flaw       Flaw // where it is of another sort than the value's form tells; "" elsewhere
	// Instead is what is sure to be meant in place of that piece, "" where nothing is.
	Instead string
}

// Shifted returns m as it stands in a text where its own begins at offset by.
func (m *Malformed) Shifted(by int) *Malformed {
	m.Start, m.End = m.Start+by, m.End+by
	return m
}

// A Fix puts a mistake right, for sure: its text instead of what stands in the span.
type Fix struct {
	Span Span
	Text string
}

func (m *Malformed) Error() string { return m.Why }

// Sentence is the help as a whole sentence, as all help is that people read.
func (m *Malformed) Sentence() string {
	if m.Help == "" {
		return ""
	}
	r, size := utf8.DecodeRuneInString(m.Help)
	return string(unicode.ToUpper(r)) + strings.TrimSuffix(m.Help[size:], ".") + "."
}

// A Flaw names a sort of mistake. It is also the name of the check that reports it.
type Flaw string

// A Fault is what could not be understood: where it stands and what package check needs to explain it.
type Fault struct {
	Flaw Flaw
	Span Span
	Word string   // the offending word or text
	Why  string   // the reason, where the flaw alone does not say it
	Help string   // a way out that only the reader of the text can know
	Near []string // the words that would have been right
	Fix  *Fix     // nil where it is not sure what was meant
	// Other is another place of the story, such as the first of two equal keys. Its File may be nil.
	Other Span
}
