package journal

import (
	"slices"
	"strings"
	"unicode"

	"guidecoat/journal/note"
	"guidecoat/journal/source"
)

// TickWithoutID is a tick in plain words that clears nothing, though something open may be meant.
const TickWithoutID source.Flaw = "tick-without-id"

// mostWords bounds the beginnings that are kept of one item.
const mostWords = 60

// plainKey is the letters and digits of an item, before any colon, each word with a space behind it.
func plainKey(it *Item) string {
	s, _, _ := strings.Cut(note.PlainWords(it.Words().S), ":")
	words := strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsNumber(r) && !unicode.IsMark(r) })
	if len(words) == 0 {
		return ""
	}
	return strings.Join(words[:min(len(words), mostWords)], " ") + " "
}

// beginnings yields the beginnings of a key by which it is found, of two words or more, the longest first.
func beginnings(key string) func(yield func(string) bool) {
	return func(yield func(string) bool) {
		for end, words := len(key), strings.Count(key, " "); words > 1 || end == len(key); words-- {
			if !yield(key[:end]) {
				return
			}
			end = strings.LastIndexByte(key[:end-1], ' ') + 1
		}
	}
}

func (p *plainItems) add(s *judged) {
	p.fresh = append(p.fresh, s)
	p.open++
}

func (p *plainItems) settle() {
	for _, s := range p.fresh {
		if s.words = plainKey(s.opening.Item); s.words == "" {
			continue
		}
		for b := range beginnings(s.words) {
			p.begins[b] = append(p.begins[b], s)
		}
	}
	p.fresh = nil
}

// find returns the open item that words tick off: that with most in common, then the longest, then the oldest.
func (p *plainItems) find(words string) *judged {
	if p.open == 0 || words == "" {
		return nil
	}
	p.settle()
	for b := range beginnings(words) {
		var found *judged
		for _, s := range p.begins[b] {
			fits := s.words == b || b == words && strings.Count(words, " ") > 1
			if s.open && fits && (found == nil || found.words != words && (s.words == words || len(s.words) > len(found.words))) {
				found = s
			}
		}
		if found != nil {
			p.open--
			return found
		}
	}
	return nil
}

// tickInWords takes a ticked item in plain words; false where it is one of its own.
func (f *judge) tickInWords(it *Item) bool {
	if known := f.plains.find(plainKey(it)); known != nil {
		f.clear(it, known)
		return true
	}
	id := f.openIDIn(it.Text.S)
	if id == "" && it.Colon {
		id = f.openIDBegun(strings.ToLower(it.Lead().S))
	}
	if id != "" || f.earlier > 0 && it.Kind == "" {
		fault := source.Fault{Flaw: TickWithoutID, Span: it.HeadSpan(), Near: oneOrNone(id)}
		if text := it.Text.S; id != "" && len(text) > len(id) && strings.EqualFold(strings.ReplaceAll(text[:len(id)], " ", "-"), id) {
			switch {
			case text[len(id)] == ':':
				fault.Fix = &source.Fix{Span: it.Text.Span(0, len(id)), Text: id}
			case text[len(id)] == ' ' && text[:len(id)] == id:
				fault.Fix = &source.Fix{Span: it.Text.Span(len(id), len(id)), Text: ":"}
			case text[len(id)] == ' ':
				fault.Fix = &source.Fix{Span: it.Text.Span(0, len(id)), Text: id + ":"}
			}
		}
		if lead := it.Lead(); it.Colon && strings.HasPrefix(id, strings.ToLower(lead.S)+"-") {
			fault.Fix = &source.Fix{Span: lead.Whole(), Text: id}
		}
		f.inVain = append(f.inVain, fault)
	}
	return false
}

// withID is an id for an item and the fix that writes it, nil where it is that of something else.
func (f *judge) withID(it *Item) (id string, fix *source.Fix) {
	lead, words := it.Lead(), it.Words()
	before, after, colon := strings.Cut(words.S, ":")
	first, _, _ := strings.Cut(words.S, " ")
	switch {
	case it.Colon && words.Whole().Start >= lead.Whole().End: // temporary: hung on wire
		id = suggestID(words.S)
		fix = &source.Fix{Span: lead.Span(len(lead.S), len(lead.S)), Text: " " + id}
	case note.SuggestID(first) == first && strings.Contains(first, "-") && len(first) < len(words.S): // only the colon is missing
		id = first
		fix = &source.Fix{Span: words.Span(len(first), len(first)), Text: ":"}
	case colon && strings.TrimSpace(after) != "": // undertray: cable tie
		if id = suggestID(before); !strings.Contains(note.SuggestID(before), "-") {
			others := slices.DeleteFunc(strings.Fields(after), func(w string) bool { return strings.EqualFold(w, before) })
			id = suggestID(before + " " + strings.Join(others, " "))
		}
		fix = &source.Fix{Span: words.Span(0, len(before)), Text: id}
	default:
		id = suggestID(words.S)
		fix = &source.Fix{Span: words.Span(0, 0), Text: id + ": "}
	}
	if f.b.ids[id] != nil || f.b.openings[id] != nil || words.S == "" {
		fix = nil
	}
	return id, fix
}

// aboutOpen warns of an open item in plain words that begins with the id of an open snag.
func (f *judge) aboutOpen(it *Item) {
	first, rest, _ := strings.Cut(strings.TrimLeft(it.Words().S, "/ "), " ")
	id := strings.ToLower(strings.TrimRight(first, ".,;"))
	if s := f.byID[id]; s != nil && s.open && rest != "" {
		f.b.fault(source.Fault{Flaw: TickWithoutID, Span: it.HeadSpan(), Word: rest, Near: []string{id}})
	}
}

// openIDBegun is the newest open id, of a few, that begins with a word.
func (f *judge) openIDBegun(word string) string {
	const few = 20
	ids := f.begun[word]
	for _, id := range slices.Backward(ids[max(0, len(ids)-few):]) {
		if f.byID[id].open {
			return id
		}
	}
	return ""
}

const longestID = 5

// openIDIn finds the id of an open snag among the first words, or in pieces at the very beginning.
func (f *judge) openIDIn(text string) string {
	open := func(id string) bool { s := f.byID[id]; return s != nil && s.open }
	text = dashes.Replace(strings.ToLower(text))
	words := strings.FieldsFunc(text, func(r rune) bool { return r != '-' && !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	joined := ""
	for i, w := range words[:min(len(words), longestID)] {
		if w = strings.Trim(w, "-"); open(w) {
			return w
		}
		if joined += "-" + w; i > 0 && open(joined[1:]) {
			return joined[1:]
		}
	}
	return ""
}

var dashes = strings.NewReplacer("–", "-", "—", "-", "‑", "-")
