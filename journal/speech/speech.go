// Package speech holds what the program says: a sentence in English and what it is said of, for other languages.
package speech

import (
	"fmt"
	"strings"

	"guidecoat/journal/money"

	"github.com/shopspring/decimal"
)

// constant is what no variable becomes by itself: so all sentences to translate are found in the code.
type constant string

// A Phrase is a sentence, written for package fmt, and its arguments. The zero one says nothing.
type Phrase struct {
	Key  string
	Args []any
}

// Of says something of something.
func Of(key constant, args ...any) Phrase { return Phrase{string(key), args} }

// Typed says what somebody typed.
func Typed(words string) Phrase {
	if words == "" {
		return Phrase{}
	}
	return Phrase{"%s", []any{words}}
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
func (p Phrase) Some() bool { return p.Key != "" }

// String says it in English.
func (p Phrase) String() string { return fmt.Sprintf(p.Key, p.Args...) }

func (p Phrase) With(other func(any) any) Phrase {
	args := make([]any, len(p.Args))
	for i, a := range p.Args {
		if inner, ok := a.(Phrase); ok {
			args[i] = inner.With(other)
		} else {
			args[i] = other(a)
		}
	}
	return Phrase{p.Key, args}
}

// All says several things in English.
func All(list []Phrase) []string {
	said := make([]string, len(list))
	for i, p := range list {
		said[i] = p.String()
	}
	return said
}
