// Package note reads one Markdown file of a build: its front matter by line, its
// body as Markdown, and the lines of the note language in both.
//
// Reading is total. Whatever is malformed becomes a [source.Fault] with its place
// and reason, never a message and never a panic; saying it to a person is the
// business of package check.
package note

import (
	"bytes"
	"path"
	"strings"
	"unicode/utf8"

	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/near"
	"guidecoat/journal/source"
)

// The flaws of files and keys.
const (
	NotUTF8    source.Flaw = "not-utf8"
	TooLarge   source.Flaw = "too-large"
	UnknownKey source.Flaw = "unknown-key"
	WrongShape source.Flaw = "wrong-shape"
)

// MaxSize is the largest file that is read, in bytes. A year of sessions in one
// file stays far below it.
const MaxSize = 4 << 20

// A Note is one file as far as it could be understood.
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
	// Lost counts the lines that were reported and cannot be read at all. Lines
	// that are Bad come on top.
	Lost int

	home money.Currency
	day  measure.Date // the session's, near which dates without a year are

	portable *portable // shared by all copies
}

// Open reads the structure of the file's front matter, enough to tell what sort
// of file it is. [Note.Read] reads the rest.
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
		n.misplaced()
		return n
	}
	_, start := cutLine(n.data, 0)
	if closed {
		n.front = end
		n.readFront(start, end)
		return n
	}
	n.Unread = true
	n.unclosed(start)
	return n
}

// unclosed reports front matter that never ends.
func (n *Note) unclosed(start int) {
	n.keysFrom(start)
	n.Faults = []source.Fault{{Flaw: UnclosedFrontMatter, Span: n.File.Span(0, len("---"))}}
	n.Lost = 1
}

// keysFrom keeps the fields that stand before the first line that is none, so
// that the file can be told from one that is nobody's note.
func (n *Note) keysFrom(start int) {
	seen := map[string]int{}
	for at := start; at < len(n.File.Data); {
		line, next := cutLine(n.File.Data, at)
		if s := string(line); s != "" && s[0] != ' ' && s[0] != '-' && s[0] != '#' {
			if nameEnd(s) <= 0 {
				break
			}
			n.keyLine(s, at, len(s), seen)
		} else if isRule(strings.TrimSpace(s)) {
			break
		}
		at = next
	}
}

// Read reads the lines of the front matter by those kinds, with plain sums in
// the home currency, and the body. The home currency is zero where the job card
// has none; what depends on it is then not judged.
func (n *Note) Read(kinds []*Kind, home money.Currency) {
	if n.Unread {
		return
	}
	n.home = home
	n.day = n.sessionDay()
	n.checkUTF8()
	n.checkControls()
	n.readFields(kinds)
	n.readBody(n.front, kinds)
}

// DropFields lets go of the fields that have become sound Lines: a build of many
// notes holds a lot of them.
func (n *Note) DropFields() {
	var left []Field
	for _, f := range n.Fields {
		if f.Repeated || n.Line(f.Key) == nil {
			left = append(left, f)
		}
	}
	n.Fields = left
}

// checkUTF8 records the first bad byte of every line that has one.
func (n *Note) checkUTF8() {
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

// readFields reads what stands at the keys. A line that should have been indented
// below a key, and so is one of its own, is reported instead of the empty key.
func (n *Note) readFields(kinds []*Kind) {
	var above *Kind // has nothing but such lines
	for i := range n.Fields {
		f := &n.Fields[i]
		k := kind(kinds, f.Key)
		switch {
		case above != nil && outdented(kinds, f):
			n.shapeFault(f.KeySpan, above.Key, notIndented[above.Shape])
			n.fix(f.KeySpan.Part(0, 0), map[Shape]string{Many: "  - ", Named: "  "}[above.Shape])
			n.Lost++
			continue
		case f.Repeated:
			n.Lost += max(len(f.Entries), 1)
		case k == nil:
			n.fault(source.Fault{Flaw: UnknownKey, Span: f.KeySpan, Word: f.Key, Near: keysOf(kinds)})
			n.Lost += max(len(f.Entries), 1)
		case !f.empty():
			n.readField(k, f)
		case k.Shape != One && i+1 < len(n.Fields) && outdented(kinds, &n.Fields[i+1]):
			above = k
			continue
		default:
			n.fault(source.Fault{Flaw: EmptyEntry, Span: f.KeySpan, Word: f.Key})
		}
		above = nil
	}
}

// outdented tells whether a field may be a line that was meant to stand below a key.
func outdented(kinds []*Kind, f *Field) bool {
	return f.Value.S != "" && kind(kinds, f.Key) == nil && near.Nearest(f.Key, keysOf(kinds)) == ""
}

func keysOf(kinds []*Kind) []string {
	keys := make([]string, len(kinds))
	for i, k := range kinds {
		keys[i] = k.Key
	}
	return keys
}

// readField reads what stands at one key.
func (n *Note) readField(k *Kind, f *Field) {
	if k.Shape == One && len(f.Entries) > 0 {
		if first := f.Entries[0]; !first.Unusable {
			n.shapeFault(first.Text.Whole(), f.Key, "it has one value, on its own line")
		}
		n.Lost += len(f.Entries)
		return
	}
	entries := f.Entries
	if f.Value.S != "" {
		entries = []Entry{{Text: f.Value, Dash: true}}
	}
	names := map[string]int{}
	for i, e := range entries {
		switch {
		case e.Unusable:
			n.Lost++
		case k.Shape == Named:
			n.readNamed(k, entries, i, names)
		case !e.Dash && indentedKey(e.Text.S) != "":
			key := indentedKey(e.Text.S)
			n.indented(e.Text.Span(0, len(key)), f.Key, key)
			n.Lost += len(entries) - i // what follows is below that key
			return
		case !e.Dash:
			n.shapeFault(e.Text.Whole(), f.Key, "each of its lines begins with a dash")
			n.fix(e.Text.Span(0, 0), "- ")
			n.Lost++
		default:
			n.add(n.readLine(k, n.context(), e.Text))
		}
	}
}

// indentedKey returns the key that a line begins with, "" where it begins with none.
func indentedKey(line string) string {
	colon := max(nameEnd(line), 0)
	if knownKeys[line[:colon]] == nil {
		return ""
	}
	return line[:colon]
}

// indented reports a key that was taken for a line of the one above it.
func (n *Note) indented(at source.Span, above, key string) {
	n.shapeFault(at, above, "\""+key+"\" is a key of its own")
	n.Faults[len(n.Faults)-1].Help = "Take out the spaces before it."
	n.fix(n.File.Span(bytes.LastIndexByte(n.File.Data[:at.Start], '\n')+1, int(at.Start)), "")
}

// notIndented says what an outdented line lacks.
var notIndented = map[Shape]string{
	Many:  "each of its lines begins with a dash",
	Named: "its lines are indented by spaces",
}

func (n *Note) shapeFault(at source.Span, key, why string) {
	n.fault(source.Fault{Flaw: WrongShape, Span: at, Word: key, Why: why})
}

// readNamed reads `NAME: LINE`. A name that comes twice needs dashes.
func (n *Note) readNamed(k *Kind, entries []Entry, i int, names map[string]int) {
	t := entries[i].Text
	colon := nameEnd(t.S)
	if name, _, _ := strings.Cut(t.S, ";"); colon <= 0 && k.Bare && !strings.Contains(name, ",") {
		colon = len(name) // its semicolon, or its end
	}
	if colon <= 0 {
		n.shapeFault(t.Whole(), k.Key, "each of its lines begins with a name and a colon")
		if name, rest := firstWord(t.S); k.begins(t.S[:name], t.S[rest:]) {
			n.Faults[len(n.Faults)-1].Help = "Write \"" + t.S[:name] + ": \" at its beginning."
			n.fix(t.Span(name, name), ":")
		}
		n.Lost++
		return
	}
	start, end := trim(t.S, 0, colon)
	name := t.Slice(start, end)
	if first, next := firstWord(name.S); k.begins(name.S[:first], name.S[next:]) {
		n.shapeFault(name.Whole(), k.Key, "its colon stands too late")
		n.Faults[len(n.Faults)-1].Help = "Write \"" + name.S[:first] + ": " + name.S[next:] + "\"."
		n.fix(t.Span(start, colon+1), name.S[:first]+": "+name.S[next:])
		n.Lost++
		return
	}
	vStart, vEnd := unquote(t.S, min(colon+1, len(t.S)), len(t.S))
	if key := knownKeys[name.S]; key != nil && k.Name != nil && !entries[i].Dash && key.hasValue(t.S[min(colon+1, len(t.S)):]) && !k.begins(name.S, t.S[vStart:vEnd]) {
		n.indented(name.Whole(), k.Key, name.S)
		n.Lost++
		return
	}
	if vStart == vEnd && !k.Bare {
		n.fault(source.Fault{Flaw: EmptyEntry, Span: name.Whole(), Word: name.S})
		n.Lost++
		return
	}
	first, twice := names[name.S]
	if !twice {
		names[name.S] = i
	} else if !entries[i].Dash || !entries[first].Dash {
		o := entries[first].Text
		n.fault(source.Fault{Flaw: RepeatedName, Span: name.Whole(), Word: name.S, Other: o.Span(0, len(name.S))})
		n.Lost++
		return
	}
	l := n.readLine(k, n.context(), t.Slice(vStart, vEnd))
	l.Name, l.nameAt = name.S, name.Whole().Start
	if k.Name != nil {
		if _, _, bad := k.Name.Read(context{}, name.S); bad != nil {
			n.valueFault(l, k.Name, name, bad)
		}
	}
	n.add(l)
}

// begins tells whether a line of that kind may have that name and begin with those words.
func (k *Kind) begins(name, words string) bool {
	if k.Name == nil || k.Head == nil || words == "" {
		return false
	}
	_, _, bad := k.Name.Read(context{}, name)
	_, _, worse := k.Head.Read(context{}, words)
	return bad == nil && worse == nil
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

// Line returns the line of a key that has one value, or nil where the note does
// not have it or it could not be read.
func (n *Note) Line(key string) *Line {
	for _, l := range n.Lines {
		if l.Kind.Key == key && !l.Bad {
			return l
		}
	}
	return nil
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

// fix says what puts right the fault that was recorded last.
func (n *Note) fix(at source.Span, text string) {
	n.Faults[len(n.Faults)-1].Fix = &source.Fix{Span: at, Text: text}
}
