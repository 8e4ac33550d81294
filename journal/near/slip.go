package near

import (
	"strings"
	"unicode"
)

// IsSlip tells whether of two names one is probably the other with a slip in it. They
// are near, and do not differ in a short word only: disc-fl and disc-fr, Mill Lane and
// Hill Lane were rather meant to be told apart. Names that differ in nothing but
// case, spaces and marks are always one, those that differ in digits never: seal, seal-2.
func IsSlip(a, b string) bool {
	const short = 4
	if a == b {
		return false
	}
	if Folded(a) == Folded(b) {
		return true
	}
	v, w := words(a), words(b)
	if Nearest(a, []string{b}) == "" {
		return false
	}
	for i := 0; i < len(v) && len(v) == len(w); i++ {
		if v[i] != w[i] && min(len(v[i]), len(w[i])) <= short {
			return false
		}
	}
	return true
}

// Folded is a name without what people write now so and now so: case, spaces, marks.
func Folded(name string) string { return strings.Join(words(name), "") }

// words are the runs of letters and digits of a name, in small letters.
func words(name string) []string {
	return strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}
