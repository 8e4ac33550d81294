// Package markup writes HTML that holds markup only where this program was typed so.
//
// A page is a chain of calls that reads like the page. Raw takes markup, and of that
// only constants: its type has no name outside of this package, so a variable does not
// compile there. All that is read anywhere goes through the others, which escape it.
package markup

import (
	"bytes"
	"encoding/json"
	"strconv"
	"strings"
	"sync"

	"guidecoat/render/markdown"
)

// constant is what a constant becomes by itself, and a variable does not.
type constant string

// A W is a page that is being written. Its methods return it.
type W struct {
	b      []byte
	called func(string) string
	typed  string // the language of the notes; "" where it is that of the page
}

var writers = sync.Pool{New: func() any { return new(W) }}

// Page returns what write writes. Called gives our words in the page's language; typed is the notes'.
func Page(called func(string) string, typed string, write func(*W)) []byte {
	w := writers.Get().(*W)
	defer writers.Put(w)
	w.b, w.called, w.typed = w.b[:0], called, typed
	write(w)
	return bytes.Clone(w.b)
}

// Raw writes markup in which {braces} hold words of ours, to be said in the page's language.
func (w *W) Raw(html constant) *W {
	for {
		before, rest, ok := strings.Cut(string(html), "{")
		w.b = append(w.b, before...)
		if !ok {
			return w
		}
		words, rest, _ := strings.Cut(rest, "}")
		w.Text(w.called(words))
		html = constant(rest)
	}
}

// Called is what a word of ours is called on this page.
func (w *W) Called(words string) string { return w.called(words) }

func (w *W) If(so bool, html constant) *W {
	if so {
		w.Raw(html)
	}
	return w
}

// Typed writes that an element holds words of the notes, in their direction and language.
func (w *W) Typed() *W {
	return w.Raw(` dir="auto"`).InTyped()
}

// InTyped writes that an element's words are in the language of the notes.
func (w *W) InTyped() *W { return w.With(` lang="`, w.typed, `"`) }

// references are what stands for characters that mean something in HTML.
var references = [256]string{0: "\uFFFD", '"': "&#34;", '&': "&amp;", '\'': "&#39;", '<': "&lt;", '>': "&gt;"}

// Text writes words: in the page, or as an attribute's value within double quotes.
func (w *W) Text(s string) *W {
	done := 0
	for i := range len(s) {
		if r := references[s[i]]; r != "" {
			w.b = append(append(w.b, s[done:i]...), r...)
			done = i + 1
		}
	}
	w.b = append(w.b, s[done:]...)
	return w
}

// With writes words with markup around them, and nothing where there are none.
func (w *W) With(before constant, s string, after constant) *W {
	if s == "" {
		return w
	}
	return w.Raw(before).Text(s).Raw(after)
}

// Quote does as With for words of the notes, and says what language they are in.
func (w *W) Quote(before constant, s string, after constant) *W {
	if s == "" || w.typed == "" {
		return w.With(before, s, after)
	}
	return w.Raw(before).Raw("<span").Typed().Raw(">").Text(s).Raw("</span>").Raw(after)
}

// Words writes words of ours, or of the notes.
func (w *W) Words(typed bool, s string) *W {
	if typed {
		return w.Quote("", s, "")
	}
	return w.Text(s)
}

// Named writes what a name of the notes is called; it is theirs where no table knows it.
func (w *W) Named(name, called string) *W {
	return w.Words(strings.EqualFold(called, strings.ReplaceAll(name, "-", " ")), called)
}

// Int writes a number.
func (w *W) Int(n int) *W {
	w.b = strconv.AppendInt(w.b, int64(n), 10)
	return w
}

// Markdown writes what was rendered of a note.
func (w *W) Markdown(h markdown.HTML) *W {
	w.b = append(w.b, h.String()...)
	return w
}

// Href writes that an element leads to an address, Src that it shows what is there.
func (w *W) Href(address string) *W { return w.address(` href="`, address) }
func (w *W) Src(address string) *W  { return w.address(` src="`, address) }

// inAddress are the bytes that stay as they are in an address; a percent sign does too.
var inAddress = func() (stay [256]bool) {
	for _, c := range []byte("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-._~!#$&*+,/:;=?@[]%") {
		stay[c] = true
	}
	return stay
}()

// address writes an attribute with an address that leads somewhere, and no other.
func (w *W) address(attr constant, s string) *W {
	const hex = "0123456789abcdef"
	if scheme, _, ok := strings.Cut(s, ":"); ok && !strings.ContainsAny(scheme, "/?#") && scheme != "http" && scheme != "https" && scheme != "mailto" {
		s = "#"
	}
	w.Raw(attr)
	for _, c := range []byte(s) {
		switch {
		case c == '&':
			w.b = append(w.b, "&amp;"...)
		case inAddress[c]:
			w.b = append(w.b, c)
		default:
			w.b = append(w.b, '%', hex[c>>4], hex[c&15])
		}
	}
	return w.Raw(`"`)
}

// Data writes a value as JSON in a script, with no character that could end it.
func (w *W) Data(v any) *W {
	data, err := json.Marshal(v)
	if err != nil {
		panic(err) // a type of ours that is no data
	}
	w.b = append(w.b, data...)
	return w
}

// Each writes a list with markup around it, and nothing where the list is empty.
func Each[T any](w *W, list []T, before constant, one func(T), after constant) *W {
	if len(list) == 0 {
		return w
	}
	w.Raw(before)
	for _, x := range list {
		one(x)
	}
	return w.Raw(after)
}

// A Wrap is markup around something that is written in pieces.
type Wrap struct{ before, after constant }

// Around returns markup to stand around something.
func Around(before, after constant) *Wrap { return &Wrap{before, after} }

// Open and Close write what stands before and after.
func (w *W) Open(x *Wrap) *W  { return w.Raw(x.before) }
func (w *W) Close(x *Wrap) *W { return w.Raw(x.after) }
