package money

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"guidecoat/journal/measure/number"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"
)

// scanner reads one amount from left to right into w. The field free lets it be zero.
type scanner struct {
	text string
	at   int
	free bool
	w    Written
}

func (s *scanner) amount() *source.Malformed {
	for _, read := range []func() *source.Malformed{
		s.unitBefore, s.number, s.quantity, s.unitAfter, s.secondTimes, s.notZero, s.apart,
	} {
		if bad := read(); bad != nil {
			return bad
		}
	}
	s.w.End = s.at
	return nil
}

// unitBefore reads a symbol or code, if one stands before the number.
func (s *scanner) unitBefore() *source.Malformed {
	rest := s.text[s.at:]
	word := letters(rest)
	next := s.spaces(s.at + len(word))
	switch symbol := symbolAt(rest); {
	case symbol != "":
		s.w.Symbol = symbol
		s.unit(s.at, s.at+len(symbol))
		s.at = s.spaces(s.at)
	case IsCode(word):
		s.w.Code = word
		s.unit(s.at, s.at+len(word))
		s.at = s.spaces(s.at)
	case len(word) == 3 && number.Begins(s.text[next:]):
		bad := malformed(s.at, s.at+len(word), fmt.Sprintf("%q is not the code of a currency", word),
			"write a code of ISO 4217, such as EUR, or nothing for the build's own currency")
		if code := strings.ToUpper(word); IsCode(code) {
			bad.Help, bad.Instead = "write the code in capitals: "+code, code
		}
		return bad
	}
	return nil
}

// unit records where the currency is written and goes on after it.
func (s *scanner) unit(start, end int) { s.w.UnitStart, s.w.UnitEnd, s.at = start, end, end }

// number reads the number, and explains what else may stand in its place.
func (s *scanner) number() *source.Malformed {
	rest := s.text[s.at:]
	if n, minus := number.Sign(rest); n > 0 {
		unit := n + len(symbolAt(rest[n:]))
		if figure := numeric(rest[unit:]); figure > 0 {
			end := s.at + unit + figure
			if minus {
				return malformed(s.at, end, "it is negative", "write it without the minus; money that came back is a `credit` line")
			}
			return malformed(s.at, end, "it has a plus sign", "write it without the sign")
		}
	}
	if numeric(rest) == 0 {
		return s.missing()
	}
	n, bad := number.Scan(rest)
	if bad != nil {
		return bad.Shifted(s.at)
	}
	s.w.Number, s.w.Places = n.Value, n.Places
	s.w.NumberStart, s.w.NumberEnd = s.at, s.at+n.End
	s.at += n.End
	return nil
}

// noPrice is the complaint about a quantity alone. A quantity seldom has two decimals; a price has.
func (s *scanner) noPrice(start, end int) *source.Malformed {
	help := "write the price of one after the x, as in 3 x 4.99"
	if quantity := s.text[s.w.NumberStart:s.w.NumberEnd]; s.w.Places == 2 {
		help = fmt.Sprintf("write the price of one after the x, or another word than x if %.30s is the price", quantity)
	}
	return malformed(start, end, "no price follows the quantity", help)
}

// missing is the complaint about a word where a number should be.
func (s *scanner) missing() *source.Malformed {
	end := s.wordEnd(s.at)
	switch {
	case s.w.HasQuantity:
		return s.noPrice(s.at, end)
	case s.w.UnitStart < s.w.UnitEnd:
		return malformed(s.w.UnitStart, max(s.w.UnitEnd, end), "no number follows the currency",
			"write the number after it, as in "+s.text[s.w.UnitStart:s.w.UnitEnd]+" 64.00")
	}
	return malformed(s.at, end, "it does not begin with a number", "begin with the amount, as in 64.00 or £64")
}

// quantity, if an x follows the number, takes that as the N of "N x" and reads the price.
func (s *scanner) quantity() *source.Malformed {
	after := s.times()
	switch {
	case after == 0:
		return nil
	case s.w.UnitStart < s.w.UnitEnd:
		return malformed(s.w.UnitStart, s.w.UnitEnd, "the currency stands before the quantity", "write it at the price: 2 x £6.49 or 2 x 6.49 EUR")
	case s.w.Number.IsZero():
		return malformed(s.w.NumberStart, s.w.NumberEnd, "the quantity is zero", "write how many, as in 3 x 4.99")
	}
	s.w.Quantity, s.w.HasQuantity = s.w.Number, true
	times := s.spaces(s.at)
	s.at = s.spaces(after)
	if s.at == len(s.text) {
		return s.noPrice(times, after)
	}
	if bad := s.unitBefore(); bad != nil {
		return bad
	}
	return s.number()
}

// times returns where a multiplication sign ends, or 0. An x is one alone or before a price, not in "x-ray".
func (s *scanner) times() int {
	next := s.spaces(s.at)
	if strings.HasPrefix(s.text[next:], "×") {
		return next + len("×")
	}
	if s.w.Places == 0 && !s.w.HasQuantity {
		if m := off.FindStringSubmatch(s.text[next:]); m != nil {
			return next + len(m[1])
		}
	}
	if !strings.HasPrefix(s.text[next:], "x") {
		return 0
	}
	after := next + 1
	rest := s.text[after:]
	sign, _ := number.Sign(rest)
	alone := s.spaces(after) > after || rest == ""
	return pick.Either(alone || numeric(rest[sign:]) > 0 || symbolAt(rest) != "" || IsCode(letters(rest)), after, 0)
}

// off is what people write for an x before a price with its pence or its currency.
var off = regexp.MustCompile(`^((?:off|no\.?),? ?(?:at |@ ?)?|at |@ ?)(?:[£€$]|[0-9]+\.[0-9]{2}(?:[^0-9]|$))`)

// secondTimes refuses an x after the price, or between a currency and a quantity.
func (s *scanner) secondTimes() *source.Malformed {
	after := s.times()
	if after == 0 {
		return nil
	}
	start := s.spaces(s.at)
	if s.w.HasQuantity {
		return malformed(start, after, "a second quantity follows", "write one quantity and one price, as in 3 x 4.99")
	}
	return malformed(s.w.UnitStart, s.w.UnitEnd, "the currency stands before the quantity ends", "write it at the price: 2 x 6.49 EUR")
}

// unitAfter reads a code after the number, if the next word is one.
func (s *scanner) unitAfter() *source.Malformed {
	start := s.spaces(s.at)
	rest := s.text[start:]
	if symbol := symbolAt(rest); symbol != "" {
		return s.symbolAfter(start, symbol)
	}
	word := letters(rest)
	if !IsCode(word) || joined(rest[len(word):]) {
		return nil
	}
	clash := s.w.Code != "" && s.w.Code != word || s.w.Symbol != "" && !symbolNamed(s.w.Symbol).uses(word)
	if clash {
		return malformed(start, start+len(word), "two different currencies are written",
			"write one; if "+word+" is description, write it in small letters")
	}
	s.w.Code = word
	s.unit(start, start+len(word))
	return nil
}

// symbolAfter is the complaint about a symbol behind the number, where only a code may stand.
func (s *scanner) symbolAfter(start int, symbol string) *source.Malformed {
	end, figure := start+len(symbol), s.text[s.w.NumberStart:s.w.NumberEnd]
	if n := numeric(s.text[s.spaces(end):]); n > 0 {
		return malformed(start, s.spaces(end)+n, "a second amount follows", "write one amount, or a word before the second if it is description")
	}
	code := strings.Fields(symbolNamed(symbol).codes)[0]
	help := fmt.Sprintf("write %s%.30s, or a code such as %s after the number", symbol, figure, code)
	if symbolNamed(symbol).only() == "" {
		help = fmt.Sprintf("write a code after the number, as in %.30s %s", figure, code)
	}
	return malformed(start, end, "the symbol stands after the number", help)
}

func (s *scanner) notZero() *source.Malformed {
	if s.w.Number.IsZero() && !s.free {
		return malformed(s.w.NumberStart, s.w.NumberEnd, "it is zero", "write what was paid, or leave the line out")
	}
	return nil
}

func (s *scanner) spaces(at int) int { return number.Spaces(s.text, at) }

func (s *scanner) wordEnd(at int) int { return number.WordEnd(s.text, at) }

// numeric returns the length of what should be a number: it has a digit in its first two bytes.
func numeric(text string) int {
	if !number.Begins(text) && !(strings.HasPrefix(text, ".") && number.Begins(text[1:])) {
		return 0
	}
	if end := strings.IndexFunc(text, func(r rune) bool { return !strings.ContainsRune("0123456789.,", r) }); end >= 0 {
		return end
	}
	return len(text)
}

// symbolAt returns the currency symbol at the start of text, or "". A kr must be a word of its own.
func symbolAt(text string) string {
	for _, s := range symbols {
		if strings.HasPrefix(text, s.text) && (s.text != "kr" || letters(text) == "kr") {
			return s.text
		}
	}
	return ""
}

// letters returns the letters at the start of text, at most four: enough to tell a code.
func letters(text string) string {
	end := 0
	for n := 0; n < 4; n++ {
		r, size := utf8.DecodeRuneInString(text[end:])
		if !unicode.IsLetter(r) {
			break
		}
		end += size
	}
	return text[:end]
}

// joined reports whether rest goes on with the word before it, as in "ALL-weather".
func joined(rest string) bool {
	r, _ := utf8.DecodeRuneInString(rest)
	return rest != "" && (unicode.IsLetter(r) || unicode.IsDigit(r) || strings.ContainsRune("-_'’/", r))
}
