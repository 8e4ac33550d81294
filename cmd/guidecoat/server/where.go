package server

import (
	"path"
	"regexp"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
)

// A spot is what part of a line of the note language a place is in, as far as the line is
// typed: it is found by the text before the place alone.
type spot struct {
	part   part
	kinds  []*note.Kind // what the file may hold
	kind   *note.Kind   // of the line; nil at a key
	clause *note.Clause // at the value of one
	line   string       // the line up to its end, from where the words of the kind begin
	typed  string       // what is typed of that part
	start  int          // where that begins in the text
	ticked bool         // of an item
}

type part int

const (
	nowhere  part = iota // in words that mean nothing by themselves
	atKey                // of the front matter
	atName               // of a named line
	atHead               // the first word of a line
	atClause             // a clause's keyword
	atValue              // what follows it
	atItem               // behind a box
	atFence              // behind the marks that open a block
)

// kindsOf are the kinds of line that a file may hold, by its name and text.
func kindsOf(name, text string) []*note.Kind {
	switch {
	case path.Base(name) == journal.CardName:
		return note.Card
	case path.Base(name) == journal.GarageName:
		return note.Garage
	case strings.Contains(text, "\npage:") && !strings.Contains(text, "\ndate:"):
		return note.Page
	}
	return note.Session
}

func kindOf(kinds []*note.Kind, key string) *note.Kind {
	return pick.First(kinds, func(k *note.Kind) bool { return k.Key == key })
}

var (
	boxed  = regexp.MustCompile(`^\s*(?:[-*+]|\d{1,9}[.)])\s+\[([ xX])\][ \t]`)
	fenced = regexp.MustCompile("^\\s*(?:```+|~~~+)")
)

// spot finds the spot at a byte of the text.
func (l *lines) spot(name string, at int) spot {
	n := int(l.position(at).Line)
	start, end := l.line(n)
	at = min(max(at, start), end)
	s := spot{kinds: kindsOf(name, l.text), start: start, line: l.text[start:end], typed: l.text[start:at]}
	if n > 0 && l.isFence(0) && l.frontEnd(n) == n {
		return l.inFront(s, n)
	}
	if box := boxed.FindStringSubmatchIndex(s.typed); box != nil {
		s.kind, s.ticked = note.Snag, s.typed[box[2]:box[3]] != " "
		s.skip(box[1])
		if !s.clauses() {
			if s.part = atItem; strings.Contains(s.typed, ":") {
				s.part = nowhere
			}
		}
		return s
	}
	if mark := fenced.FindStringIndex(s.typed); mark != nil {
		s.skip(mark[1])
		s.skipSpace()
		s.part = atFence
	}
	return s
}

// frontEnd is the line that closes front matter, or before if none above it does.
func (l *lines) frontEnd(before int) int {
	for n := 1; n < before; n++ {
		if l.isFence(n) {
			return n
		}
	}
	return before
}

// isFence tells whether a line opens or closes front matter.
func (l *lines) isFence(n int) bool {
	start, end := l.line(n)
	return strings.TrimRight(strings.TrimPrefix(l.text[start:end], byteOrderMark), " \t") == "---"
}

// skip passes over some of what is typed.
func (s *spot) skip(bytes int) {
	s.typed, s.line, s.start = s.typed[bytes:], s.line[bytes:], s.start+bytes
}

func (s *spot) skipSpace() { s.skip(len(s.typed) - len(strings.TrimLeft(s.typed, " \t"))) }

// inFront finds the spot in a line of front matter.
func (l *lines) inFront(s spot, n int) spot {
	key, below := keyOf(s.line)
	if !below {
		colon := nameEnd(s.typed)
		if colon < 0 {
			s.part = atKey
			return s
		}
		s.skip(colon + 1)
	}
	for ; below && n > 1; n-- { // the key it stands below
		start, end := l.line(n - 1)
		if over, deeper := keyOf(l.text[start:end]); !deeper && over != "" {
			key = over
			break
		}
	}
	if s.kind = kindOf(s.kinds, key); s.kind == nil {
		return s
	}
	s.skipSpace()
	if below && strings.HasPrefix(s.typed, "-") {
		s.skip(1)
		s.skipSpace()
	}
	if s.kind.Shape == note.Named {
		colon := nameEnd(s.typed)
		if colon < 0 {
			s.part = atName
			return s
		}
		s.skip(colon + 1)
		s.skipSpace()
	}
	if s.clauses() {
		return s
	}
	switch {
	case s.kind.Head != nil && !strings.ContainsAny(s.typed, " \t"), s.kind.Key == "stage":
		s.part = atHead
	case s.kind.Head == nil && len(s.kind.Clauses) > 0:
		s.inClause()
	}
	return s
}

// keyOf is the key of a line of front matter; below tells that it stands below one.
func keyOf(line string) (key string, below bool) {
	if line != "" && strings.IndexByte(" \t-", line[0]) >= 0 {
		return "", true
	}
	if colon := nameEnd(line); colon > 0 && line[0] != '#' {
		return strings.TrimSpace(line[:colon]), false
	}
	return "", false
}

// nameEnd is where a name ends: at a colon with a space behind it, or nothing.
func nameEnd(s string) int {
	for i := range len(s) {
		if s[i] == ':' && (i+1 == len(s) || s[i+1] == ' ' || s[i+1] == '\t') {
			return i
		}
	}
	return -1
}

// clauses goes to the clause that the place is in; false where it is before the first.
func (s *spot) clauses() bool {
	semicolon := strings.LastIndexByte(s.typed, ';')
	if semicolon < 0 || len(s.kind.Clauses) == 0 {
		return false
	}
	s.skip(semicolon + 1)
	s.skipSpace()
	s.inClause()
	return true
}

func (s *spot) inClause() {
	s.part = atClause
	c := s.kind.Begun(s.typed)
	if c == nil || len(s.typed) == len(c.Word) {
		return
	}
	s.part, s.clause = atValue, c
	s.skip(len(c.Word))
	s.skipSpace()
	if c.Value != nil && (c.Value.Near != nil || c.Value.Flaw == note.BadID) {
		s.skip(strings.LastIndexByte(s.typed, ',') + 1)
		s.skipSpace()
	}
}

// about is what the key or the keyword at a place is for, and where that stands; "" where
// there is none.
func (l *lines) about(name string, pos position) (string, textRange) {
	at := l.offset(pos)
	_, end := l.line(int(l.position(at).Line))
	for at < end && strings.IndexByte(" \t;:", l.text[at]) < 0 {
		at++
	}
	s := l.spot(name, at)
	switch {
	case s.part == atKey:
		if k := kindOf(s.kinds, strings.TrimSpace(s.typed)); k != nil {
			return k.Key + ": " + k.About, l.between(s.start, s.start+len(k.Key))
		}
	case s.part == atClause:
		if c := s.kind.Begun(strings.SplitN(s.line, ";", 2)[0]); c != nil {
			return c.Word + ": " + c.About, l.between(s.start, s.start+len(c.Word))
		}
	}
	return "", textRange{}
}
