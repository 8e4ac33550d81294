package money

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"github.com/shopspring/decimal"

	"guidecoat/journal/source"
)

// What stands behind an amount is description. What could be the rest of the amount
// instead is refused: as description it would change the sum in silence.

// apart refuses what touches the amount, and what may belong to it.
func (s *scanner) apart() *source.Malformed {
	for _, read := range []func() *source.Malformed{s.otherTimes, s.hundredths, s.touching, s.secondHalf} {
		if bad := read(); bad != nil {
			return bad
		}
	}
	return nil
}

// otherTimes refuses another multiplication sign than x before a price.
func (s *scanner) otherTimes() *source.Malformed {
	start := s.spaces(s.at)
	for _, sign := range []string{"@", "*", "X", "✕", "✖"} {
		after := start + len(sign)
		if !strings.HasPrefix(s.text[start:], sign) {
			continue
		}
		price := s.spaces(after)
		rest := s.text[price:]
		if sign == "X" && price == after && start > s.at { // "64.00 X5 bumper"
			return nil
		}
		rest = rest[len(symbolAt(rest)):]
		n := numeric(rest)
		if n == 0 {
			return nil
		}
		return malformed(start, after, fmt.Sprintf("%q is no sign between a quantity and a price", sign),
			fmt.Sprintf("write %.20s x %.20s, or a word before the %s if this is description", s.text[s.w.NumberStart:s.w.NumberEnd], rest[:n], sign))
	}
	return nil
}

// hundredths refuses pence and cents, which would be read as pounds and euros.
func (s *scanner) hundredths() *source.Malformed {
	start := s.spaces(s.at)
	word := s.text[start:]
	if end := strings.IndexFunc(word, func(r rune) bool { return !unicode.IsLetter(r) }); end >= 0 {
		word = word[:end]
	}
	units := []string{"p", "pence", "cent", "cents"}
	if start == s.at {
		units = append(units, "c", "ct")
	}
	if s.at != s.w.NumberEnd || !slices.Contains(units, word) || joined(s.text[start+len(word):]) {
		return nil
	}
	if s.w.Places == 2 || s.w.Symbol != "" {
		return malformed(s.w.NumberStart, start+len(word), fmt.Sprintf("%q after it is for hundredths", word),
			fmt.Sprintf("write %s%.30s alone if that is the price", s.w.Symbol, s.text[s.w.NumberStart:s.w.NumberEnd]))
	}
	bad := malformed(s.w.NumberStart, start+len(word), "it is written in hundredths", "")
	bad.Instead = s.w.Number.Div(decimal.NewFromInt(100)).StringFixed(2 + s.w.Places)
	bad.Help = "write " + bad.Instead
	return bad
}

// secondHalf refuses a number that may have been meant as part of the amount:
// "1 250.00" would be an amount of 1 and a description "250.00", and "12 50 seals"
// one of 12.
func (s *scanner) secondHalf() *source.Malformed {
	next := s.spaces(s.at)
	n := numeric(s.text[next:])
	if s.w.Places > 0 || s.at != s.w.NumberEnd {
		return nil
	}
	first, second := s.text[s.w.NumberStart:s.w.NumberEnd], s.text[next:next+n]
	group, decimals, point := strings.Cut(second, ".")
	end := next+n == len(s.text)
	apart := end || s.text[next+n] == ' ' || s.text[next+n] == '\t'
	switch {
	case len(first) <= 3 && len(group) == 3 && (decimals != "" || end):
		return malformed(s.w.NumberStart, next+n, "a space stands inside the number",
			fmt.Sprintf("write %s,%.30s, or put a word between them", first, second))
	case len(second) == 2 && !point && apart:
		return malformed(s.w.NumberStart, next+n, "a space stands inside the number",
			fmt.Sprintf("write %.30s.%s, or %.30s.00 or a word before the %s if that is description", first, second, first, second))
	}
	return nil
}
