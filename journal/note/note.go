// Package note reads one Markdown file: its front matter, its body, and the lines of the note language in both.
//
// Reading is total. What is malformed becomes a [source.Fault] with its place, which package check says to people.
package note

import (
	"path"
	"strings"
	"unicode/utf8"

	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"
)

const (
	NotUTF8    source.Flaw = "not-utf8"
	TooLarge   source.Flaw = "too-large"
	UnknownKey source.Flaw = "unknown-key"
	WrongShape source.Flaw = "wrong-shape"
)

// MaxSize is the largest file that is read, in bytes, far beyond a year of sessions.
const MaxSize = 4 << 20

type Note struct {
	File   *source.File // without its comments
	Fields []Field      // the front matter, in the order of writing
	Lines  []*Line      // what the fields hold, read by the grammar
	body

	Heading string // the words of the first heading of the body
	Lead    string // the words of its first paragraph that has any and does not begin with a picture
	Items   []*Item
	Scans   []*Scan
	Refs    []Ref
	Markup  []source.Span // raw HTML

	Faults []source.Fault
	// OtherText says that the file is text of another sort, of which nothing can be told.
	OtherText bool
	// Lost counts the reported lines that cannot be read at all, besides those that are Bad.
	Lost int

	home money.Currency
	day  measure.Date // the session's, near which dates without a year are

	portable *portable // shared by all copies
}

// Open reads the front matter, enough to tell the sort of file. [Note.Read] reads the rest.
func Open(f *source.File) *Note {
	n := &Note{File: f, portable: &portable{}}
	if len(f.Data) > MaxSize {
		n.Unread = true
		n.fault(source.Fault{Flaw: TooLarge, Span: f.Span(0, 0)})
		n.File = source.NewFile(f.Path, nil)
		return n
	}
	if n.otherText() {
		return n
	}
	n.hideComments()
	n.data = n.File.Data
	opened, closed, end := frontEnd(n.data)
	if !opened {
		findMisplaced(n)
		return n
	}
	_, start := cutLine(n.data, 0)
	if closed {
		n.front = end
		n.readFront(start, end)
		return n
	}
	keysFrom(n, start)
	n.Unread, n.Lost, n.Faults = true, 1, []source.Fault{{Flaw: UnclosedFrontMatter, Span: n.File.Span(0, len("---"))}}
	return n
}

// keysFrom keeps the fields before the first line that is none, to tell the file from nobody's note.
func keysFrom(n *Note, start int) {
	seen := map[string]int{}
	for at := start; at < len(n.File.Data); {
		line, next := cutLine(n.File.Data, at)
		if s := string(line); s != "" && s[0] != ' ' && s[0] != '-' && s[0] != '#' {
			if nameEnd(s) <= 0 {
				break
			}
			readKeyLine(n, s, at, len(s), seen)
		} else if isRule(strings.TrimSpace(s)) {
			break
		}
		at = next
	}
}

// Read reads the front matter by those kinds, and the body. Home is zero where the job card names no currency.
func (n *Note) Read(kinds []*Kind, home money.Currency) {
	if n.Unread {
		return
	}
	n.home = home
	n.day = n.sessionDay()
	checkUTF8(n)
	checkControls(n)
	n.readFields(kinds)
	n.readBody(n.front, kinds)
}

// DropFields lets go of the fields that have become Lines: a build holds a lot of them.
func (n *Note) DropFields() {
	n.Fields = pick.Where(n.Fields, func(f Field) bool { return f.Repeated || n.Line(f.Key) == nil })
}

// checkUTF8 records the first bad byte of every line that has one.
func checkUTF8(n *Note) {
	if utf8.Valid(n.File.Data) {
		return
	}
	for at := 0; at < len(n.File.Data); {
		line, next := cutLine(n.File.Data, at)
		for i := 0; i < len(line); {
			r, size := utf8.DecodeRune(line[i:])
			if r == utf8.RuneError && size == 1 {
				n.fault(source.Fault{Flaw: NotUTF8, Span: n.File.Span(at+i, at+i+1)})
				break
			}
			i += size
		}
		at = next
	}
}

// BodyStart returns the byte at which the front matter is over and the body begins.
func (n *Note) BodyStart() int { return n.front }

func (n *Note) add(l *Line) {
	n.Lines = append(n.Lines, l)
	if l.Bad {
		return
	}
	if why := loneQuote(l.Text.S); why != "" || inCurlyQuotes(l.Text.S) {
		n.fault(source.Fault{Flaw: StrayQuotes, Span: l.Text.Whole(), Word: l.Text.S, Why: why})
		if why == "" {
			_, first := utf8.DecodeRuneInString(l.Text.S)
			_, last := utf8.DecodeLastRuneInString(l.Text.S)
			n.fix(l.Text.Whole(), l.Text.S[first:len(l.Text.S)-last])
		}
	}
}

// Line returns the sound line of a key that has one value, or nil.
func (n *Note) Line(key string) *Line {
	return pick.First(n.Lines, func(l *Line) bool { return l.Kind.Key == key && !l.Bad })
}

func (n *Note) context() context { return context{home: n.home, day: n.day} }

// sessionDay is the day that the file's name or its `date` says, 0 where neither does.
func (n *Note) sessionDay() measure.Date {
	const form = len("2026-04-11")
	name := path.Base(n.File.Path)
	day, bad := measure.ParseDate(name[:min(len(name), form)])
	if f := n.Field("date"); bad != nil && f != nil {
		day, _ = measure.ReadDate(f.Value.S, measure.Near{})
	}
	return day
}

func (n *Note) fault(f source.Fault) { n.Faults = append(n.Faults, f) }

// lose reports a line that cannot be read at all.
func (n *Note) lose(f source.Fault) {
	n.fault(f)
	n.Lost++
}

// fix says what puts right the fault that was recorded last.
func (n *Note) fix(at source.Span, text string) {
	n.Faults[len(n.Faults)-1].Fix = &source.Fix{Span: at, Text: text}
}
