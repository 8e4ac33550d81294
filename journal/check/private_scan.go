package check

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// How a text is taken word by word.

// nextWord returns the next run of letters and digits; nothing at the end of the text.
func nextWord(text string, at int) (start, end int) {
	for at < len(text) {
		size := letterAt(text, at)
		if size > 0 {
			break
		}
		at -= size
	}
	for end = at; end < len(text); {
		size := letterAt(text, end)
		if size < 0 {
			break
		}
		end += size
	}
	return at, end
}

// letterAt returns how many bytes the letter or digit at a place takes, less than
// 0 where something else stands there.
func letterAt(text string, at int) int {
	c := text[at]
	if c >= utf8.RuneSelf {
		r, size := utf8.DecodeRuneInString(text[at:])
		if unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r) {
			return size
		}
		return -size
	}
	return asciiLetters[c]
}

// asciiLetters is what letterAt returns for the characters of ASCII.
var asciiLetters = func() (table [utf8.RuneSelf]int) {
	for c := range table {
		r := rune(c)
		if table[c] = -1; unicode.IsLetter(r) || unicode.IsDigit(r) {
			table[c] = 1
		}
	}
	return table
}()

// appendLower appends a word in small letters.
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
