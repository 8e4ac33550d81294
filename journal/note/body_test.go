package note

import (
	"fmt"
	"guidecoat/journal/source"
	"slices"
	"strings"
	"testing"

	"github.com/yuin/goldmark/ast"
)

// scanOf shows a scan as `engine: C0035 |left front|, P0143-1F ||`.
func scanOf(s *Scan) string {
	var codes []string
	if s.NoFaults {
		codes = append(codes, "none")
	}
	for _, c := range s.Codes {
		codes = append(codes, fmt.Sprintf("%s |%s|", c.Code, c.Words))
		if c.Span.Text() != c.Code {
			codes = append(codes, "stands at "+c.Span.Text())
		}
	}
	return s.Name + ": " + strings.Join(codes, ", ")
}

// Codes have the structure of SAE J2012 / ISO 15031-6; the examples are those of
// two-byte codes of SAE J1979, written out.
var scanCases = []struct {
	name, body string
	want       []string
	lost       int
	faults     []string
}{
	{name: "codes", body: "```scan abs\nC0035 left front wheel speed, stored\nC0123\n```\n", want: []string{"abs: C0035 |left front wheel speed, stored|, C0123 ||"}},
	{name: "every letter", body: "```scan engine\nP0143\nP0D14\nB1234\nU0100\nU2103\nP3FFF\n```\n", want: []string{"engine: P0143 ||, P0D14 ||, B1234 ||, U0100 ||, U2103 ||, P3FFF ||"}},
	{name: "a failure type", body: "```scan body-left\nB1234-1F: open\nB1235-00, short\n```\n", want: []string{"body-left: B1234-1F |open|, B1235-00 |short|"}},
	{name: "no faults", body: "```scan abs\nno faults\n```\n", want: []string{"abs: none"}},
	{name: "No faults", body: "~~~ scan abs\n\n  No Faults  \n\n~~~\n", want: []string{"abs: none"}},
	{name: "never closed", body: "```scan abs\nC0035\n", want: []string{"abs: C0035 ||"}},
	{name: "in an item and a quotation", body: "> ```scan abs\n> C0035 x\n> ```\n\n- a\n\n  ```scan engine\n  P0143\n  ```\n", want: []string{"abs: C0035 |x|", "engine: P0143 ||"}},
	{name: "CRLF", body: "```scan abs\r\nC0035 x\r\n```\r\n", want: []string{"abs: C0035 |x|"}},
	{name: "other blocks", body: "```\nC0035\n```\n\n```scanner abs\nC0035\n```\n\n```text\nx\n```\n\n    scan abs\n", faults: []string{"stray-codes 5:1-5:6 |C0035|"}},
	{name: "codes of no such structure", body: "```scan abs\nX0035 a\nC4035 b\nC003 c\nC0035-1 d\nC0G35\nc0035 e\nP00355\n```\n", want: []string{"abs: "}, lost: 7,
		faults: []string{"bad-code 5:1-5:6 |X0035|", "bad-code 6:1-6:6 |C4035|", "bad-code 7:1-7:5 |C003|", "bad-code 8:1-8:8 |C0035-1|", "bad-code 9:1-9:6 |C0G35|",
			"bad-code 10:1-10:6 |c0035|", "bad-code 11:1-11:7 |P00355|"}},
	{name: "no faults and codes", body: "```scan abs\nno faults\nC0035\n```\n\n```scan abs\nC0035\nno faults\n```\n", want: []string{"abs: none", "abs: none, C0035 ||"}, lost: 2,
		faults: []string{"bad-code 6:1-6:6 |C0035|", "bad-code 11:1-11:10 |no faults|"}},
	{name: "no name", body: "```scan\nC0035\n```\n", lost: 1, faults: []string{"bad-scan 4:4-4:8 |scan|"}},
	{name: "not a name", body: "```scan ABS unit\nC0035\n```\n", lost: 1, faults: []string{"bad-scan 4:9-4:17 |ABS unit|"}},
	{name: "nothing in it", body: "```scan abs\n\n```\n", lost: 1, faults: []string{"bad-scan 4:4-4:12 |scan abs|"}},
}

func TestScans(t *testing.T) {
	for _, c := range scanCases {
		n := bodyOf(c.body)
		var got []string
		for _, s := range n.Scans {
			got = append(got, scanOf(s))
		}
		if !slices.Equal(got, c.want) || n.Lost != c.lost {
			t.Errorf("%s: read as %q, %d lost; want %q, %d", c.name, got, n.Lost, c.want, c.lost)
		}
		wantFaults(t, c.name, n, c.faults...)
	}
}

func TestBands(t *testing.T) {
	for _, c := range []struct {
		text, want string // bands as FIXED+PERCENT%<=LIMIT
		fault      string
	}{
		{text: "75 to 500, 130 to 1000, 195 to 2000, 12% above", want: "75+0%<=500 130+0%<=1000 195+0%<=2000 0+12%"},
		{text: "120", want: "120+0%"},
		{text: "4.5%", want: "0+4.5%"},
		{text: "£120.50", want: "120.5+0%"},
		{text: "75 to 1,250, 1,300 above", want: "75+0%<=1250 1300+0%"},
		{text: "5% to 500,  7.5 % to 1000, 80 above", want: "0+5%<=500 0+7.5%<=1000 80+0%"},
		{text: "0 to 500, 5% above", want: "0+0%<=500 0+5%"},
		{text: "75 to 500", fault: "bad-fee 3:12-3:21 |75 to 500|"},
		{text: "75 to 500, 130 to 400, 12% above", fault: "bad-fee 3:23-3:33 |130 to 400|"},
		{text: "75 to 500, 130 to 500, 12% above", fault: "bad-fee 3:23-3:33 |130 to 500|"},
		{text: "75 to 500, 130", fault: "bad-fee 3:23-3:26 |130|"},
		{text: "75 to 500, 12% above, 130 to 1000", fault: "bad-fee 3:34-3:45 |130 to 1000|"},
		{text: "12% above", fault: "bad-fee 3:12-3:21 |12% above|"},
		{text: "75 to 500,130 above", fault: "bad-fee 3:18-3:31 |500,130 above|"},
		{text: "75 to, 12% above", fault: "bad-fee 3:15-3:17 |to|"},
		{text: "75 to lots, 12% above", fault: "bad-fee 3:18-3:22 |lots|"},
		{text: "some to 500, 12% above", fault: "bad-fee 3:12-3:16 |some|"},
		{text: "75 to 500, 120% above", fault: "bad-fee 3:23-3:27 |120%|"},
		{text: "75 EUR to 500, 12% above", fault: "bad-fee 3:15-3:18 |EUR|"},
		{text: "75 to 500, , 12% above", fault: "bad-fee 3:12-3:34 |75 to 500, , 12% above|"},
	} {
		n := readNote(Card, "---\nfees:\n  auction: "+c.text+"\n---\n")
		var want []string
		if c.fault != "" {
			want = append(want, c.fault)
		}
		wantFaults(t, c.text, n, want...)
		var got []string
		list, _ := n.Lines[0].Head.([]Band)
		for _, b := range list {
			s := b.Fixed.String() + "+" + b.Percent.String() + "%"
			if !b.Open {
				s += "<=" + b.UpTo.String()
			}
			got = append(got, s)
		}
		if s := strings.Join(got, " "); c.fault == "" && s != c.want {
			t.Errorf("%s: read as %s, want %s", c.text, s, c.want)
		}
	}
}

// The body's nodes stand in the whole file: front matter is passed over, not cut off.
func TestBodyKeepsItsPlaceInTheFile(t *testing.T) {
	front := map[string]string{
		"none":              "",
		"some":              "---\ndate: 2026-04-11\ntime:\n  - 3h\n---\n",
		"long":              "---\ndate: 2026-04-11\n" + strings.Repeat("# a comment of a line\n", 4000) + "---\n",
		"no YAML":           "---\ndate: 2026-04-11\ntitle: a: b: [c\n\tx\n---\n",
		"with dashes":       "---\ntime:\n- 3h\n- 2h\n-\n----\n---  \n",
		"with CRLF":         "---\r\ndate: 2026-04-11\r\n---\r\n",
		"with a mark":       "\ufeff---\ndate: 2026-04-11\n---\n",
		"empty":             "---\n---\n",
		"of several bytes":  "---\ntitle: Öl\n---\n",
		"with YAML's dots":  "---\ntitle: x\n...\ny: z\n---\n",
		"with a stray byte": "---\ntitle: \xff\n---\n",
	}
	const body = "# Beam *out* &amp; in\n\nProse with [a link](a%20b.pdf \"t\") and ![a picture](p.jpg).\n\n- [ ] job a-b: x\n\n---\n\n## Öl\n"
	for name, f := range front {
		n := readNote(Session, f+body)
		if n.Heading != "Beam out & in" {
			t.Errorf("%s: heading %q", name, n.Heading)
		}
		if len(n.Items) != 1 || n.Items[0].Text.Whole().Text() != "job a-b: x" {
			t.Errorf("%s: items %v", name, n.Items)
		}
		if len(n.Refs) != 2 || n.Refs[0].Span.Text() != "[a link](a%20b.pdf \"t\")" || n.Refs[1].Span.Text() != "![a picture](p.jpg)" ||
			n.Refs[0].Target != "a%20b.pdf" || n.Refs[1].Alt != "a picture" || !n.Refs[1].Picture || n.Refs[0].Picture {
			t.Errorf("%s: refs %+v", name, n.Refs)
		}
		shown := textOf(n)
		if want := "Beam out & in|Prose with a link and a picture.|job a-b: x||Öl|"; shown != want {
			t.Errorf("%s: the body shows %q, want %q", name, shown, want)
		}
	}
}

// textOf is the text of a body's blocks.
func textOf(n *Note) string {
	var b strings.Builder
	for node := n.Doc().FirstChild(); node != nil; node = node.NextSibling() {
		b.WriteString(PlainText(node, n.File.Data) + "|")
	}
	return b.String()
}

func TestHeadingAndPlainWords(t *testing.T) {
	for body, want := range map[string]string{
		"no heading\n":                         "",
		"## Second *level*\n\n# First\n":       "Second level",
		"Beam out\n========\n":                 "Beam out",
		"> # Quoted\n":                         "Quoted",
		"# `code` and [link](x) <b>y</b>\n":    "code and link y",
		"# a <!-- secret --> b\n":              "a  b",
		"#\n\n# Later\n":                       "Later",
		"# a\\*b &lt; &#33;\n":                 "a*b < !",
		"# <https://example.org/x>\n":          "https://example.org/x",
		"# ~~struck~~ ![alt](p.jpg \"x\") é\n": "struck alt é",
	} {
		if n := bodyOf(body); n.Heading != want {
			t.Errorf("%q: heading %q, want %q", body, n.Heading, want)
		}
	}
	for words, want := range map[string]string{
		"plain": "plain", "**bold** _it_": "bold it", "run `a; b`": "run a; b", "a <!-- x --> b": "a  b", "[t](u)": "t", "1 < 2": "1 < 2", "5\\*": "5*", "a_b": "a_b",
	} {
		if got := PlainWords(words); got != want {
			t.Errorf("PlainWords(%q) = %q, want %q", words, got, want)
		}
	}
}

// What the dialect has: tables, strikethrough and task lists; no bare links.
func TestDialect(t *testing.T) {
	n := bodyOf("| a | b |\n|---|--:|\n| 1 | 2 |\n\n~~x~~ https://example.org\n")
	var kinds []string
	_ = ast.Walk(n.Doc(), func(node ast.Node, entering bool) (ast.WalkStatus, error) {
		if entering {
			kinds = append(kinds, node.Kind().String())
		}
		return ast.WalkContinue, nil
	})
	for _, want := range []string{"Table", "TableHeader", "TableRow", "Strikethrough"} {
		if !slices.Contains(kinds, want) {
			t.Errorf("no %s in %v", want, kinds)
		}
	}
	if slices.Contains(kinds, "AutoLink") {
		t.Error("a bare address is a link")
	}
}

// Programs that read front matter as YAML are told of only where they read it otherwise.
func TestNotPortable(t *testing.T) {
	for _, c := range []struct{ front, want string }{
		{"date: 2026-04-11", ""},
		{"cost: 12.10 grease", ""},
		{"x: 12.10", ""}, {"x: 12.0", ""}, {"x: 12", ""}, {"x: 1250000000", ""}, {"x: 0.5", ""}, {"x: -0.50", ""},
		{"time:\n  - 3h40 beam out; hands 2\n  - \"3h\"", ""},
		{"parts:\n  hub: needed hub, left\n  - ring: fitted", "they stop"},
		{"parts:\n  hub: needed hub, left\n  ring: fitted", ""},
		{"parts:\n  - hub: ordered\n  - hub: fitted", ""},
		{"x: 3:40", ""}, // yaml.v2 leaves it alone; readers of all of YAML 1.1 make 220 of it
		{"x: 'it is'", ""}, {"x: \"3:40\"", ""}, {"x: Öl", ""}, {"x: a, b", ""}, {"x: £64", ""},
		{"# a comment\nx: 1\n\n# another", ""},

		{"x: no", "as \"false\""}, {"x: yes", "as \"true\""}, {"x: on", "as \"true\""}, {"x: ~", "as \"\""}, {"x: null", "as \"\""},
		{"x: 0123", "as \"83\""}, {"x: 0x1f", "as \"31\""}, {"x: 1_000", "as \"1000\""},
		{"x: 12 # inches", "as \"12\""}, {"x: 3h #320 grit", "as \"3h\""}, {"x: #320 grit", "as \"\""},
		{"time:\n  - 3h #320 grit", "as \"3h\""}, {"parts:\n  hub: fitted # left", "as \"hub: fitted\""},
		{"x: a: b", "they stop"}, {"x: knuckle: bent: left", "they stop"},
		{"x: [a, b]", "as \"a, b\""}, {"x: [a]", "as \"a\""}, {"x: {a: b}", "as \"a: b\""}, {"x: *y", "they stop"}, {"x: @y", "they stop"}, {"x: %y", "they stop"},
		{"x: \"a\" b", "they stop"}, {"x: !y z", "as \"z\""}, {"x: &y z", "as \"z\""},
		{"x: |", "as \"\""},
		{"x: \"a\\tb\"", "as \"a\tb\""},
	} {
		got := ""
		switch d := sessionOf(c.front).NotPortable(); {
		case d == nil:
		case d.Stops != "":
			got = "they stop"
		default:
			got = "as \"" + d.Read + "\""
		}
		if got != c.want {
			t.Errorf("%q: %q, want %q", c.front, got, c.want)
		}
	}
}

// The place of what is not portable is where the builder typed it.
func TestNotPortablePlace(t *testing.T) {
	for _, c := range []struct{ data, want string }{
		{"---\ndate: 2026-04-11\nx: no\n---\n", "3:4-3:6 |no|"},
		{"---\ndate: 2026-04-11\nx: a: b\n---\n", "3:1-3:8 |x: a: b|"},
		{"---\ntime:\n  - 3h\n  - 3h # x\n---\n", "4:5-4:11 |3h # x|"},
		{"---\nparts:\n  hub: fitted # x\n---\n", "3:3-3:18 |hub: fitted # x|"},
	} {
		d := readNote(nil, c.data).NotPortable()
		if d == nil {
			t.Errorf("%q: nothing, want %s", c.data, c.want)
		} else if got := faultLine(source.Fault{Span: d.At}); got != " "+c.want {
			t.Errorf("%q: %q, want %s", c.data, got, c.want)
		}
	}
}
