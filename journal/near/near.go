// Package near finds the word that was probably meant.
package near

import (
	"math/bits"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// longest is the length above which a word is no slip of a known name; it also bounds the work.
const longest = 64

// Nearest returns the word the fewest slips away: two, or one for short words; the first of several; "" for none.
func Nearest(word string, from []string) string {
	if len(word) > longest*utf8.UTFMax || utf8.RuneCountInString(word) > longest {
		return ""
	}
	best, nearest := 3, ""
	length := utf8.RuneCountInString(word)
	for _, candidate := range from {
		other := utf8.RuneCountInString(candidate)
		limit := 2
		if min(length, other) <= 4 {
			limit = 1
		}
		limit = min(limit, best-1)
		if max(length, other)-min(length, other) > limit {
			continue
		}
		d := Distance(word, candidate, limit)
		unlike := d >= max(length, other) || withoutDigits(word) == withoutDigits(candidate)
		if d > limit || d > 0 && unlike {
			continue
		}
		if best, nearest = d, candidate; best == 0 {
			break
		}
	}
	return nearest
}

// Distance returns how many slips (optimal string alignment) turn a into b, ignoring case, or limit+1 if more.
func Distance(a, b string, limit int) int {
	s, t := []rune(strings.ToLower(a)), []rune(strings.ToLower(b))
	if max(len(s), len(t))-min(len(s), len(t)) > limit {
		return limit + 1
	}
	// The last three rows of the table, from each beginning of s to each of t that differs in length by limit at most.
	before, above, row := make([]int, len(t)+1), make([]int, len(t)+1), make([]int, len(t)+1)
	for j := range above {
		above[j], row[j] = j, limit+1
	}
	for i := 1; i <= len(s); i++ {
		from, to := max(1, i-limit), min(len(t), i+limit)
		row[from-1] = min(limit+1, i-from+1)
		for j := from; j <= to; j++ {
			cost := 1
			if s[i-1] == t[j-1] {
				cost = 0
			}
			row[j] = min(above[j]+1, row[j-1]+1, above[j-1]+cost)
			if i > 1 && j > 1 && s[i-1] == t[j-2] && s[i-2] == t[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		if to < len(t) {
			row[to+1] = limit + 1 // the next row looks at it
		}
		before, above, row = above, row, before
	}
	return min(above[len(t)], limit+1)
}

// withoutDigits returns s in small letters without its digits: seal-2 is told from seal as seal-1 is.
func withoutDigits(s string) string {
	letters := strings.Map(func(r rune) rune {
		if unicode.IsDigit(r) {
			return -1
		}
		return unicode.ToLower(r)
	}, s)
	if last, _ := utf8.DecodeLastRuneInString(s); unicode.IsDigit(last) {
		return strings.TrimRight(letters, "- ")
	}
	return letters
}

// lookalikes are Cyrillic and Greek letters that look Latin, each before that: Unicode TS #39 (from memory), as on keyboards.
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

// Latin returns the word with Latin letters for those that look like them, and the first of these.
func Latin(word string) (latin string, first rune) {
	for _, r := range word {
		if isLookalike[r] {
			return toLatin.Replace(word), r
		}
	}
	return word, 0
}

// IsSlip tells whether one of two names is the other with a slip in it, not in a short word only (disc-fl, disc-fr).
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

// An Index is a set of words asked again and again for the [Nearest]. The zero Index is ready.
type Index struct {
	fresh  []string          // added since somebody asked: most are never asked for
	words  map[string]bool   // whether it was added so, or is one in small letters
	folded map[string]string // those that Slip took in
	forms  []form
	formAt map[string]int // by its text
	work   int            // done so far, in steps of a few nanoseconds
}

// A form is what of some words tells at a glance that another is not near them.
type form struct {
	text    string // without digits
	letters uint64 // those in text, each a bit
	words   []string
}

// An Index finds nothing near any more after about a tenth of a second of comparing.
const mostWork, distanceWork = 10_000_000, 200

func formOf(word string) form {
	f := form{text: withoutDigits(word)}
	for _, r := range f.text {
		f.letters |= 1 << (uint(r) % 64)
	}
	return f
}

// Add takes a word in.
func (x *Index) Add(word string) { x.fresh = append(x.fresh, word) }

// settle puts in order what was added.
func (x *Index) settle() {
	if x.words == nil {
		x.words, x.folded, x.formAt = map[string]bool{}, map[string]string{}, map[string]int{}
	}
	for _, word := range x.fresh {
		lower := strings.ToLower(word)
		if _, known := x.words[lower]; !known {
			x.words[lower] = false
		}
		x.words[word] = true
		f := formOf(word)
		at, known := x.formAt[f.text]
		if !known {
			at = len(x.forms)
			x.formAt[f.text], x.forms = at, append(x.forms, f)
		}
		x.forms[at].words = append(x.forms[at].words, word)
	}
	x.fresh = x.fresh[:0]
}

// Nearest returns the word the fewest slips away, the first by alphabet; "" for none.
func (x *Index) Nearest(word string) string {
	const most = 2 // slips; leaving out the digits adds none
	x.settle()
	if x.words[word] {
		return word
	}
	lower := strings.ToLower(word)
	if _, known := x.words[lower]; known {
		return lower
	}
	if utf8.RuneCountInString(word) > longest+most {
		return ""
	}
	mine := formOf(word)
	var candidates []string
	for _, f := range x.forms {
		if x.work > mostWork {
			return ""
		}
		// Each slip adds a letter, takes one, or both.
		if x.work++; f.text == mine.text || bits.OnesCount64(mine.letters^f.letters) > 2*most {
			continue
		}
		x.work += distanceWork
		if Distance(mine.text, f.text, most) <= most {
			candidates = append(candidates, f.words...)
			x.work += distanceWork
		}
	}
	slices.Sort(candidates)
	return Nearest(word, candidates)
}

// Meant are the words that may be meant: the nearest, or else those that only go on behind it, as tail-lamp-left
// does behind tail-lamp, or say the same in another order. Of more than a few it says nothing.
func (x *Index) Meant(word string) []string {
	const few = 4
	if like := x.Nearest(word); like != "" {
		return []string{like}
	}
	var longer []string
	for _, f := range x.forms {
		for _, w := range f.words {
			if IsMeant(word, w) {
				longer = append(longer, w)
			}
		}
		if x.work += len(f.words); x.work > mostWork || len(longer) > few {
			return nil
		}
	}
	slices.Sort(longer)
	return longer
}

// IsMeant tells whether a name goes on behind a word, or has its parts in another order.
func IsMeant(word, name string) bool {
	return strings.HasPrefix(name, word+"-") || len(name) == len(word) && strings.Contains(word, "-") && slices.Equal(sorted(word), sorted(name))
}

func sorted(name string) []string { return slices.Sorted(slices.Values(words(name))) }

// Slip takes a word in, and returns the earlier one of which it is probably a slip, or "".
func (x *Index) Slip(word string) string {
	x.settle()
	if x.words[word] {
		return ""
	}
	like, folded := "", Folded(word)
	like, x.folded[folded] = x.folded[folded], word
	if like == "" {
		like = x.Nearest(word)
	}
	x.Add(word)
	if like == "" || !IsSlip(like, word) {
		return ""
	}
	return like
}
