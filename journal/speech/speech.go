// Package speech holds what the program says: a sentence in English and what it is said of, for other languages.
package speech

import (
	"fmt"
	"slices"
	"strings"

	"guidecoat/journal/money"
	"guidecoat/journal/pick"

	"github.com/shopspring/decimal"
)

// constant is what no variable becomes by itself: so all sentences to translate are found in the code.
type constant string

// A Phrase is a sentence, written for package fmt, and its arguments. The zero one says nothing.
type Phrase struct{ of *sentence } // a pointer, since most of what holds one has nothing to say

type sentence struct {
	key  string
	args []any
}

// Of says something of something.
func Of(key constant, args ...any) Phrase { return Phrase{&sentence{string(key), args}} }

// Typed says what somebody typed.
func Typed(words string) Phrase {
	if words == "" {
		return Phrase{}
	}
	return Of("%s", words)
}

// What a phrase is said of besides texts as typed, numbers, dates and quantities.
type (
	Name   string   // of a check or a reading, as the notes have it: brake-test
	Called string   // the same for readers who do not know it: brake test
	Part   string   // the id of a part
	Term   string   // a word of the note language: fitted
	Quote  string   // words of the notes within a sentence
	Sum    struct { // nothing is embedded: a decimal brings a way of its own to be formatted
		Amount decimal.Decimal
		In     money.Currency
	}
)

func (n Called) String() string { return strings.ReplaceAll(string(n), "-", " ") }
func (q Quote) String() string  { return "“" + string(q) + "”" }

// Money is a sum of money.
func Money(d decimal.Decimal, c money.Currency) Sum { return Sum{d, c} }

func (s Sum) String() string { return money.Show(s.Amount, s.In) }

// Some tells whether it says anything.
func (p Phrase) Some() bool { return p.of != nil }

// String says it in English.
func (p Phrase) String() string {
	if !p.Some() {
		return ""
	}
	return fmt.Sprintf(p.of.key, p.of.args...)
}

// Parts are the sentence, "" for none, and its arguments.
func (p Phrase) Parts() (key string, args []any) {
	if !p.Some() {
		return "", nil
	}
	return p.of.key, p.of.args
}

// Besides says the same of more, behind what it is said of so far.
func (p Phrase) Besides(more ...any) Phrase {
	key, args := p.Parts()
	return Phrase{&sentence{key, slices.Concat(args, more)}}
}

// With says the same of other arguments.
func (p Phrase) With(other func(any) any) Phrase {
	if !p.Some() {
		return p
	}
	args := make([]any, len(p.of.args))
	for i, a := range p.of.args {
		if inner, ok := a.(Phrase); ok {
			args[i] = inner.With(other)
		} else {
			args[i] = other(a)
		}
	}
	return Phrase{&sentence{p.of.key, args}}
}

// All says several things in English.
func All(list []Phrase) []string { return pick.Map(list, Phrase.String) }
