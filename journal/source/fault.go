package source

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Malformed says why a piece of text could not be read as what it should be.
// Start and End are byte offsets in that piece. Why completes a sentence such as
// "this is not an amount: ..."; Help is one sentence that shows the way out.
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

// A Fix puts a mistake right: its text instead of what stands in the span. Whoever makes
// one is sure of it.
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

// A Fault is something that could not be understood or used, as it was found:
// where it stands and what a check needs in order to explain it. It is not yet a
// message; package check makes one of it.
type Fault struct {
	Flaw Flaw
	Span Span
	Word string   // the offending word or text
	Why  string   // the reason, where the flaw alone does not say it
	Help string   // a way out that only the reader of the text can know
	Near []string // the words that would have been right
	Fix  *Fix     // nil where it is not sure what was meant
	// Other is another place that belongs to the story, such as the first of two
	// equal keys. Its File is nil where there is none.
	Other Span
}
