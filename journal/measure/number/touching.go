package number

import (
	"fmt"
	"regexp"
	"strings"

	"guidecoat/journal/source"
)

var (
	// A word has three letters or more: fewer are a unit, which makes the number
	// something else than what is read.
	ordinaryWord = regexp.MustCompile(`^\pL{3,}[^0-9/%]*$`)
	longUnit     = regexp.MustCompile(`^(?:amps?|grit|volts?|watts?|bar|psi|inch(?:es)?|lit(?:re|er)s?|met(?:re|er)s?|feet|foot|miles?|mph|rpm|lbs|kph|pcs)\b`)
	signs        = regexp.MustCompile(`^[-–—,.:;?!()…]+`) // not those of inches, feet and degrees
)

// Touching returns the complaint about what touches a what that ends at offset at of
// text; nil where nothing does. A space is advised only before an ordinary word: before
// anything else it would leave behind it what belongs to the number.
func Touching(text string, at int, what string) *source.Malformed {
	tail := text[at:]
	if end := strings.IndexAny(tail, " \t"); end >= 0 {
		tail = tail[:end]
	}
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
