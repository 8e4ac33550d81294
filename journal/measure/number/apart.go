package number

import (
	"regexp"
	"strings"

	"guidecoat/journal/source"
)

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
