package check

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"guidecoat/journal/near"
	"guidecoat/journal/source"
)

// The words that messages are made of.

// longestQuote is how many characters of what somebody typed a message repeats;
// the line itself is printed below it.
const longestQuote = 60

// quote puts what somebody typed in quotes, cut short where it is long.
func quote(s string) string {
	if utf8.RuneCountInString(s) > longestQuote {
		s = string([]rune(s)[:longestQuote]) + "…"
	}
	return "\"" + strings.ReplaceAll(s, "\n", `\n`) + "\"" // a message is one line
}

// disguise says which letter of a word only looks like a Latin one, where it is one of
// those to choose from otherwise.
func disguise(f source.Fault) string {
	if latin, first := near.Latin(f.Word); first != 0 && slices.Contains(f.Near, latin) {
		return fmt.Sprintf(", in which U+%04X only looks like a Latin letter", first)
	}
	return ""
}

// place is where something stands, for a message about another place.
func place(at source.Span) string {
	p := at.Begin()
	return fmt.Sprintf("%s:%d:%d", at.File.Path, p.Line, p.Column)
}

// fewWords is how many words to choose from are short enough to be listed always.
const fewWords = 9

// Choose is help for a word that is none of a list: the nearest, or else all of them,
// and all of them besides where they are few.
func Choose(word string, from []string) string {
	all := "Choose from " + strings.Join(from, ", ") + "."
	if len(from) <= fewWords {
		return Nearest(word, from, all)
	}
	return cmp.Or(Nearest(word, from, ""), all)
}

// fill puts what a fault holds where a text names it: what was typed as {word}, why it is
// wrong as {why}, the word that would have been right as {near}, the sentence that offers
// the nearest one as {nearest}, and the place of the other thing as {place}.
func fill(text string, f source.Fault) string {
	before, rest, found := strings.Cut(text, "{")
	if !found {
		return text
	}
	name, rest, _ := strings.Cut(rest, "}")
	switch name {
	case "word":
		before += quote(f.Word)
	case "why":
		before += f.Why
	case "near":
		before += quote(strings.Join(f.Near, ""))
	case "nearest":
		return before + Nearest(f.Word, f.Near, fill(rest, f))
	case "place":
		before += place(f.Other)
	}
	return before + fill(rest, f)
}

// unknown says that a word is none of a list of such things.
func unknown(thing string) func(source.Fault) (message, help string) {
	return func(f source.Fault) (string, string) {
		if f.Word == "" {
			return "nothing is written where a " + thing + " should stand", Choose(f.Word, f.Near)
		}
		return "no " + thing + " called " + quote(f.Word), Choose(f.Word, f.Near)
	}
}

// cannotRead says why a value could not be read.
func cannotRead(what string) func(source.Fault) (message, help string) {
	return func(f source.Fault) (string, string) {
		at := ""
		if f.Word != "" {
			at = " at " + quote(f.Word)
		}
		return "cannot read the " + what + at + ": " + f.Why, f.Help
	}
}
