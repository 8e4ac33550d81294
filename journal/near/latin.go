package near

import "strings"

// lookalikes are the Cyrillic and Greek letters that look like Latin ones in most
// typefaces, each before the Latin one. From the confusables of Unicode Technical
// Standard #39 (from memory), kept to the letters that a keyboard has.
var lookalikes = []string{
	"а", "a", "с", "c", "ԁ", "d", "е", "e", "һ", "h", "і", "i", "ј", "j", "о", "o", "р", "p", "ѕ", "s", "у", "y", "х", "x",
	"А", "A", "В", "B", "С", "C", "Е", "E", "Н", "H", "І", "I", "Ј", "J", "К", "K", "М", "M", "О", "O", "Р", "P", "Ѕ", "S", "Т", "T", "У", "Y", "Х", "X",
	"ο", "o", "ν", "v",
	"Α", "A", "Β", "B", "Ε", "E", "Ζ", "Z", "Η", "H", "Ι", "I", "Κ", "K", "Μ", "M", "Ν", "N", "Ο", "O", "Ρ", "P", "Τ", "T", "Υ", "Y", "Χ", "X",
}

var toLatin = strings.NewReplacer(lookalikes...)

// isLookalike are the letters of lookalikes that are not Latin.
var isLookalike = func() map[rune]bool {
	letters := map[rune]bool{}
	for i := 0; i < len(lookalikes); i += 2 {
		letters[[]rune(lookalikes[i])[0]] = true
	}
	return letters
}()

// Latin returns the word with Latin letters for those of other scripts that only look
// like them, and the first of these; 0 where there is none.
func Latin(word string) (latin string, first rune) {
	for _, r := range word {
		if isLookalike[r] {
			return toLatin.Replace(word), r
		}
	}
	return word, 0
}
