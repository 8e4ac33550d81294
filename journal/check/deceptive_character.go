package check

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var deceptiveCharacter = &Check{
	Name: "deceptive-character", Severity: problem.Warning,
	Summary: "a character that cannot be seen, or a letter that only looks like a Latin one",
	Explain: "A name with such a character in it looks like another and is none, so what belongs together is counted apart. " +
		"One that turns the direction of writing round shows a line otherwise than it is read.",
	Example: "---\nstage: rear axle\nwrong|cost: 9.00 seals; from Tidewеll\nright|cost: 9.00 seals; from Tidewell\n---\n",
	Run: func(p *Pass) {
		for _, w := range p.notes {
			d := deception{p: p, note: w.note, said: map[int]bool{}}
			d.unseen()
			d.lookalikes(w.note.File.Span(0, w.note.BodyStart()))
			for _, it := range w.note.Items {
				if it.Colon && it.Lead().S != "" {
					d.lookalikes(it.Lead().Whole())
				}
			}
		}
	},
}

// A deception is a look at one note. Only the first in a sound line is reported.
type deception struct {
	p      *Pass
	note   *note.Note
	said   map[int]bool // by line
	errors bool         // were looked at, as they are once something is found
}

func (d *deception) report(at source.Span, message, help string, fix *source.Fix) {
	if !d.errors {
		d.errors = true
		for _, f := range d.p.errors {
			if f.Span.File == d.note.File {
				d.said[f.Span.Begin().Line] = true
			}
		}
	}
	if line := at.Begin().Line; !d.said[line] {
		d.said[line] = true
		d.p.ReportFix(at, message, help, fix)
	}
}

// unseen finds marks of direction everywhere, and what has no width in front matter.
func (d *deception) unseen() {
	data := d.note.File.Data
	for at := 0; ; {
		i := bytes.IndexByte(data[at:], 0xE2) // all of them begin with it in UTF-8
		if i < 0 {
			return
		}
		at += i
		r, size := utf8.DecodeRune(data[at:])
		switch {
		case r >= 0x202A && r <= 0x202E, r >= 0x2066 && r <= 0x2069:
			d.report(d.note.File.Span(at, at+size), fmt.Sprintf("the character U+%04X stands here, which turns the direction of writing round", r), deleteIt, nil)
		case at < d.note.BodyStart() && (r >= 0x200B && r <= 0x200F || r == 0x2028 || r == 0x2029 || r == 0x2060) && !joins(data, at, r):
			d.report(d.note.File.Span(at, at+size), fmt.Sprintf("the character U+%04X stands here, which cannot be seen", r), deleteIt, nil)
		}
		at += size
	}
}

// joins tells whether a joiner stands where words of some scripts, and emoji, need one.
func joins(data []byte, at int, r rune) bool {
	return (r == 0x200C || r == 0x200D) && at > 0 && data[at-1] >= utf8.RuneSelf
}

// lookalikes finds words in which Latin letters stand with such as only look like them.
func (d *deception) lookalikes(in source.Span) {
	data := in.File.Data[in.Start:in.End]
	greekOrCyrillic := func(c byte) bool { return c >= 0xCD && c <= 0xD4 } // how they begin in UTF-8
	if !slices.ContainsFunc(data, greekOrCyrillic) {
		return
	}
	text := string(data)
	for at := 0; at < len(text); {
		if !greekOrCyrillic(text[at]) {
			at++
			continue
		}
		start := wordStart(text, at)
		end := len(text)
		if i := strings.IndexFunc(text[at:], notInWord); i >= 0 {
			end = at + i
		}
		word := text[start:end]
		latin, first := near.Latin(word)
		if first != 0 && latin != word && strings.ContainsFunc(word, func(r rune) bool { return r < utf8.RuneSelf && unicode.IsLetter(r) }) {
			only, _ := near.Latin(string(first))
			d.report(in.Part(start, end), fmt.Sprintf("%s holds U+%04X, which only looks like the Latin letter %q", quote(word), first, only),
				"Write "+quote(latin)+" with Latin letters.", &source.Fix{Span: in.Part(start, end), Text: latin})
		}
		at = max(end, at+1)
	}
}

func wordStart(text string, at int) int {
	for at > 0 {
		r, size := utf8.DecodeLastRuneInString(text[:at])
		if notInWord(r) {
			break
		}
		at -= size
	}
	return at
}

func notInWord(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '-' }
