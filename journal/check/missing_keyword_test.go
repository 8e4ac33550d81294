package check

import (
	"strings"
	"testing"
)

func TestMissingKeyword(t *testing.T) {
	for line, want := range map[string]string{
		"checks:\n  lamp-aim: done 91310 mi":       `Write "; at 91310 mi" if`,
		"checks:\n  lamp-aim: done 91,310 km, dry": `Write "; at 91,310 km" if`,
		"parts:\n  hose: needed hose £20":          `Write "; estimate £20" if`,
		"parts:\n  hose: needed hose (£20); new":   `Write "; estimate £20" if`,
		"parts:\n  hose: ordered hose £10 20 30":   `Write "; estimate £10 20 30" if`,
		"parts:\n  hose: needed hose 20.00":        `Write "; estimate 20.00" if`,
		"parts:\n  hose: needed hose":              "",
		"parts:\n  hose: needed hose 10 20 30":     `Write "; estimate 10 20 30" if`,
		"parts:\n  hose: needed tyre 205 55 16":    "", "parts:\n  hose: needed bolt M8 x 1.25": "",
		"parts:\n  hose: needed hose like no 20.00":                        "",
		"parts:\n  hose: sold hose, 20.00":                                 `Write "credit: 20.00 hose; as spares; for hose" if`,
		"parts:\n  hose: sold hose 20.00\ncredit: 20; for hose; as spares": "",
		"parts:\n  hose: sold hose":                                        "",
		"checks:\n  lamp-aim: done 10 m from a wall":                       "",
		"checks:\n  lamp-aim: done after 20 km":                            "",
		"checks:\n  lamp-aim: done 5 km out; at 91310 mi":                  "",
		"parts:\n  hose: needed hose £20; estimate 18":                     "",
		"parts:\n  hose: needed hose 20":                                   "",
		"parts:\n  hose: arrived hose £20":                                 "",
		"parts:\n  hose: needed £20 hose like the old one":                 "",
	} {
		wantOf(t, "missing-keyword", "---\nstage: body\n"+line+"\n---\n", want)
	}
	for about, want := range map[string]string{
		"400": `Write "; budget 400" if`, "£260 340 520; system body": `Write "; budget £260 340 520" if`,
		"doors 400.00": `Write "; budget 400.00" if`, "doors £400": `Write "; budget £400" if`, "doors 300 400 500": `Write "; budget 300 400 500" if`, "doors 400": "",
		"4 doors": "", "2015": `"2015"`, "400; budget 400": "", "all 4": "",
	} {
		card := strings.Replace(exampleCard, "body: budget 400", "body: "+about, 1)
		wantOf(t, "missing-keyword", "-- build.md --\n"+card+"-- 2026-04-11.md --\n---\nstage: body\n---\n", want)
	}
}
