package markdown

import (
	"strings"

	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/note"
	"guidecoat/journal/source"

	"github.com/alecthomas/chroma/v2"
)

// kinds are the kinds of line by the key they stand at. The sort of a file is not
// known to a lexer; where two sorts share a key, the richer kind counts.
var kinds = func() map[string]*note.Kind {
	all := map[string]*note.Kind{}
	for _, list := range [][]*note.Kind{note.Session, note.Card, note.Garage, note.Page} {
		for _, k := range list {
			if known := all[k.Key]; known == nil || len(k.Clauses) > len(known.Clauses) {
				all[k.Key] = k
			}
		}
	}
	return all
}()

// front lexes front matter, if the text begins with it.
func (x *lexer) front() {
	end, next := x.line(0)
	if !isFence(x.text[:end]) {
		return
	}
	closing := -1
	for at := next; at < len(x.text) && closing < 0; {
		end, next := x.line(at)
		if isFence(x.text[at:end]) {
			closing = at
		}
		at = next
	}
	if closing < 0 {
		return
	}
	x.emit(chroma.Punctuation, end)
	x.emit(chroma.Text, next)
	var k *note.Kind
	for x.at < closing {
		end, next := x.line(x.at)
		x.frontLine(&k, end)
		x.emit(chroma.Text, next)
	}
	end, next = x.line(closing)
	x.emit(chroma.Punctuation, end)
	x.emit(chroma.Text, next)
}

func isFence(line string) bool {
	return strings.HasPrefix(line, "---") && strings.TrimRight(line[3:], " \t\r") == ""
}

// frontLine lexes a line of front matter. k is the kind of the key it stands below,
// which a line with a key sets.
func (x *lexer) frontLine(k **note.Kind, end int) {
	start := x.at
	x.spaces(end)
	if x.at == end {
		return
	}
	if x.text[x.at] == '#' {
		x.emit(chroma.Comment, end)
		return
	}
	dash := x.text[x.at] == '-' && (x.at+1 == end || isSpace(x.text[x.at+1]))
	if x.at == start && !dash {
		colon := x.nameEnd(end)
		if colon < 0 {
			x.emit(chroma.Text, end)
			return
		}
		*k = kinds[strings.TrimSpace(x.text[x.at:colon])]
		x.emit(chroma.NameTag, colon)
		x.emit(chroma.Punctuation, colon+1)
		x.entry(*k, end)
		return
	}
	if dash {
		x.emit(chroma.Punctuation, x.at+1)
		x.spaces(end)
	}
	x.entry(*k, end)
}

// nameEnd returns where a key or name ends: at the first ": " or at a ':' that ends
// the line; -1 where there is neither.
func (x *lexer) nameEnd(end int) int {
	for i := x.at; i < end; i++ {
		if x.text[i] == ':' && (i+1 == end || isSpace(x.text[i+1])) {
			return i
		}
	}
	return -1
}

// entry lexes what is written for a key: `NAME: LINE` or `LINE`.
func (x *lexer) entry(k *note.Kind, end int) {
	x.spaces(end)
	switch {
	case x.at == end:
		return
	case k == nil:
		x.emit(chroma.Text, end)
		return
	}
	if k.Shape == note.Named {
		if colon := x.nameEnd(end); colon >= 0 {
			x.emit(chroma.NameLabel, colon)
			x.emit(chroma.Punctuation, colon+1)
			x.spaces(end)
		}
	}
	x.clauses(k, end, false)
}

// clauses lexes `HEAD; clause; clause`.
func (x *lexer) clauses(k *note.Kind, end int, rest bool) {
	for first := !rest; x.at < end; first = false {
		stop := end
		if i := strings.IndexByte(x.text[x.at:end], ';'); i >= 0 && len(k.Clauses) > 0 {
			stop = x.at + i
		}
		x.spaces(stop)
		if c := k.Begun(x.text[x.at:stop]); c != nil && (!first || k.Head == nil) {
			x.clause(c, stop)
		} else if first {
			x.value(k.Head, stop)
		}
		x.emit(chroma.Text, stop)
		if stop < end {
			x.emit(chroma.Punctuation, stop+1)
		}
	}
}

func (x *lexer) clause(c *note.Clause, end int) {
	x.emit(chroma.Keyword, x.at+len(c.Word))
	x.spaces(end)
	if c.Value != nil {
		x.value(c.Value, x.trimmed(x.at, end))
	}
}

// value lexes a value at the place, by what sort of value it is. What may follow it
// is left.
func (x *lexer) value(v *note.Value, end int) {
	rest := x.text[x.at:end]
	size, ok := 0, false
	switch {
	case v == nil || rest == "":
	case v.Flaw == "": // free text
		x.emit(chroma.LiteralString, end)
	case v.Flaw == note.BadID:
		x.emit(chroma.NameLabel, end)
	case v.Near != nil:
		x.choices(v.Near, end)
	case v.Flaw == note.BadAmount:
		w, bad := money.Scan(rest)
		size, ok = w.End, bad == nil
	case v.Flaw == note.BadDuration:
		size, ok = scanned(measure.ScanDuration(rest))
	case v.Flaw == note.BadMeasurement:
		size, ok = scanned(measure.ScanQuantity(rest))
	case v.Flaw == note.BadDistance:
		size, ok = scanned(measure.ScanDistance(rest))
	default:
		x.figures(end)
	}
	if ok {
		x.emit(chroma.LiteralNumber, x.at+size)
	} else if v != nil && x.at < end && v.Flaw == note.BadMeasurement {
		x.figures(end) // limits, which name no unit
	}
}

func scanned[T any](_ T, size int, bad *source.Malformed) (int, bool) { return size, bad == nil }

// choices lexes words of a list, which commas may part.
func (x *lexer) choices(list []string, end int) {
	for x.at < end {
		stop := x.at
		for stop < end && !isSpace(x.text[stop]) && x.text[stop] != ',' {
			stop++
		}
		known := false
		for _, w := range list {
			known = known || w == x.text[x.at:stop]
		}
		if !known {
			return
		}
		x.emit(chroma.NameConstant, stop)
		if x.at == end || x.text[x.at] != ',' {
			return
		}
		x.emit(chroma.Punctuation, x.at+1)
		x.spaces(end)
	}
}

// figures lexes the dates and numbers among words.
func (x *lexer) figures(end int) {
	for x.at < end {
		stop := x.word(x.at, end)
		word := x.text[x.at:stop]
		switch _, bad := measure.ParseDate(word); {
		case bad == nil:
			x.emit(chroma.LiteralDate, stop)
		case strings.ContainsAny(word, "0123456789"), money.IsCode(word):
			x.emit(chroma.LiteralNumber, stop)
		default:
			x.emit(chroma.Text, stop)
		}
		x.spaces(end)
	}
}
