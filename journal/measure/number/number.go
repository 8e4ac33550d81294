// Package number reads a plain decimal number as people type it: digits, a
// point before the decimals, commas between groups of three.
//
// It is strict on purpose. A number is money or a measurement, and a guess at
// what "12,50" or "0123" was meant to be would end in a total. It also stands
// in front of the decimal package, which takes exponents and endless digits.
package number

import (
	"fmt"
	"regexp"
	"strings"

	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// MaxDigits is how many digits may stand before the point, and how many after it.
const MaxDigits = 12

// A Number is a number and how it was typed: its decimals, and the byte offset just after it.
type Number struct {
	Value  decimal.Decimal
	Places int32
	End    int
}

// Begins reports whether text begins with a digit.
func Begins(text string) bool { return text != "" && isDigit(text[0]) }

// Scan reads the unsigned number at the start of text: 64, 64.5, 1250, 1,250.00; no exponent, no leading zero.
func Scan(text string) (Number, *source.Malformed) {
	end := 0
	for end < len(text) && (isDigit(text[end]) || text[end] == '.' || text[end] == ',') {
		end++
	}
	token := strings.TrimRight(text[:end], ",") // a comma at the end belongs to what follows
	end = len(token)
	whole, decimals, point := strings.Cut(token, ".")
	digits := strings.ReplaceAll(whole, ",", "")

	fail := func(why, help string) (Number, *source.Malformed) {
		return Number{}, &source.Malformed{Start: 0, End: end, Why: why, Help: help}
	}
	switch {
	case token == "" || token == "." || token[0] == ',':
		return fail("there is no number", "begin with a number, as in 64.00")
	case strings.ContainsAny(decimals, ".,") || !grouped(whole):
		n, bad := fail("its points and commas are in the wrong places", "write the decimals after a point, as in 12.50, and thousands in groups of three, as in 1,250.00")
		if bad.Instead = withPoint(token); bad.Instead != "" {
			bad.Help = fmt.Sprintf("write the decimals after a point: %q", bad.Instead)
		}
		return n, bad
	case whole == "":
		return fail("nothing stands before the point", fmt.Sprintf("write %q", "0"+shorten(token)))
	case point && decimals == "":
		return fail("nothing stands after the point", fmt.Sprintf("write %q", shorten(whole)))
	case len(digits) > 1 && digits[0] == '0':
		return fail("it begins with a zero", "write the number without zeros in front")
	case len(digits) > MaxDigits:
		return fail(fmt.Sprintf("more than %d digits stand before the point", MaxDigits), "check for digits typed twice")
	case len(decimals) > MaxDigits:
		return fail(fmt.Sprintf("it has more than %d decimals", MaxDigits), "round it to fewer decimals")
	}
	if n := exponent(text[end:]); n > 0 {
		end += n
		return fail("it has an exponent", "write the number out in full, as in 1000 for 1e3")
	}
	if decimals != "" {
		digits += "." + decimals
	}
	value, err := decimal.NewFromString(digits)
	if err != nil { // cannot happen: the text is digits and at most one point
		return fail("it is not a number", "begin with a number, as in 64.00")
	}
	return Number{Value: value, Places: int32(len(decimals)), End: end}, nil
}

// Sign returns the length of a sign at the start of text, and whether it is "-", U+2212 or an en dash.
func Sign(text string) (length int, minus bool) {
	if strings.HasPrefix(text, "+") {
		return 1, false
	}
	for _, sign := range []string{"-", "\u2212", "\u2013"} {
		if strings.HasPrefix(text, sign) {
			return len(sign), true
		}
	}
	return 0, false
}

// Spaces returns the offset of the first byte from at on that is no space or tab.
func Spaces(text string, at int) int {
	for at < len(text) && (text[at] == ' ' || text[at] == '\t') {
		at++
	}
	return at
}

// WordEnd returns the offset of the first space or tab from at on, or the end.
func WordEnd(text string, at int) int {
	if n := strings.IndexAny(text[at:], " \t"); n >= 0 {
		return at + n
	}
	return len(text)
}

func isDigit(b byte) bool { return '0' <= b && b <= '9' }

// grouped reports whether whole has no commas, or commas exactly between groups of three.
func grouped(whole string) bool {
	groups := strings.Split(whole, ",")
	if len(groups) == 1 {
		return true
	}
	for _, g := range groups[1:] {
		if len(g) != 3 {
			return false
		}
	}
	return 1 <= len(groups[0]) && len(groups[0]) <= 3
}

// withPoint is the number with a point where a decimal comma was typed, and commas where points were; "" for any other.
func withPoint(token string) string {
	whole, decimals, _ := strings.Cut(token, ",")
	if swapped := strings.ReplaceAll(whole, ".", ","); swapped != whole && grouped(swapped) && len(decimals) == 2 && !strings.ContainsAny(decimals, ".,") {
		return swapped + "." + decimals
	}
	if len(token) <= 2*MaxDigits && whole != "" && len(decimals) != 3 && decimals != "" && !strings.ContainsAny(whole+decimals, ".,") {
		return whole + "." + decimals
	}
	return ""
}

// exponent returns the length of an exponent such as e3 or E-07 at the start of text.
func exponent(text string) int {
	if text == "" || text[0] != 'e' && text[0] != 'E' {
		return 0
	}
	return len(exponents.FindString(text))
}

var exponents = regexp.MustCompile(`^[eE][+-]?[0-9]+`)

// shorten keeps a hostile number from filling the help.
func shorten(s string) string { return s[:min(len(s), 2*MaxDigits)] }

var (
	// A word has three letters or more: fewer are a unit, which makes the number something else.
	ordinaryWord = regexp.MustCompile(`^\pL{3,}[^0-9/%]*$`)
	longUnit     = regexp.MustCompile(`^(?:amps?|grit|volts?|watts?|bar|psi|inch(?:es)?|lit(?:re|er)s?|met(?:re|er)s?|feet|foot|miles?|mph|rpm|lbs|kph|pcs)\b`)
	signs        = regexp.MustCompile(`^[-–—,.:;?!()…]+`) // not those of inches, feet and degrees
)

// Touching returns the complaint about what touches a what that ends at offset at of text.
func Touching(text string, at int, what string) *source.Malformed {
	tail := text[at:WordEnd(text, at)]
	if tail == "" {
		return nil
	}
	bad := &source.Malformed{Start: at, End: at + len(tail), Why: "it runs straight into other words"}
	sign := signs.FindString(tail)
	switch word := tail[len(sign):]; {
	case sign == "" && ordinaryWord.MatchString(tail) && !longUnit.MatchString(tail):
		bad.Help = "write a space after the " + what
	case sign != "" && (word == "" || ordinaryWord.MatchString(word)):
		bad.Why = "a sign stands where a space should"
		bad.Help = fmt.Sprintf("write a space instead of %.20q", sign)
	default:
		bad.Why = "that is no part of it"
		bad.Help = fmt.Sprintf("begin with the %s, and a space behind it", what)
	}
	return bad
}

// Three reads best, likely and worst, or one that stands for all. They may be equal but not fall.
func Three[T any](text, example string, parse func(string) (T, *source.Malformed), less func(a, b T) bool) ([3]T, *source.Malformed) {
	three, bad := readThree(text, example, parse, less)
	if bad != nil {
		if better := Apart(text); better != nil {
			bad = better
		}
	}
	return three, bad
}

func readThree[T any](text, example string, parse func(string) (T, *source.Malformed), less func(a, b T) bool) (three [3]T, bad *source.Malformed) {
	fields := strings.Fields(text)
	if len(fields) != 1 && len(fields) != 3 {
		return three, &source.Malformed{End: len(text), Why: "one number or three are needed",
			Help: "write best, likely and worst, as in " + example + ", or one number for all three"}
	}
	at := 0
	for i, field := range fields {
		at += strings.Index(text[at:], field)
		v, bad := parse(field)
		if bad != nil {
			return [3]T{}, &source.Malformed{Start: bad.Start + at, End: bad.End + at, Why: bad.Why, Help: bad.Help}
		}
		if i > 0 && less(v, three[i-1]) {
			return [3]T{}, &source.Malformed{Start: at, End: at + len(field), Help: "write the smallest number first",
				Why: fmt.Sprintf("best, likely and worst must rise, but %s is less than %s", field, fields[i-1])}
		}
		three[i] = v
		at += len(field)
	}
	if len(fields) == 1 {
		three[1], three[2] = three[0], three[0]
	}
	return three, nil
}

// apart are two or three numbers with something else than spaces between; a comma counts before a space alone.
var apart = func() *regexp.Regexp {
	const figure, between = `([£€$]?[0-9][0-9.]*(?:,[0-9.]+)*)`, `([-–—/]| [-–—/] |[,;] +| to )`
	return regexp.MustCompile(`^` + figure + between + figure + `(?:` + between + figure + `)?`)
}()

// Apart returns the complaint about such numbers at the start of text, nil where none stand there.
func Apart(text string) *source.Malformed {
	m := apart.FindStringSubmatch(text)
	if m == nil || m[5] == "" && (m[2] == " - " || m[2] == " – " || m[2] == " — ") && len(m[0]) < len(text) {
		return nil
	}
	middle, last := m[3], m[5]
	if last == "" {
		middle, last = "LIKELY", m[3]
	}
	return &source.Malformed{End: len(m[0]), Why: "its numbers are not set apart by spaces", Help: "write " + strings.Join([]string{m[1], middle, last}, " ")}
}
