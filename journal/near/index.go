package near

import (
	"math/bits"
	"slices"
	"strings"
	"unicode/utf8"
)

// An Index is a set of words that is asked again and again for the nearest one,
// as [Nearest] would answer it. Words that differ only in their digits are looked
// at together, so that a thousand numbered names cost no more than one.
// The zero Index is empty and ready.
type Index struct {
	byForm   map[string]*form
	byLength map[int][]*form
}

// A form is what words that differ only in their digits have in common.
type form struct {
	text    string
	letters uint64 // a bit for each sort of letter in it
	words   []string
}

// Add takes a word in.
func (x *Index) Add(word string) {
	if x.byForm == nil {
		x.byForm, x.byLength = map[string]*form{}, map[int][]*form{}
	}
	text := withoutDigits(word)
	f := x.byForm[text]
	if f == nil {
		f = &form{text: text, letters: letters(text)}
		x.byForm[text] = f
		length := utf8.RuneCountInString(text)
		x.byLength[length] = append(x.byLength[length], f)
	}
	f.words = append(f.words, word)
}

// Nearest returns the word that is the fewest slips away, the first by alphabet of
// several equally near; "" if none is near.
func (x *Index) Nearest(word string) string {
	const most = 2 // slips; leaving out the digits adds none
	text := withoutDigits(word)
	mask, length := letters(text), utf8.RuneCountInString(text)
	var candidates []string
	for l := length - most; l <= length+most; l++ {
		for _, f := range x.byLength[l] {
			// A slip changes at most two sorts of letter.
			if bits.OnesCount64(f.letters^mask) <= 2*most && f.text != text && Distance(text, f.text, most) <= most {
				candidates = append(candidates, f.words...)
			}
		}
	}
	if f := x.byForm[text]; f != nil && slices.ContainsFunc(f.words, func(w string) bool { return strings.EqualFold(w, word) }) {
		return strings.ToLower(word)
	}
	slices.Sort(candidates)
	return Nearest(word, candidates)
}

func letters(text string) uint64 {
	var mask uint64
	for _, r := range text {
		mask |= 1 << (uint(r) % 64)
	}
	return mask
}
