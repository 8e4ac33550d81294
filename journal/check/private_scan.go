package check

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// nextWord returns the next run of letters and digits; nothing at the end of the text.
func nextWord(text string, at int) (start, end int) {
	start = pass(text, at, false)
	return start, pass(text, start, true)
}

// pass goes over what are letters and digits, or over what are none.
func pass(text string, at int, letters bool) int {
	for at < len(text) {
		is, size := false, 1
		if c := text[at]; c < utf8.RuneSelf { // nearly always
			is = asciiLetters[c]
		} else {
			is, size = runeAt(text[at:])
		}
		if is != letters {
			break
		}
		at += size
	}
	return at
}

func runeAt(text string) (is bool, size int) {
	r, size := utf8.DecodeRuneInString(text)
	return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r), size
}

var asciiLetters = func() (table [utf8.RuneSelf]bool) {
	for c := range table {
		table[c] = unicode.IsLetter(rune(c)) || unicode.IsDigit(rune(c))
	}
	return table
}()

func appendLower(to []byte, word string) []byte {
	for i := 0; i < len(word); i++ {
		if word[i] >= utf8.RuneSelf {
			return append(to, strings.ToLower(word[i:])...)
		}
		c := word[i]
		if c >= 'A' && c <= 'Z' {
			c += 'a' - 'A'
		}
		to = append(to, c)
	}
	return to
}

func wordsOf(s string) func(yield func(string) bool) {
	return func(yield func(string) bool) {
		for start, end := nextWord(s, 0); start < end; start, end = nextWord(s, end) {
			if !yield(strings.ToLower(s[start:end])) {
				return
			}
		}
	}
}
