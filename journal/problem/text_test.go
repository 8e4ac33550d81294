package problem

import (
	"strings"
	"testing"

	"guidecoat/journal/source"
)

// at returns a warning about what the brackets ⟦ and ⟧ enclose in the text, which
// are taken out of it.
func at(t testing.TB, text string) Problem {
	t.Helper()
	before, rest, opened := strings.Cut(text, "⟦")
	inside, after, closed := strings.Cut(rest, "⟧")
	if !opened || !closed {
		t.Fatalf("%q has no ⟦ ⟧", text)
	}
	file := source.NewFile("a.md", []byte(before+inside+after))
	start := len(strings.TrimPrefix(before, "\ufeff"))
	return Problem{Check: "odd", Severity: Warning, Span: file.Span(start, start+len(inside)), Message: "odd thing"}
}

func printed(t testing.TB, text Text, problems ...Problem) string {
	t.Helper()
	var out strings.Builder
	if err := text.Write(&out, problems); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func TestTextAsDesigned(t *testing.T) {
	p := at(t, "---\ndate: 2026-04-11\nstage: ⟦rear axel⟧\n---\n")
	p.Span.File.Path = "2026-04-11.md"
	p.Check, p.Severity = "unknown-stage", Error
	p.Message = `no stage called "rear axel"`
	p.Help = `Nearest: "rear axle". The stages are listed in build.md.`
	want := `2026-04-11.md:3:8: error, unknown-stage: no stage called "rear axel"
    stage: rear axel
           ^^^^^^^^^
    Nearest: "rear axle". The stages are listed in build.md.
`
	if got := printed(t, Text{}, p); got != want {
		t.Errorf("got:\n%swant:\n%s", got, want)
	}
	coloured := printed(t, Text{Colour: true}, p)
	if want := "\x1b[1m2026-04-11.md:3:8:\x1b[0m \x1b[1;31merror\x1b[0m, unknown-stage: "; !strings.HasPrefix(coloured, want) {
		t.Errorf("coloured begins\n%q, want\n%q", coloured, want)
	}
	if want := "\n           \x1b[1;31m^^^^^^^^^\x1b[0m\n"; !strings.Contains(coloured, want) {
		t.Errorf("the carets are not coloured:\n%q", coloured)
	}
}

func TestSnippet(t *testing.T) {
	long := strings.Repeat("1234567890", 30)
	tests := []struct{ name, text, place, line, carets string }{
		{"tabs stand below tabs", "\ta:\t⟦b⟧\tc", "1:5", "\ta:\tb\tc", "\t  \t^"},
		{"a tab inside", "⟦a\tb⟧c", "1:1", "a\tbc", "^\t^"},
		{"tabs alone", "a⟦\t\t⟧b", "1:2", "a\t\tb", " ^"},
		{"tabs at the end", "⟦a\t⟧b", "1:1", "a\tb", "^"},
		{"é is one column", "é: ⟦é⟧", "1:4", "é: é", "   ^"},
		{"a combining accent takes none", "e\u0301: ⟦e\u0301x⟧", "1:5", "e\u0301: e\u0301x", "   ^^"},
		{"a combining accent alone", "e⟦\u0301⟧x", "1:2", "e\u0301x", "^"},
		{"wide characters take two", "車軸: ⟦車軸⟧", "1:5", "車軸: 車軸", "      ^^^^"},
		{"emoji", "🔧 ⟦x⟧", "1:3", "🔧 x", "   ^"},
		{"CRLF", "a\r\n⟦bc⟧\r\nd", "2:1", "bc", "^^"},
		{"empty span at the end of a line", "ab⟦⟧\ncd", "1:3", "ab", "  ^"},
		{"empty span at the end of a line, CRLF", "ab⟦⟧\r\ncd", "1:3", "ab", "  ^"},
		{"the line ending itself", "ab⟦\n⟧cd", "1:3", "ab", "  ^"},
		{"the feed of CRLF", "ab\r⟦\n⟧cd", "1:4", "ab", "  ^"},
		{"empty span before a character", "a⟦⟧b", "1:2", "ab", " ^"},
		{"empty span after a tab", "a\t⟦⟧", "1:3", "a\t", " \t^"},
		{"last line without newline", "a\n⟦bc⟧", "2:1", "bc", "^^"},
		{"end of a file without newline", "a\nbc⟦⟧", "2:3", "bc", "  ^"},
		{"more than one line", "a: ⟦b\nc⟧ d", "1:4", "a: b", "   ^"},
		{"byte order mark", "\ufeffa: ⟦b⟧", "1:4", "a: b", "   ^"},
		{"escape sequences are shown", "a\x1b[2Jb⟦c⟧", "1:7", "a<U+001B>[2Jbc", "             ^"},
		{"a turn of direction is shown", "a⟦\u202eb⟧", "1:2", "a<U+202E>b", " ^^^^^^^^^"},
		{"a space without width is shown", "a⟦\u200bb⟧", "1:2", "a<U+200B>b", " ^^^^^^^^^"},
		{"a return within a line", "a\rb⟦c⟧", "1:4", "a<U+000D>bc", "          ^"},
		{"bytes that are not UTF-8", "a\xff⟦b⟧", "1:3", "a\ufffdb", "  ^"},
		{"160 columns are whole", long[:159] + "⟦x⟧", "1:160", long[:159] + "x", strings.Repeat(" ", 159) + "^"},
		{"long, at its begin", "⟦ab⟧" + long, "1:1", "ab" + long[:156] + "…", "^^"},
		{"long, at its end", long + "⟦ab⟧", "1:301", "…" + long[300-156:] + "ab", strings.Repeat(" ", 157) + "^^"},
		{"long, in the middle", long + "⟦ab⟧" + long, "1:301", "…" + long[300-78:] + "ab" + long[:78] + "…", strings.Repeat(" ", 79) + "^^"},
		{"long, the span longer", "x⟦" + long + "⟧x", "1:2", "…" + long[:158] + "…", " " + strings.Repeat("^", 158)},
		{"long beyond reach", strings.Repeat("é", 9000) + "⟦x⟧" + strings.Repeat("é", 9000), "1:9001",
			"…" + strings.Repeat("é", 79) + "x" + strings.Repeat("é", 78) + "…", strings.Repeat(" ", 80) + "^"},
	}
	for _, test := range tests {
		want := "a.md:" + test.place + ": warning, odd: odd thing\n    " + test.line + "\n    " + test.carets + "\n"
		if got := printed(t, Text{}, at(t, test.text)); got != want {
			t.Errorf("%s: got\n%swant\n%s(%q, %q)", test.name, got, want, got, want)
		}
	}
}

func TestTextWithoutSnippet(t *testing.T) {
	for name, text := range map[string]string{"empty line": "a\n⟦⟧\nb", "no data": "⟦⟧", "end of the file": "a\n⟦⟧", "CRLF": "a\r\n⟦\r\n⟧"} {
		got := printed(t, Text{}, at(t, text))
		if strings.Count(got, "\n") != 1 {
			t.Errorf("%s: printed a snippet:\n%s", name, got)
		}
	}
}

func TestTextHelpAndQuotes(t *testing.T) {
	p := at(t, "⟦a⟧")
	p.Span.File.Path = "x\x1b.md"
	p.Message = "bad \x1b]0;\a\nthing"
	p.Help = "One line.\n\nAnother\u202e."
	want := "x<U+001B>.md:1:1: warning, odd: bad <U+001B>]0;<U+0007><U+000A>thing\n    a\n    ^\n    One line.\n\n    Another<U+202E>.\n"
	if got := printed(t, Text{}, p); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// FuzzText holds the printing to what it promises of any problem whose span is
// within its file: at least one caret below a line that is shown, nothing that a
// terminal would obey, and no line out of bounds.
func FuzzText(f *testing.F) {
	for _, seed := range []string{"", "\ufeff", "a\tb\r\nc", "車軸\n🔧", "\x80\xf0\x9f\x94\n\xe2\x82", "e\u0301\u202e\x1b[2J", strings.Repeat("a\t", 200)} {
		f.Add([]byte(seed), 0, len(seed))
		f.Add([]byte(seed), len(seed)/2, 1)
	}
	f.Fuzz(func(t *testing.T, data []byte, start, length int) {
		file := source.NewFile("a.md", data)
		start = min(max(start, 0), len(file.Data))
		end := start + min(max(length, 0), len(file.Data)-start)
		span := file.Span(start, end)
		got := printed(t, Text{}, Problem{Check: "odd", Severity: Error, Span: span, Message: "odd thing", Help: string(data)})
		for _, r := range got {
			if r != '\n' && r != '\t' && unseen(r) {
				t.Fatalf("%q holds %U", got, r)
			}
		}
		line, carets := snippet(span)
		if line != "" && !strings.Contains(carets, "^") {
			t.Fatalf("no caret below %q", line)
		}
		if (line == "") != (file.Line(span.Begin().Line) == "") {
			t.Fatalf("line %q shown for %q", line, file.Line(span.Begin().Line))
		}
		if strings.Trim(carets, " \t^") != "" || strings.Contains(strings.TrimLeft(carets, " \t"), " ") {
			t.Fatalf("carets %q", carets)
		}
	})
}

// Below the help stands the line as the fix leaves it, as far as it fits.
func TestCorrected(t *testing.T) {
	file := source.NewFile("a.md", []byte("\tstage: é axel, "+strings.Repeat("long ", 60)+"\x1bend\nnext\n"))
	p := Problem{Check: "odd", Severity: Error, Span: file.Span(8, 15), Message: "odd", Fix: &source.Fix{Span: file.Span(11, 15), Text: "axle\x1b"}}
	got := printed(t, Text{}, p)
	if line := lastLine(got); !strings.HasPrefix(line, "    Corrected: stage: é axle<U+001B>, long long ") || !strings.HasSuffix(line, "…") {
		t.Errorf("corrected it is %q", line)
	}
	p.Fix.Span.End = int32(len(file.Data)) - 2 // over two lines
	if got := printed(t, Text{}, p); strings.Contains(got, "Corrected") {
		t.Errorf("two lines are corrected:\n%s", got)
	}
}

func lastLine(text string) string {
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	return lines[len(lines)-1]
}
