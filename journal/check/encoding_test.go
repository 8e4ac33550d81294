package check

import (
	"encoding/binary"
	"strings"
	"testing"
	"testing/fstest"
	"unicode/utf16"

	"guidecoat/journal"
)

// TestOtherText holds that no note vanishes because an editor saved it otherwise.
func TestOtherText(t *testing.T) {
	const text = "---\ndate: 2026-04-11\ncost:\n  - 12.00 hose\n---\n- [ ] temporary roof-tarp: tarp\n"
	wide := func(order binary.AppendByteOrder, mark string) string {
		var b []byte
		for _, u := range utf16.Encode([]rune(mark + text)) {
			b = order.AppendUint16(b, u)
		}
		return string(b)
	}
	const utf16, returns = "error, not-utf8: the file is UTF-16, not UTF-8, and nothing of it is read", "error, control-character: every line of the file ends in a carriage return alone"
	for _, c := range []struct{ name, data, want string }{
		{"2026-04-11.md", wide(binary.LittleEndian, ""), "2026-04-11.md:1:1: " + utf16},
		{"2026-04-11.md", wide(binary.BigEndian, ""), "2026-04-11.md:1:1: " + utf16},
		{"2026-04-11.md", wide(binary.LittleEndian, "\ufeff"), "2026-04-11.md:1:1: " + utf16},
		{"beam.md", wide(binary.BigEndian, "\ufeff"), "beam.md:1:1: " + utf16}, // its date cannot be told
		{"2026-04-11.md", strings.ReplaceAll(text, "\n", "\r"), "2026-04-11.md:1:4: " + returns},
		{"2026-04-11.md", strings.ReplaceAll(text, "\n", "\r\n"), ""},
		{"2026-04-11.md", strings.TrimSuffix(strings.ReplaceAll(text, "\n", "\r\n"), "\n"), ""},
		{"2026-04-11.md", "\ufeff" + text, ""},
		{"2026-04-11.md", "", ""},
		{"2026-04-11.md", text + "\tFahrt über die Brücke, Å, Â\n", ""},
		{"2026-04-11.md", strings.Replace(text, "ho", "ho\x00", 1), "2026-04-11.md:4:13: error, control-character: the control character U+0000 stands here"},
		{"2026-04-11.md", strings.Replace(text, "hose", "hose\r  - 9.00 clip", 1), "2026-04-11.md:4:15: error, control-character: a carriage return stands alone here"},
		{"2026-04-11.md", strings.Replace(text, ": tarp", ": \x1b[2Jtarp", 1), "2026-04-11.md:6:28: error, control-character: the control character U+001B stands here"},
		{"2026-04-11.md", strings.Replace(text, ": tarp", ": \u0085tarp", 1), "2026-04-11.md:6:28: error, control-character: the control character U+0085 stands here"},
		{"2026-04-11.md", strings.Replace(text, "hose", "hose\u2028", 1), "2026-04-11.md:4:15: warning, deceptive-character: the character U+2028 stands here"},
	} {
		fsys := folder("-- build.md --\n" + exampleCard)
		delete(fsys, exampleNote)
		fsys[c.name] = &fstest.MapFile{Data: []byte(c.data)}
		var said []string
		for _, line := range strings.Split(printed(t, proofread(t, fsys)), "\n") {
			if strings.Contains(line, ": error, ") || strings.Contains(line, "-character: ") {
				said = append(said, line)
			}
		}
		if got := strings.Join(said, "\n"); !strings.HasPrefix(got, c.want) || (got == "") != (c.want == "") || len(said) > 1 {
			t.Errorf("%q\n got: %s\nwant: %s", c.data, got, c.want)
		}
	}
	// Of front matter the line is left out, and the others count.
	b, err := journal.ReadBuild(folder("---\ncost:\n  - 12.00 ho\x00se\n  - 9.00 clip\n---\n"), ".")
	if err != nil {
		t.Fatal(err)
	}
	if len(b.Money) != 1 || b.LinesLeftOut != 1 {
		t.Errorf("%d costs, %d lines left out", len(b.Money), b.LinesLeftOut)
	}
	// Nor does a job card.
	fsys := folder("-- build.md --\n")
	fsys[journal.CardName] = &fstest.MapFile{Data: []byte(wide(binary.LittleEndian, "\ufeff"))}
	if got := printed(t, proofread(t, fsys)); !strings.HasPrefix(got, "build.md:1:1: "+utf16) {
		t.Error(got)
	}
}
