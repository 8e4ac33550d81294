package note

import (
	"bytes"
	"slices"
	"strings"
	"unicode/utf8"

	"guidecoat/journal/pick"
	"guidecoat/journal/source"
)

// Front matter is read line by line, as typed. What a key may hold is in grammar.go.

const (
	UnclosedFrontMatter source.Flaw = "unclosed-front-matter"
	NotALine            source.Flaw = "not-a-line"
	RepeatedKey         source.Flaw = "repeated-key"
	RepeatedName        source.Flaw = "repeated-name"
	TabIndentation      source.Flaw = "tab-indentation"
	EmptyEntry          source.Flaw = "empty-entry"
	StrayQuotes         source.Flaw = "stray-quotes"
)

// A Field is one key with what is written for it: a value on its own line, or entries below it.
type Field struct {
	Key     string
	KeySpan source.Span
	Value   Text // empty where there are entries
	Entries []Entry
	// Repeated says that the same key stands earlier; such a field is not used.
	Repeated bool
}

func (f *Field) empty() bool { return f.Value.S == "" && len(f.Entries) == 0 }

// Lines are the texts of what is written for the key, on its line or below it.
func (f *Field) Lines() []Text {
	if f == nil {
		return nil
	}
	if f.Value.S != "" {
		return []Text{f.Value}
	}
	return pick.Map(f.Entries, func(e Entry) Text { return e.Text })
}

// An Entry is one line below a key. Its text may still begin with `NAME: `.
type Entry struct {
	Dash bool
	Text Text
	// Unusable entries were reported and take part in nothing.
	Unusable bool
}

// frontEnd finds the front matter of a file, to just after the closing fence.
func frontEnd(data []byte) (opened, closed bool, end int) {
	first, rest := cutLine(data, 0)
	if !isFence(first) {
		return false, false, 0
	}
	for at := rest; at < len(data); {
		line, next := cutLine(data, at)
		if isFence(line) {
			return true, true, next
		}
		at = next
	}
	return true, false, len(data)
}

// isFence tells whether a line is `---` alone from its first column; unseen white space may follow.
func isFence(line []byte) bool {
	return bytes.HasPrefix(line, []byte("---")) && len(bytes.TrimRight(line, " \t\r\n")) == 3
}

// cutLine returns the line that begins at offset without its ending, and where the next begins.
func cutLine(data []byte, offset int) (line []byte, next int) {
	if i := bytes.IndexByte(data[offset:], '\n'); i >= 0 {
		return bytes.TrimSuffix(data[offset:offset+i], []byte("\r")), offset + i + 1
	}
	return data[offset:], len(data)
}

func (n *Note) readFront(start, end int) {
	seen := map[string]int{}
	for at := start; at < end; {
		line, next := cutLine(n.File.Data, at)
		begin := at
		at = next
		if isFence(line) {
			break
		}
		readFrontLine(n, line, begin, seen)
	}
}

func readFrontLine(n *Note, line []byte, begin int, seen map[string]int) {
	s := string(line)
	lead, stop := trim(s, 0, len(s))
	if lead == stop || s[lead] == '#' {
		return
	}
	span := n.File.Span(begin+lead, begin+stop)
	if !utf8.Valid(line) || controlIn(line) >= 0 { // reported where the bytes stand, see note.go
		n.unusable(span)
		return
	}
	if tab := strings.IndexByte(s[:lead], '\t'); tab >= 0 {
		n.fault(source.Fault{Flaw: TabIndentation, Span: n.File.Span(begin+tab, begin+tab+1), Fix: &source.Fix{Span: n.File.Span(begin, begin+lead), Text: "  "}})
		n.unusable(span)
		return
	}
	dash := s[lead] == '-' && (lead+1 == stop || isSpace(s[lead+1]))
	if lead == 0 && !dash && otherDash(s) == "" {
		readKeyLine(n, s, begin, stop, seen)
		return
	}
	if len(n.Fields) == 0 {
		n.lose(source.Fault{Flaw: NotALine, Span: span, Word: s[lead:stop], Why: "no key stands above it"})
		return
	}
	field := &n.Fields[len(n.Fields)-1]
	if field.Value.S != "" {
		n.lose(source.Fault{Flaw: NotALine, Span: span, Word: s[lead:stop],
			Why: "\"" + field.Key + "\" already has its value on its own line, and one value is one line"})
		return
	}
	if mark := otherDash(s[lead:stop]); mark != "" {
		n.shapeFault(span, field.Key, "\""+mark+"\" is not the hyphen that begins a line")
		n.fix(n.File.Span(begin+lead, begin+lead+len(mark)), "-")
		n.unusable(span)
		return
	}
	if after := s[lead:stop]; !dash && strings.HasPrefix(after, "-\u00a0") {
		n.shapeFault(n.File.Span(begin+lead+1, begin+lead+len("-\u00a0")), field.Key, "a space that does not break, U+00A0, stands behind the dash")
		n.Faults[len(n.Faults)-1].Help = "Write a plain space instead."
		n.fix(n.Faults[len(n.Faults)-1].Span.Part(0, len("\u00a0")), " ")
		n.unusable(span)
		return
	}
	if dash {
		lead++
	}
	lead, stop = unquote(s, lead, stop)
	if lead == stop {
		n.fault(source.Fault{Flaw: EmptyEntry, Span: span, Word: field.Key})
		n.unusable(span)
		return
	}
	field.Entries = append(field.Entries, Entry{Dash: dash, Text: newText(n.File, begin+lead, begin+stop)})
}

// otherDash returns the mark of a list in other programs that begins a line, or "".
func otherDash(s string) string {
	mark, _, _ := strings.Cut(s, " ")
	return pick.Either(len(mark) < len(s) && slices.Contains([]string{"–", "—", "−", "‐", "‑", "•", "·", "*", "+"}, mark), mark, "")
}

// unusable keeps the place of a reported line: it counts as left out and its key does not look empty.
func (n *Note) unusable(span source.Span) {
	if len(n.Fields) == 0 || n.Fields[len(n.Fields)-1].Value.S != "" {
		n.Lost++
		return
	}
	f := &n.Fields[len(n.Fields)-1]
	f.Entries = append(f.Entries, Entry{Unusable: true, Text: newText(n.File, int(span.Start), int(span.End))})
}

func readKeyLine(n *Note, s string, begin, stop int, seen map[string]int) {
	colon := nameEnd(s[:stop])
	if k := knownKeys[s[:stop]]; colon <= 0 && k != nil && k.Shape != One {
		// Its lines are read, so that there is one message.
		at := n.File.Span(begin, begin+stop)
		n.fault(source.Fault{Flaw: NotALine, Span: at, Word: s[:stop], Why: "there is no colon behind the key", Help: "Write \"" + s[:stop] + ":\".", Fix: &source.Fix{Span: n.File.Span(begin+stop, begin+stop), Text: ":"}})
		n.Fields = append(n.Fields, Field{Key: s[:stop], KeySpan: at})
		n.Lost++
		return
	}
	if colon <= 0 {
		n.fault(source.Fault{Flaw: NotALine, Span: n.File.Span(begin, begin+stop), Word: s[:stop],
			Why: "there is no \"key: \" in it"})
		n.unusable(n.File.Span(begin, begin+stop))
		return
	}
	_, keyEnd := trim(s, 0, colon)
	f := Field{Key: s[:keyEnd], KeySpan: n.File.Span(begin, begin+keyEnd)}
	vStart, vEnd := unquote(s, colon+1, stop)
	f.Value = newText(n.File, begin+vStart, begin+vEnd)
	if first, ok := seen[f.Key]; ok {
		f.Repeated = true
		n.fault(source.Fault{Flaw: RepeatedKey, Span: f.KeySpan, Word: f.Key, Other: n.Fields[first].KeySpan})
	} else {
		seen[f.Key] = len(n.Fields)
	}
	n.Fields = append(n.Fields, f)
}

// nameEnd returns where a key or name ends: at the first ": " or a ':' at the end; else -1.
func nameEnd(s string) int {
	for i := 0; i < len(s); i++ {
		if s[i] == ':' && (i+1 == len(s) || isSpace(s[i+1])) {
			return i
		}
	}
	return -1
}

// unquote trims a value, and leaves out the quotes if it is wholly in them.
func unquote(s string, start, end int) (int, int) {
	start, end = trim(s, start, end)
	if end-start >= 2 && (s[start] == '"' || s[start] == '\'') && s[end-1] == s[start] &&
		strings.IndexByte(s[start+1:end-1], s[start]) < 0 {
		return trim(s, start+1, end-1)
	}
	return start, end
}

// inCurlyQuotes tells whether a value is wholly in curly quotes, which are not taken off.
func inCurlyQuotes(s string) bool {
	const opening, closing = "“‘„‚‟‛”’«»", "”’“‘»«"
	first, size := utf8.DecodeRuneInString(s)
	last, lastSize := utf8.DecodeLastRuneInString(s)
	return size+lastSize < len(s) && strings.ContainsRune(opening, first) && strings.ContainsRune(closing, last) &&
		!strings.ContainsAny(s[size:len(s)-lastSize], "“”„‟«»‘")
}

// loneQuote says what is wrong with a straight quote at one end alone. Behind a digit it stands for inches.
func loneQuote(s string) string {
	switch {
	case len(s) < 2 || strings.Count(s, "\"") != 1:
		return ""
	case s[0] == '"':
		return "is not closed"
	case s[len(s)-1] == '"' && (s[len(s)-2] < '0' || s[len(s)-2] > '9'):
		return "is not opened"
	}
	return ""
}

// Field returns the field of that key, or nil.
func (n *Note) Field(key string) *Field {
	for i := range n.Fields {
		if n.Fields[i].Key == key && !n.Fields[i].Repeated {
			return &n.Fields[i]
		}
	}
	return nil
}
