package near

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// An Index is a set of words that is asked again and again for the nearest one,
// as [Nearest] would answer it. Words that differ only in their digits are looked
// at together, so that a thousand numbered names cost no more than one.
// The zero Index is empty and ready.
type Index struct {
	words    map[string]bool // in small letters
	byForm   map[string]*form
	byLength map[int][]*form
	work     int // done so far, in steps of a few nanoseconds
}

// A file may hold a hundred thousand words, all near each other. After about half a
// second of comparing, an Index finds nothing near any more.
const mostWork, distanceWork = 100_000_000, 200

// A form is what words that differ only in their digits have in common.
type form struct {
	text  string
	bag   bag
	words []string
}

// Add takes a word in.
func (x *Index) Add(word string) {
	if x.byForm == nil {
		x.words, x.byForm, x.byLength = map[string]bool{}, map[string]*form{}, map[int][]*form{}
	}
	text := withoutDigits(word)
	f := x.byForm[text]
	if f == nil {
		f = &form{text: text, bag: bagOf(text)}
		x.byForm[text] = f
		length := utf8.RuneCountInString(text)
		x.byLength[length] = append(x.byLength[length], f)
	}
	f.words = append(f.words, word)
	x.words[strings.ToLower(word)] = true
}

// Nearest returns the word that is the fewest slips away, the first by alphabet of
// several equally near; "" if none is near.
func (x *Index) Nearest(word string) string {
	const most = 2 // slips; leaving out the digits adds none
	if lower := strings.ToLower(word); x.words[lower] {
		return lower
	}
	text := withoutDigits(word)
	mine, length := bagOf(text), utf8.RuneCountInString(text)
	var candidates []string
	for l := length - most; l <= length+most; l++ {
		if x.work += len(x.byLength[l]) + distanceWork*len(candidates); x.work > mostWork {
			return ""
		}
		for _, f := range x.byLength[l] {
			if mine.near(&f.bag, most) && f.text != text && x.distance(text, f.text, most) <= most {
				candidates = append(candidates, f.words...)
			}
		}
	}
	slices.Sort(candidates)
	return Nearest(word, candidates)
}

func (x *Index) distance(a, b string, limit int) int {
	x.work += distanceWork
	return Distance(a, b, limit)
}

// A bag counts how often each sort of letter stands in a word.
type bag [32]uint8

func bagOf(text string) (b bag) {
	for _, r := range text {
		b[uint(r)%uint(len(b))]++
	}
	return b
}

// near tells whether so many slips may turn one word into the other: each adds a
// letter, takes one, or both. It is wrong at times, but never when it says no.
func (b *bag) near(other *bag, slips int) bool {
	differ := 0
	for i := range b {
		if d := int(b[i]) - int(other[i]); d < 0 {
			differ -= d
		} else {
			differ += d
		}
		if differ > 2*slips {
			return false
		}
	}
	return true
}
