package number

import (
	"fmt"
	"regexp"
	"strings"

	"guidecoat/journal/source"
)

// Three reads three values set apart by spaces, best, likely and worst, or one that
// stands for all three. They may be equal but not fall. The example is three of them.
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

// apart are two or three numbers that something else than spaces sets apart. A comma
// does before a space alone, for it may stand inside a number.
var apart = func() *regexp.Regexp {
	const figure, between = `([£€$]?[0-9][0-9.]*(?:,[0-9.]+)*)`, `([-–—/]| [-–—/] |[,;] +| to )`
	return regexp.MustCompile(`^` + figure + between + figure + `(?:` + between + figure + `)?`)
}()

// Apart returns the complaint about two or three numbers at the start of text that
// should be three with spaces between them, nil where none stand there. A dash
// between spaces, with one number behind it, may also begin a remark.
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
