package note

import (
	"cmp"
	"strings"

	"guidecoat/journal/source"
)

const (
	UnknownClause  source.Flaw = "unknown-clause"
	RepeatedClause source.Flaw = "repeated-clause"
	ClauseValue    source.Flaw = "clause-value"
	ExtraWords     source.Flaw = "extra-words"
)

// A Line is `HEAD; clause; clause`. A build holds a dozen for each note, so its parts are kept as ranges.
type Line struct {
	Kind    *Kind
	Name    string // the NAME of a named line
	Text    Text   // the whole line, without its name
	Head    any    // what the head's first word was read as; nil where it could not be
	Clauses []Found
	// Bad says that something in the line was not understood. It is left out whole.
	Bad bool

	nameAt      int32 // in the file
	head, words reach
}

type reach struct{ start, end int32 }

func reachOf(start, end int) reach { return reach{int32(start), int32(end)} }

func (l *Line) part(r reach) Text        { return l.Text.Slice(int(r.start), int(r.end)) }
func (l *Line) span(r reach) source.Span { return l.Text.Span(int(r.start), int(r.end)) }

func (l *Line) Words() Text { return l.part(l.words) }

// Typed is the text of the line, "" where there is none.
func (l *Line) Typed() string {
	if l == nil {
		return ""
	}
	return l.Text.S
}

// HeadSpan is where the head stands; the whole line where that could not be told.
func (l *Line) HeadSpan() source.Span { return l.span(l.head) }

// NameSpan is where the name of a named line stands.
func (l *Line) NameSpan() source.Span {
	return l.Text.file.Span(int(l.nameAt), int(l.nameAt)+len(l.Name))
}

func newLine(k *Kind, t Text) *Line { return &Line{Kind: k, Text: t, head: reachOf(0, len(t.S))} }

// Clause returns the first clause of that word, or nil.
func (l *Line) Clause(word string) *Found {
	for i := range l.Clauses {
		if l.Clauses[i].Word == word {
			return &l.Clauses[i]
		}
	}
	return nil
}

// Severity is the one that the line says, or NoSeverity.
func (l *Line) Severity() Severity {
	if c := l.Choice("severity"); c != nil {
		return SeverityOf(c.Word)
	}
	return NoSeverity
}

// Has tells whether the line has a clause of that word.
func (l *Line) Has(word string) bool { return l.Clause(word) != nil }

// Choice returns the word of the clause of that group, or nil.
func (l *Line) Choice(group string) *Found {
	for i := range l.Clauses {
		if l.Clauses[i].Group == group {
			return &l.Clauses[i]
		}
	}
	return nil
}

func Arg[T any](l *Line, word string) (T, bool) {
	var none T
	c := l.Clause(word)
	if c == nil {
		return none, false
	}
	v, ok := c.Value.(T)
	return v, ok
}

// Set brings the argument of a clause into to, where the line has that clause.
func Set[T any](to *T, l *Line, word string) {
	if v, ok := Arg[T](l, word); ok {
		*to = v
	}
}

// SetPointer does as Set for what may be nil.
func SetPointer[T any](to **T, l *Line, word string) {
	if v, ok := Arg[T](l, word); ok {
		*to = &v
	}
}

func (n *Note) readLine(k *Kind, c context, t Text) *Line {
	l := newLine(k, t)
	if n.tooManyClauses(l) {
		return l
	}
	if len(k.Clauses) == 0 { // all is head, but for the one clause that any line may carry
		if at := strings.LastIndexByte(t.S, ';'); at >= 0 && strings.TrimSpace(t.S[at+1:]) == clauseSure.Word {
			start, end := trim(t.S, 0, at)
			l.Text, l.Clauses = t.Slice(start, end), []Found{{Clause: &clauseSure, Span: t.Span(at+1, len(t.S))}}
		}
		n.readHead(l, c, 0, len(l.Text.S))
		return l
	}
	l.expectClauses()
	first := true
	for p := range pieces(t.S, false) {
		start, end := trim(t.S, p[0], p[1])
		piece := t.Slice(start, end)
		switch {
		case first && k.Head == nil && beginsClause(k, piece.S):
			n.readClause(l, c, piece)
		case first && k.Head == nil && k.withKeyword(c, piece.S) != "": // `body: 400` is no name of what is done
			n.unknownClause(l, c, piece)
		case first:
			n.readHead(l, c, start, end)
			c.head = l.Head
		case piece.S != "":
			n.readClause(l, c, piece)
		}
		first = false
	}
	return l
}

// expectClauses makes room for as many clauses as there may be, and no more.
func (l *Line) expectClauses() {
	if semicolons := strings.Count(l.Text.S, ";"); semicolons > 0 {
		l.Clauses = make([]Found, 0, semicolons)
	}
}

// pieces yields what semicolons part; in Markdown not those in code spans and entities such as &amp;.
func pieces(s string, markdown bool) func(yield func([2]int) bool) {
	return func(yield func([2]int) bool) {
		start := 0
		for i := 0; i < len(s); i++ {
			switch {
			case markdown && s[i] == '\\':
				i++
			case markdown && s[i] == '`':
				i += codeSpan(s[i:])
			case markdown && s[i] == '&':
				i += entity(s[i:])
			case s[i] == ';':
				if !yield([2]int{start, i}) {
					return
				}
				start = i + 1
			}
		}
		yield([2]int{start, len(s)})
	}
}

// codeSpan returns the length, less one, of the code span that begins s, or of its backticks alone.
func codeSpan(s string) int {
	ticks := len(s) - len(strings.TrimLeft(s, "`"))
	for at := ticks; at < len(s); {
		i := strings.IndexByte(s[at:], '`')
		if i < 0 {
			break
		}
		at += i
		run := len(s[at:]) - len(strings.TrimLeft(s[at:], "`"))
		at += run
		if run == ticks {
			return at - 1
		}
	}
	return ticks - 1
}

// entity returns the length of the character reference that begins s, less one, or 0.
func entity(s string) int {
	for i := 1; i < len(s) && i < 32; i++ {
		switch c := s[i]; {
		case c == ';' && i > 1:
			return i
		case c == '#' && i == 1, c >= '0' && c <= '9', c >= 'a' && c <= 'z', c >= 'A' && c <= 'Z':
		default:
			return 0
		}
	}
	return 0
}

// readHead reads the head, which is that part of the line's text.
func (n *Note) readHead(l *Line, c context, at, stop int) {
	t := l.Text.Slice(at, stop)
	l.head = reachOf(at, stop)
	if l.Kind.Head == nil {
		l.words = l.head
		return
	}
	if t.S == "" {
		n.lineFault(l, source.Fault{Flaw: l.Kind.Head.Flaw, Span: t.Whole(), Near: l.Kind.Head.Near, Why: "nothing is written"})
		return
	}
	v, end, bad := l.Kind.Head.Read(c, t.S)
	if comma := strings.Index(t.S, ","); bad != nil && comma > 0 && !endsNumber(t.S[comma+1:]) && l.Kind.Key != "time" { // 5 mm, was 9; readDuration sees to it
		if w, stop, worse := l.Kind.Head.Read(c, t.S[:comma]); worse == nil && stop == comma {
			v, end, bad = w, comma, nil
		}
	}
	if !l.Kind.Words && bad != nil {
		if w, before := beforeMore(l.Kind, c, l.Kind.Head, t); before > 0 {
			v, end, bad = w, before, nil
		}
	}
	if bad != nil {
		n.valueFault(l, l.Kind.Head, t, bad)
		return
	}
	l.Head, l.head = v, reachOf(at, at+end)
	if !l.Kind.Words {
		n.extraWords(l, t, end)
		end = len(t.S)
	}
	end += len(l.Text.S[at+end:stop]) - len(strings.TrimLeft(l.Text.S[at+end:stop], " \t,"))
	l.words = reachOf(trim(l.Text.S, at+end, stop))
}

// endsNumber tells whether a comma before s would part the digits of one number.
func endsNumber(s string) bool { return s != "" && s[0] >= '0' && s[0] <= '9' }

func (n *Note) valueFault(l *Line, v *Value, t Text, bad *source.Malformed) {
	start, end := min(bad.Start, len(t.S)), min(bad.End, len(t.S))
	if end <= start {
		start, end = 0, len(t.S)
	}
	flaw, near, at := v.Flaw, v.Near, t.Span(start, end)
	if bad.Flaw != "" {
		flaw, near = bad.Flaw, nil
	}
	help := bad.Sentence()
	if l.Kind != Snag {
		help = cmp.Or(itemHelp(t.S), help)
	}
	n.lineFault(l, source.Fault{Flaw: flaw, Span: at, Word: t.S[start:end], Near: near, Why: bad.Why, Help: help, Fix: instead(at, bad.Instead)})
}

// instead is the fix that writes a text in place of what stands there, nil for "".
func instead(at source.Span, text string) *source.Fix {
	if text == "" {
		return nil
	}
	return &source.Fix{Span: at, Text: text}
}

// itemHelp says where a task-list item belongs that stands in front matter, "" for any other text.
func itemHelp(s string) string {
	if _, width := box([]byte(s)); width == 0 {
		return ""
	}
	return "A task-list item goes below the second \"---\"."
}

func (n *Note) lineFault(l *Line, f source.Fault) {
	l.Bad = true
	n.fault(f)
}
