package journal

import (
	"slices"
	"strings"
	"unicode"
)

// A Salvage is a category that an insurer gives to a vehicle it has written off.
type Salvage struct {
	Letter string
	// Never says that the vehicle may not return to the road, whatever is mended.
	Never bool
	Means string
}

// salvages are the categories of the ABI Code of Practice for the Categorisation of Motor
// Vehicle Salvage, as GOV.UK tells them under "Insurance write-offs"; C and D are those from
// before October 2017.
var salvages = []Salvage{
	{"A", true, "the whole vehicle has to be crushed"},
	{"B", true, "the body shell has to be crushed; other parts may be used again, but no airbag or seat belt"},
	{"S", false, "it may return to the road once its structure is mended"},
	{"N", false, "it may return to the road once it is mended"},
	{"C", false, "it may return to the road once it is mended"},
	{"D", false, "it may return to the road once it is mended"},
}

// SalvageOf finds the category in what was written for it, such as "B" or "cat. B, burnt";
// nil where it begins with none.
func SalvageOf(text string) *Salvage {
	words := strings.FieldsFunc(strings.ToUpper(text), func(r rune) bool { return !unicode.IsLetter(r) })
	for len(words) > 0 && slices.Contains([]string{"CAT", "CATEGORY", "ABI"}, words[0]) {
		words = words[1:]
	}
	for i := range salvages {
		if len(words) > 0 && words[0] == salvages[i].Letter {
			return &salvages[i]
		}
	}
	return nil
}
