package near

import (
	"math/bits"
	"slices"
	"strings"
	"unicode/utf8"
)

// An Index is a set of words that is asked again and again for the nearest one,
// as [Nearest] would answer it. The zero Index is empty and ready.
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

// A file may hold a hundred thousand words, all near each other. After about a tenth
// of a second of comparing, an Index finds nothing near any more.
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

// Nearest returns the word that is the fewest slips away, the first by alphabet of
// several equally near; "" if none is near.
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

// Slip takes a word in, and returns the one that it took in before of which this is
// probably the same with a slip; "" for none.
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
