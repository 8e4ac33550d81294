package money

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"guidecoat/journal/measure/number"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// What stands behind an amount is description. What could be the rest of the amount is refused.

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

// secondHalf refuses "1 250.00" and "12 50 seals", in which a number may be meant as part of the amount.
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

var (
	tailOfDate   = regexp.MustCompile(`^[-./][0-9]{1,2}[-./][0-9]{1,4}$`)
	otherPoint   = regexp.MustCompile(`^[-–−:'’]([0-9]{2})$`)
	otherComma   = regexp.MustCompile(`^['’]([0-9]{3}(?:\.[0-9]+)?)$`)
	tailOfPart   = regexp.MustCompile(`^/([1-9][0-9]{0,2})$`)
	unitOfPrice  = regexp.MustCompile(`^/\pL`)
	added        = regexp.MustCompile(`^[-+–−][£€$]?[0-9]`)
	halves       = map[string]string{"½": ".50", "¼": ".25", "¾": ".75"}
	justAmount   = "begin with the amount, as in 64.00 or £64, and a space behind it"
	noPartOfThis = "that is no part of an amount"
)

// touching refuses what touches the amount. Its help says what was probably meant.
func (s *scanner) touching() *source.Malformed {
	end := s.wordEnd(s.at)
	if end == s.at {
		return nil
	}
	if help := s.meant(s.text[s.at:end]); help != "" {
		return malformed(s.at, end, noPartOfThis, help)
	}
	bad := number.Touching(s.text, s.at, "amount")
	if bad.Why == "that is no part of it" {
		bad.Why, bad.Help = noPartOfThis, justAmount
	}
	return bad
}

// meant is help for what touches the amount, "" where any words may.
func (s *scanner) meant(tail string) string {
	figure := s.w.Symbol + s.text[s.w.NumberStart:s.w.NumberEnd]
	whole := s.w.Places == 0 && s.at == s.w.NumberEnd
	if m := otherPoint.FindStringSubmatch(tail); m != nil && whole {
		return fmt.Sprintf("write %.30s.%s if these are decimals, or one amount alone", figure, m[1])
	}
	if m := otherComma.FindStringSubmatch(tail); m != nil && whole {
		return fmt.Sprintf("write %.30s%s or %.30s,%s", figure, m[1], figure, m[1])
	}
	if decimals := halves[tail]; decimals != "" && whole {
		return "write " + figure + decimals
	}
	if (tail == "k" || tail == "K") && s.at == s.w.NumberEnd {
		return "write " + s.w.Symbol + s.w.Number.Mul(decimal.NewFromInt(1000)).String()
	}
	if m := tailOfPart.FindStringSubmatch(tail); m != nil {
		part := "1/" + m[1]
		if f, bad := ParseShare(s.text[s.w.NumberStart:s.w.NumberEnd] + tail); bad == nil && f.Num < f.Den {
			part = s.text[s.w.NumberStart:s.w.NumberEnd] + tail
		}
		return "write the whole price first, and the build's part of it as a clause: share " + part
	}
	switch {
	case tailOfDate.MatchString(tail):
		return "begin with the amount; a date is a clause, as in on 2026-04-11"
	case unitOfPrice.MatchString(tail):
		return fmt.Sprintf("write QUANTITY x PRICE, such as 3 x %.30s", figure)
	case added.MatchString(tail):
		return "write the sum, or a line for each amount"
	}
	return ""
}
