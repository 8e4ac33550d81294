package measure

import (
	"regexp"

	"guidecoat/journal/measure/number"
	"guidecoat/journal/source"
)

func malformed(start, end int, why, help string) *source.Malformed {
	return &source.Malformed{Start: start, End: end, Why: why, Help: help}
}

// sure is the complaint about what can only be meant in one way.
func sure(start, end int, why, instead string) *source.Malformed {
	return &source.Malformed{Start: start, End: end, Why: why, Help: "write " + instead, Instead: instead}
}

// widened returns the complaint about a number as one about all up to that offset.
func widened(m *source.Malformed, text string, end int) *source.Malformed {
	if end > m.End {
		if m.Instead != "" {
			m.Instead += text[m.End:end]
		}
		m.End = end
	}
	return m
}

var manyTimes = regexp.MustCompile(`^[-–—−/][0-9]`)

// runsOn is the complaint about what touches a duration that ends at offset at.
func runsOn(text string, at int) *source.Malformed {
	bad := number.Touching(text, at, "duration")
	if bad != nil && manyTimes.MatchString(text[at:]) {
		bad.Why, bad.Help = "that is no part of it", "write one length of time, or when it began and ended, as in 19:30-21:15"
	}
	return bad
}

// whole reads text with scan, which must use all of it but for spaces around it.
func whole[T any](text, what string, scan func(string) (T, int, *source.Malformed)) (T, *source.Malformed) {
	var none T
	lead := number.Spaces(text, 0)
	v, end, bad := scan(text[lead:])
	if bad != nil {
		return none, bad.Shifted(lead)
	}
	if rest := number.Spaces(text, lead+end); rest < len(text) {
		return none, malformed(rest, len(text), "something follows the "+what, "leave only the "+what+" here")
	}
	return v, nil
}
