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
	words    map[string]bool // whether it was added so, or is one in small letters
	folded   map[string]string
	numbered map[string][]string // by what they are without their digits
	byLength map[int][]form
	work     int // done so far, in steps of a few nanoseconds
}

// A form is what words that differ only in their digits have in common.
type form struct {
	text    string
	letters uint64 // those in it, each a bit
}

// A file may hold a hundred thousand words, all near each other. After about a tenth
// of a second of comparing, an Index finds nothing near any more.
const mostWork, distanceWork = 10_000_000, 200

func formOf(word string) (f form, length int) {
	f.text = withoutDigits(word)
	for _, r := range f.text {
		f.letters |= 1 << (uint(r) % 64)
		length++
	}
	return f, length
}

// Add takes a word in.
func (x *Index) Add(word string) {
	if x.words == nil {
		x.words, x.folded, x.numbered, x.byLength = map[string]bool{}, map[string]string{}, map[string][]string{}, map[int][]form{}
	}
	lower := strings.ToLower(word)
	if _, known := x.words[lower]; !known {
		x.words[lower] = false
	}
	x.words[word], x.folded[Folded(word)] = true, word
	f, length := formOf(word)
	if x.numbered[f.text] == nil {
		x.byLength[length] = append(x.byLength[length], f)
	}
	x.numbered[f.text] = append(x.numbered[f.text], word)
}

// Nearest returns the word that is the fewest slips away, the first by alphabet of
// several equally near; "" if none is near.
func (x *Index) Nearest(word string) string {
	const most = 2 // slips; leaving out the digits adds none
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
	mine, length := formOf(word)
	var candidates []string
	for l := length - most; l <= length+most; l++ {
		for _, f := range x.byLength[l] {
			// Each slip adds a letter, takes one, or both.
			if x.work++; bits.OnesCount64(mine.letters^f.letters) > 2*most || f.text == mine.text {
				continue
			}
			if x.work += distanceWork; x.work > mostWork {
				return ""
			}
			if Distance(mine.text, f.text, most) <= most {
				candidates = append(candidates, x.numbered[f.text]...)
				x.work += distanceWork * len(x.numbered[f.text])
			}
		}
	}
	slices.Sort(candidates)
	return Nearest(word, candidates)
}

// Slip takes a word in, and returns the one before it of which it is probably the same
// with a slip; "" for none.
func (x *Index) Slip(word string) string {
	if x.words[word] {
		return ""
	}
	like := x.folded[Folded(word)]
	if like == "" {
		like = x.Nearest(word)
	}
	x.Add(word)
	if like == "" || !IsSlip(like, word) {
		return ""
	}
	return like
}
