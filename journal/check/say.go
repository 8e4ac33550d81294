package check

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
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

// sentence makes a whole sentence of a piece of help.
func sentence(s string) string {
	if s == "" {
		return ""
	}
	if !strings.HasSuffix(s, ".") {
		s += "."
	}
	r, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[size:]
}

// place is where something stands, for a message about another place.
func place(at source.Span) string {
	p := at.Begin()
	return fmt.Sprintf("%s:%d:%d", at.File.Path, p.Line, p.Column)
}

// fewWords is how many words to choose from are short enough to be listed always.
const fewWords = 9

// choose is help for a word that is none of a list: the nearest, or else all of them.
func choose(f source.Fault) string {
	all := "Choose from " + strings.Join(f.Near, ", ") + "."
	help := nearest(f.Word, f.Near, "")
	switch {
	case help == "":
		return all
	case len(f.Near) <= fewWords:
		return help + " " + all
	}
	return help
}

// unknown says that a word is none of a list of such things.
func unknown(thing string) func(source.Fault) (message, help string) {
	return func(f source.Fault) (string, string) {
		if f.Word == "" {
			return "nothing is written where a " + thing + " should stand", choose(f)
		}
		return "no " + thing + " called " + quote(f.Word), choose(f)
	}
}

// cannotRead says why a value could not be read.
func cannotRead(what string) func(source.Fault) (message, help string) {
	return func(f source.Fault) (string, string) {
		at := ""
		if f.Word != "" {
			at = " at " + quote(f.Word)
		}
		return "cannot read the " + what + at + ": " + f.Why, sentence(f.Help)
	}
}
