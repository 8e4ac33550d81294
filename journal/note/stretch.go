package note

import (
	"strings"

	"guidecoat/journal/measure"
	"guidecoat/journal/source"
)

// A Stretch is how far a vehicle must have been driven: at least, and where it says so
// at most.
type Stretch struct {
	Least measure.Quantity
	Most  *measure.Quantity
}

func (s Stretch) String() string {
	if s.Most == nil {
		return "at least " + s.Least.String()
	}
	return s.Least.Value.String() + " to " + s.Most.String()
}

// ParseStretch reads "50 km" or "40 to 80 km"; a unit at the second holds for both.
func ParseStretch(text string) (s Stretch, bad *source.Malformed) {
	least, most, both := strings.Cut(text, " to ")
	if !both {
		s.Least, bad = measure.ParseDistance(text)
		return s, bad
	}
	far, bad := measure.ParseDistance(most)
	if bad != nil {
		bad.Start, bad.End = bad.Start+len(least)+len(" to "), bad.End+len(least)+len(" to ")
		return s, bad
	}
	if s.Least, bad = measure.ParseQuantityLike(least, far.Unit); bad != nil {
		return s, bad
	}
	if s.Least.Compare(far) > 0 || s.Least.Value.IsNegative() {
		return s, &source.Malformed{End: len(text), Why: "the first distance is not the shorter one", Help: "Write the shorter one first, such as 40 to 80 km."}
	}
	s.Least.Value, s.Least.Unit = s.Least.In(far.Unit), far.Unit
	s.Most = &far
	return s, nil
}

// Asks are the checks that a line says its work asks for: none, or exactly these.
type Asks []string

func parseAsks(text string) (Asks, *source.Malformed) {
	if text == "nothing" {
		return Asks{}, nil
	}
	var list Asks
	at := 0
	for part := range strings.SplitSeq(text, ",") {
		start, end := trim(text, at, at+len(part))
		at += len(part) + 1
		if word := text[start:end]; !IsID(word) || word == "nothing" {
			bad := &source.Malformed{Start: start, End: end, Why: "a check is lower-case words joined by hyphens", Help: "Write \"asks for nothing\", or names such as \"asks for brake-test, alignment\"."}
			if better := SuggestID(word); better != "" && word != "nothing" {
				bad.Help = "Write \"" + better + "\"."
			}
			return nil, bad
		}
		list = append(list, text[start:end])
	}
	return list, nil
}
