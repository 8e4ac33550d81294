// Package tongue says what pages say in the language of the page.
//
// A language is one file: each line has what the program says in English, and what it is
// in that language. What is missing there stays English, and a test finds it.
package tongue

import (
	"cmp"
	"embed"
	"fmt"
	"iter"
	"maps"
	"strings"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
)

// English is the language that everything is written in, and that the workshop has.
const English = "en"

//go:embed *.txt
var tables embed.FS

// Languages are those of which there is a file.
var Languages = func() map[string]*Tongue {
	all := map[string]*Tongue{}
	files, _ := tables.ReadDir(".")
	for _, f := range files {
		code := strings.TrimSuffix(f.Name(), ".txt")
		text, _ := tables.ReadFile(f.Name())
		all[code] = Read(code, string(text))
	}
	return all
}()

// A Tongue is a language.
type Tongue struct {
	Code  string
	tag   language.Tag
	forms map[string]forms
	own   map[string]string // what the theme calls labels, whatever the language
	// What the file says of dates and figures, in the words of CLDR.
	months, shortMonths, weekdays []string
	group, decimal                string
}

// forms are what a phrase is for each plural form that differs; that for all others last.
type forms struct {
	of    map[plural.Form]string
	other string
}

var pluralForms = map[string]plural.Form{"zero": plural.Zero, "one": plural.One, "two": plural.Two, "few": plural.Few, "many": plural.Many}

// Read reads "English = other" lines; with numbers "%d days = one: %d Tag | %d Tage". # begins a remark.
func Read(code, text string) *Tongue {
	t := &Tongue{Code: code, tag: language.MustParse(code), forms: map[string]forms{}}
	for line := range strings.Lines(text) {
		key, words, ok := strings.Cut(strings.TrimSpace(line), " = ")
		if !ok || strings.HasPrefix(key, "#") {
			continue
		}
		f := forms{of: map[plural.Form]string{}}
		for form := range strings.SplitSeq(words, " | ") {
			if name, rest, ok := strings.Cut(form, ": "); ok && pluralForms[name] != plural.Other {
				f.of[pluralForms[name]] = placed(rest)
			} else {
				f.other = placed(form)
			}
		}
		t.forms[key] = f
	}
	t.months, t.shortMonths, t.weekdays = strings.Fields(t.Word("MONTHS")), strings.Fields(t.Word("SHORT MONTHS")), strings.Fields(t.Word("WEEKDAYS"))
	figure := strings.NewReplacer("1", "", "234", " ", "5", "").Replace(t.Word("1,234.5"))
	t.group, t.decimal, _ = strings.Cut(figure, " ")
	return t
}

// placed makes numbers texts, which stay on one line with what they count.
func placed(english string) string {
	if !strings.Contains(english, "d") { // nor any number, of nearly all
		return english
	}
	return numbers.Replace(english)
}

var numbers = strings.NewReplacer("%d ", "%s\u00a0", "%d", "%s", "]d ", "]s\u00a0", "]d", "]s")

// Of is a language, in which a theme calls labels its own way.
func Of(code string, own map[string]string) *Tongue {
	t := *Languages[cmp.Or(code, English)]
	t.own = own
	return &t
}

// Word is what a word or sentence of ours is in the language.
func (t *Tongue) Word(english string) string {
	if own := t.own[english]; own != "" {
		return own
	}
	return cmp.Or(t.forms[english].other, english)
}

// constant is what a constant becomes by itself, and a variable does not.
type constant string

// Say says a sentence, written for package fmt. Its first number decides on the plural.
func (t *Tongue) Say(english constant, of ...any) string { return t.say(string(english), of) }

func (t *Tongue) say(english string, of []any) string {
	f, known := t.forms[english]
	form := f.other
	if !known {
		form = placed(english)
	}
	args, counted := make([]any, len(of)), false
	for i, a := range of {
		if n, ok := a.(int); ok && !counted {
			counted = true
			form = cmp.Or(f.of[plural.Cardinal.MatchPlural(t.tag, n, 0, 0, 0, 0)], form)
		}
		args[i] = t.Put(a)
	}
	return fmt.Sprintf(form, args...)
}

// List joins "a", "a and b", "a, b and c".
func (t *Tongue) List(list ...string) string {
	n := len(list)
	if n < 2 {
		return strings.Join(list, "")
	}
	return t.Say("%s and %s", strings.Join(list[:n-1], ", "), list[n-1])
}

// Phrases are all that the table knows.
func (t *Tongue) Phrases() iter.Seq[string] { return maps.Keys(t.forms) }
