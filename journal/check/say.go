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

// longestQuote is how many characters of what was typed a message repeats; the line is printed below.
const longestQuote = 60

// quote puts what somebody typed in quotes, cut short where it is long.
func quote(s string) string {
	if utf8.RuneCountInString(s) > longestQuote {
		s = string([]rune(s)[:longestQuote]) + "…"
	}
	return "\"" + strings.ReplaceAll(s, "\n", `\n`) + "\"" // a message is one line
}

// disguise says which letter of a word only looks like a Latin one.
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

// Choose is help for a word that is none of a list: the nearest, and all where they are few.
func Choose(word string, from []string) string {
	all := "Choose from " + strings.Join(from, ", ") + "."
	if len(from) <= fewWords {
		return Nearest(word, from, all)
	}
	return cmp.Or(Nearest(word, from, ""), all)
}

// fill puts {word}, {why}, {near}, {nearest} (the sentence that offers it) and {place} of a fault into a text.
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
		return "no " + thing + " called " + quote(f.Word), cmp.Or(f.Help, Choose(f.Word, f.Near))
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
