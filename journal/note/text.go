package note

import (
	"bytes"
	"sort"

	"guidecoat/journal/source"
)

// A Text is a run of characters as a builder typed it, joined over its lines,
// that still knows where in the file each of its bytes stands. The zero Text is
// empty and stands nowhere.
type Text struct {
	S    string
	file *source.File
	at   int // where it begins in the file
	// pieces are those of a text over several lines, in order; the first begins at 0.
	pieces *[]piece
}

// A piece says that the bytes of a text from at on stand in the file from offset on.
type piece struct{ at, offset int }

func newText(f *source.File, start, end int) Text {
	return Text{S: string(f.Data[start:end]), file: f, at: start}
}

// joined is a text over several lines.
func joined(f *source.File, s string, pieces []piece) Text {
	if len(pieces) == 1 {
		return Text{S: s, file: f, at: pieces[0].offset}
	}
	return Text{S: s, file: f, at: pieces[0].offset, pieces: &pieces}
}

// Span returns where bytes start to end of the text stand.
func (t Text) Span(start, end int) source.Span {
	if end <= start {
		at := t.offset(start)
		return t.file.Span(at, at)
	}
	return t.file.Span(t.offset(start), t.offset(end-1)+1)
}

// Whole returns where the text stands.
func (t Text) Whole() source.Span { return t.Span(0, len(t.S)) }

// Slice returns the part of the text from start to end.
func (t Text) Slice(start, end int) Text {
	if t.pieces == nil {
		return Text{S: t.S[start:end], file: t.file, at: t.at + start}
	}
	var pieces []piece
	for i, p := range *t.pieces {
		last := i+1 == len(*t.pieces) || (*t.pieces)[i+1].at > start
		if last && p.at < max(end, start+1) {
			at := max(p.at-start, 0)
			pieces = append(pieces, piece{at, p.offset + max(start-p.at, 0)})
		}
	}
	return joined(t.file, t.S[start:end], pieces)
}

// beginsLine tells whether a byte of the text is the first of a line of the file.
func (t Text) beginsLine(at int) bool {
	before := bytes.TrimRight(t.file.Data[:t.offset(at)], " \t")
	return len(before) == 0 || before[len(before)-1] == '\n'
}

func (t Text) offset(at int) int {
	if t.pieces == nil {
		return t.at + at
	}
	pieces := *t.pieces
	i := sort.Search(len(pieces), func(i int) bool { return pieces[i].at > at }) - 1
	p := pieces[max(i, 0)]
	return p.offset + at - p.at
}

// trim moves start and end inwards over spaces and tabs.
func trim[S string | []byte](s S, start, end int) (int, int) {
	for start < end && isSpace(s[start]) {
		start++
	}
	for end > start && isSpace(s[end-1]) {
		end--
	}
	return start, end
}

func isSpace(c byte) bool { return c == ' ' || c == '\t' || c == '\r' || c == '\n' }
