package measure

import (
	"math/big"
	"regexp"
	"slices"
	"strings"

	"guidecoat/journal/measure/number"
	"guidecoat/journal/near"
	"guidecoat/journal/source"
)

type Period struct {
	Name   string
	InWeek *big.Rat // how often it comes in a week
}

// periods are those of the notes: a month is 52/12 weeks.
var periods = []Period{
	{"day", big.NewRat(7, 1)}, {"week", big.NewRat(1, 1)}, {"month", big.NewRat(12, 52)}, {"year", big.NewRat(1, 52)},
}

// each matches what comes again, the words that say so, and how often.
var each = regexp.MustCompile(`^(.*?)(?: */ *|\s+(?:a|an|per|each|every)\s+)(\pL+)`)

// ScanEach reads "WHAT a week" at the start of text: what, how often, and where it ends.
func ScanEach(text, example string) (what string, p Period, end int, bad *source.Malformed) {
	m := each.FindStringSubmatchIndex(text)
	if m == nil {
		return "", p, 0, malformed(0, len(text), "it does not say how often", "write a day, a week, a month or a year behind it, as in "+example)
	}
	var names []string
	for _, p := range periods {
		if word := strings.ToLower(text[m[4]:m[5]]); word == p.Name {
			return text[:m[3]], p, m[1], nil
		}
		names = append(names, p.Name)
	}
	help := "write a day, a week, a month or a year"
	if n := near.Nearest(text[m[4]:m[5]], names); n != "" {
		help = "the nearest is \"" + n + "\"; " + help
	}
	return "", p, 0, malformed(m[4], m[5], "\""+text[m[4]:m[5]]+"\" is no length of time that comes again", help)
}

// ScanPace reads how much is worked, such as "6h a week", as minutes a week.
func ScanPace(text string) (*big.Rat, int, *source.Malformed) {
	what, p, end, bad := ScanEach(text, "6h a week")
	if bad != nil {
		return nil, 0, bad
	}
	m, bad := whole(what, "time", scanLength)
	if bad != nil {
		return nil, 0, bad
	}
	pace := new(big.Rat).Mul(big.NewRat(int64(m), 1), p.InWeek)
	switch {
	case m == 0:
		return nil, 0, malformed(0, end, "at a pace of nothing nothing is ever ready", "write how much you work, as in 6h a week, or leave the line out")
	case pace.Cmp(big.NewRat(7*int64(Day), 1)) > 0:
		return nil, 0, malformed(0, end, "a "+p.Name+" has fewer hours", "write how much one person works, as in 6h a week")
	}
	return pace, end, nil
}

// A Span is the days from one to another, both included.
type Span struct{ From, To Date }

// apart are the ways to write a span of days.
var apart = []string{"..", "…", " to ", " until ", " till ", " – ", "–", " - "}

// ScanSpan reads days from one to another, as in 2026-07-01..2026-07-14.
func ScanSpan(text string, date func(string) (Date, *source.Malformed)) (Span, *source.Malformed) {
	const help = "write its first and its last day, as in 2026-07-01..2026-07-14"
	at, mark := -1, ""
	for _, m := range apart {
		if i := strings.Index(text, m); i >= 0 && at < 0 {
			at, mark = i, m
		}
	}
	if at < 0 {
		return Span{}, malformed(0, len(text), "it is one day or has no end", help)
	}
	end := at + len(mark)
	if strings.TrimSpace(text[end:]) == "" || strings.TrimSpace(text[:at]) == "" {
		return Span{}, malformed(0, len(text), "it has no "+map[bool]string{true: "end", false: "beginning"}[strings.TrimSpace(text[:at]) != ""], help)
	}
	var s Span
	for i, part := range []string{text[:at], text[end:]} {
		d, bad := date(strings.TrimSpace(part))
		if bad != nil {
			lead := number.Spaces(part, 0) + []int{0, end}[i]
			return Span{}, bad.Shifted(lead)
		}
		*[]*Date{&s.From, &s.To}[i] = d
	}
	if s.To < s.From {
		return Span{}, malformed(0, len(text), "it ends before it begins", help)
	}
	return s, nil
}

// Merge returns spans in order of their days, those that touch as one.
func Merge(spans []Span) []Span {
	list := slices.Clone(spans)
	slices.SortFunc(list, func(a, b Span) int { return int(a.From) - int(b.From) })
	var merged []Span
	for _, s := range list {
		if n := len(merged); n > 0 && s.From <= merged[n-1].To.AddDays(1) {
			merged[n-1].To = max(merged[n-1].To, s.To)
		} else {
			merged = append(merged, s)
		}
	}
	return merged
}
