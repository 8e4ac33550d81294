package money

import (
	"fmt"
	"regexp"

	"github.com/shopspring/decimal"

	"guidecoat/journal/measure/number"
	"guidecoat/journal/source"
)

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
