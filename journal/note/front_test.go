package note

import (
	"slices"
	"strings"
	"testing"

	"guidecoat/journal/source"
)

// frontCases are front matter as it may be typed: every sentence of the manual's
// section of that name. They also seed the fuzz targets.
var frontCases = []struct {
	name, data string
	fields     string
	faults     []string
}{
	// Opens with `---` alone on the first line, closes with the next at column 1.
	{name: "nothing at all", data: ""},
	{name: "no fence", data: "# Beam out\n"},
	{name: "one value", data: "---\ndate: 2026-04-11\n---\n", fields: "date=|2026-04-11|"},
	{name: "spaces that nobody sees behind a fence", data: "--- \ndate: 2026-04-11\n---\t \n", fields: "date=|2026-04-11|"},
	{name: "nothing between the fences", data: "---\n---\n"},
	{name: "the body's rules are no fences", data: "---\ndate: 2026-04-11\n---\na\n\n---\nstage: x\n---\n", fields: "date=|2026-04-11|"},
	{name: "an indented fence closes nothing", data: "---\ndate: 2026-04-11\n ---\nstage: paint\n---\n",
		fields: "date=|2026-04-11| stage=|paint|", faults: []string{"not-a-line 3:2-3:5 |---|"}},
	{name: "never closed", data: "---\ndate: 2026-04-11\ncost: 12.00 x\n\n# Beam out\n",
		fields: "date=|2026-04-11| cost=|12.00 x|", faults: []string{"unclosed-front-matter 1:1-1:4 |---|"}},
	{name: "closed by the last line without a newline", data: "---\ndate: 2026-04-11\n---", fields: "date=|2026-04-11|"},
	{name: "opened by the only line", data: "---", faults: []string{"unclosed-front-matter 1:1-1:4 |---|"}},

	// A byte order mark (uncounted in columns), CRLF, a missing last newline.
	{name: "byte order mark", data: "\ufeff---\ndate: 2026-04-11\n---\n", fields: "date=|2026-04-11|"},
	{name: "byte order mark, place of a fault", data: "\ufeff---\n: x\n---\n", faults: []string{"not-a-line 2:1-2:4 |: x|"}},
	{name: "CRLF", data: "---\r\ndate: 2026-04-11\r\ntime:\r\n  - 3h\r\n---\r\n# x\r\n", fields: "date=|2026-04-11| time=-|3h|"},
	{name: "CRLF at the very end", data: "---\r\ndate: 2026-04-11\r\n---", fields: "date=|2026-04-11|"},
	{name: "characters that are several bytes", data: "---\ntitle: Schweiß und Öl: Müh\n  zß: x\n---\n", fields: "title=|Schweiß und Öl: Müh|",
		faults: []string{"not-a-line 3:3-3:8 |zß: x|"}},

	// Blank lines; comments, whose first visible character is `#`.
	{name: "blank lines and comments", data: "---\n\n# a comment: yes\ndate: 2026-04-11\n   \n\t\n  # indented\n\t# by a tab\ntime:\n\n  - 3h\n  # between\n  - 2h\n---\n",
		fields: "date=|2026-04-11| time=-|3h|-|2h|"},
	{name: "a number sign in a value is no comment", data: "---\ntitle: rubbed down # by hand\ntime: 3h #320 grit\n---\n", fields: "title=|rubbed down # by hand| time=|3h #320 grit|"},
	{name: "a value may begin with one", data: "---\ntitle: #320 grit\ntime:\n  - #320 grit\n---\n", fields: "title=|#320 grit| time=-|#320 grit|"},

	// KEY: VALUE. A key ends at the first `: ` or at a `:` that ends the line.
	{name: "a colon in a value", data: "---\ntitle: knuckle: bent: left\n---\n", fields: "title=|knuckle: bent: left|"},
	{name: "a colon without a space ends no key", data: "---\na:b: c\n---\n", fields: "a:b=|c|"},
	{name: "no space behind the colon", data: "---\ntime:3h\n---\n", faults: []string{"not-a-line 2:1-2:8 |time:3h|"}},
	{name: "a tab behind the colon", data: "---\ntime:\t3h\n---\n", fields: "time=|3h|"},
	{name: "no colon", data: "---\njust words\n---\n", faults: []string{"not-a-line 2:1-2:11 |just words|"}},
	{name: "no key", data: "---\n: 3h\n---\n", faults: []string{"not-a-line 2:1-2:5 |: 3h|"}},
	{name: "a key of several words", data: "---\nbid increment: 25\n---\n", fields: "bid increment=|25|"},
	{name: "a space before the colon", data: "---\ndate : 2026-04-11\n---\n", fields: "date=|2026-04-11|"},
	{name: "trimmed", data: "---\ntitle:    Beam out \t\n---\n", fields: "title=|Beam out|"},
	{name: "a dash in a value", data: "---\ntitle: - x\n---\n", fields: "title=|- x|"},
	{name: "a word that begins with a dash", data: "---\n-x: y\n---\n", fields: "-x=|y|"},

	// One wholly in quotes loses them.
	{name: "double quotes", data: "---\ntitle: \"Beam: out\"\n---\n", fields: "title=|Beam: out|"},
	{name: "single quotes", data: "---\ntitle: '3:40'\n---\n", fields: "title=|3:40|"},
	{name: "quotes in an entry", data: "---\ntime:\n  - \"3h cutting; private\"\n---\n", fields: "time=-|3h cutting; private|"},
	{name: "not wholly in quotes", data: "---\ntitle: \"Beam\" out\nstage: an \"axle\"\n---\n", fields: "title=|\"Beam\" out| stage=|an \"axle\"|"},
	{name: "quotes of two sorts", data: "---\ntitle: \"Beam'\nstage: \"it's\"\n---\n", fields: "title=|\"Beam'| stage=|it's|",
		faults: []string{"stray-quotes 2:8-2:14 |\"Beam'|"}},
	{name: "two quoted words are not one", data: "---\ntitle: \"a\" and \"b\"\n---\n", fields: "title=|\"a\" and \"b\"|"},
	{name: "an inch mark", data: "---\ntitle: 3/4\"\nstage: \"\n---\n", fields: "title=|3/4\"| stage=|\"|"},
	{name: "nothing in quotes", data: "---\ntitle: \"\"\ntime:\n  - ''\n---\n", fields: "title= time=!|- ''|",
		faults: []string{"empty-entry 4:3-4:7 |- ''|", "empty-entry 2:1-2:6 |title|"}},

	// `KEY:` and below it `- LINE` or `NAME: LINE` entries, indented by spaces;
	// dashes may also stand at column 1; `- NAME: LINE` is allowed.
	{name: "dashes", data: "---\ntime:\n  - 3h\n    - 2h\n - 1h\n---\n", fields: "time=-|3h|-|2h|-|1h|"},
	{name: "dashes at column 1", data: "---\ntime:\n- 3h\n- 2h\nstage: paint\n---\n", fields: "time=-|3h|-|2h| stage=|paint|"},
	{name: "names", data: "---\nparts:\n  rear-beam: fitted\n  - hub: needed hub: left\n---\n", fields: "parts=+|rear-beam: fitted|-|hub: needed hub: left|"},
	{name: "a tab behind a dash", data: "---\ntime:\n  -\t3h\n---\n", fields: "time=-|3h|"},
	{name: "a dash that touches a word is no dash", data: "---\ntime:\n  -3h\n---\n", fields: "time=+|-3h|", faults: []string{"wrong-shape 3:3-3:6 |-3h|"}},
	{name: "entries below a value", data: "---\ntime: 3h\n  - 2h\n---\n", fields: "time=|3h|", faults: []string{"not-a-line 3:3-3:7 |- 2h|"}},
	{name: "one value, one line", data: "---\ntitle: Beam\n  out\n---\n", fields: "title=|Beam|", faults: []string{"not-a-line 3:3-3:6 |out|"}},
	{name: "an entry below no key", data: "---\n- 3h\n  x: y\n---\n", faults: []string{"not-a-line 2:1-2:5 |- 3h|", "not-a-line 3:3-3:7 |x: y|"}},

	// Repeated keys, tab indentation, an empty entry, an unclosed block are errors.
	{name: "a repeated key", data: "---\ntime: 3h\ntime: 2h\n---\n", fields: "time=|3h| time(again)=|2h|", faults: []string{"repeated-key 3:1-3:5 |time|"}},
	{name: "a repeated key with entries", data: "---\ntime:\n  - 3h\nstage: x\ntime:\n  - 2h\n---\n", fields: "time=-|3h| stage=|x| time(again)=-|2h|",
		faults: []string{"repeated-key 5:1-5:5 |time|"}},
	{name: "other dashes", data: "---\ntime:\n  – 3h\n  — 3h\n− 3h\n  • 3h\n  * 3h\n  –3h\nparts:\n  + a: b\n---\n", fields: "time=!|– 3h|!|— 3h|!|− 3h|!|• 3h|!|* 3h|+|–3h| parts=!|+ a: b|",
		faults: []string{"wrong-shape 3:3-3:7 |– 3h|", "wrong-shape 4:3-4:7 |— 3h|", "wrong-shape 5:1-5:5 |− 3h|", "wrong-shape 6:3-6:7 |• 3h|", "wrong-shape 7:3-7:7 |* 3h|", "wrong-shape 10:3-10:9 |+ a: b|", "wrong-shape 8:3-8:6 |–3h|"}},
	{name: "tab indentation", data: "---\ntime:\n\t- 3h\n  \t- 2h\n---\n", fields: "time=!|- 3h|!|- 2h|",
		faults: []string{"tab-indentation 3:1-3:2 |\t|", "tab-indentation 4:3-4:4 |\t|"}},
	{name: "an empty entry", data: "---\ntime:\n  -\n  - 3h\n  - \n---\n", fields: "time=!|-|-|3h|!|-|", faults: []string{"empty-entry 3:3-3:4 |-|", "empty-entry 5:3-5:4 |-|"}},
	{name: "an empty key", data: "---\ntime:\nstage: x\n---\n", fields: "time= stage=|x|", faults: []string{"empty-entry 2:1-2:5 |time|"}},
	{name: "an empty last key", data: "---\ntime:\n---\n", fields: "time=", faults: []string{"empty-entry 2:1-2:5 |time|"}},
	{name: "a key with comments only", data: "---\ntime:\n  # 3h\n---\n", fields: "time=", faults: []string{"empty-entry 2:1-2:5 |time|"}},

	// Not UTF-8: the first bad byte of a line is named, the line is not used.
	{name: "a stray byte", data: "---\ndate: 2026-04-11\ntitle: na\xefve x\xff\n---\nbo\xffdy\n", fields: "date=|2026-04-11|",
		faults: []string{"not-utf8 3:10-3:11 |\xef|", "not-utf8 5:3-5:4 |\xff|"}},
	{name: "a stray byte in an entry", data: "---\ntime:\n  - 3h \xff\n  - 2h\n---\n", fields: "time=!|- 3h \xff|-|2h|", faults: []string{"not-utf8 3:8-3:9 |\xff|"}},
}

func TestFrontMatter(t *testing.T) {
	for _, c := range frontCases {
		n := readNote(anyKeys(c.data), c.data)
		if got := fieldsOf(n); got != c.fields {
			t.Errorf("%s: fields %s\nwant %s", c.name, got, c.fields)
		}
		wantFaults(t, c.name, n, c.faults...)
	}
}

// anyKeys are kinds for every key of some front matter, so that only its form is judged.
func anyKeys(data string) []*Kind {
	var kinds []*Kind
	for _, f := range readNote(nil, data).Fields {
		switch f.Key {
		case "time":
			kinds = append(kinds, &Kind{Key: f.Key, Shape: Many})
		case "parts":
			kinds = append(kinds, &Kind{Key: f.Key, Shape: Named})
		default:
			kinds = append(kinds, &Kind{Key: f.Key})
		}
	}
	return kinds
}

// A value stays the text that was typed, and its span is exactly that text.
func TestValuesStayAsTyped(t *testing.T) {
	for _, value := range []string{
		"2026-04-11", "no", "yes", "3:40", "0123", "#320 grit", "a # b", "a: b", "null", "~", "1e3", "12.10", "1_000",
		"[a, b]", "{a: b}", "*x", "&x y", "!x", "|", ">", "%x", "@x", "`x`", "- x", "?", "a, b", "\\n", "é – ü",
	} {
		for _, c := range []struct{ name, data string }{
			{"a key", "---\ntitle: " + value + "\n---\n"},
			{"an entry", "---\ntitle:\n  - " + value + "\n---\n"},
			{"a named entry", "---\ntitle:\n  name: " + value + "\n---\n"},
			{"a dashed name", "---\r\ntitle:\r\n- name: " + value + "\r\n---\r\n"},
		} {
			shape := One
			if strings.Contains(c.data, "name") {
				shape = Named
			} else if strings.Contains(c.data, "- "+value) {
				shape = Many
			}
			n := readNote([]*Kind{{Key: "title", Shape: shape}}, c.data)
			if len(n.Lines) != 1 {
				t.Errorf("%s: %q is read as %d lines; %q", c.name, value, len(n.Lines), faultsOf(n))
				continue
			}
			l := n.Lines[0]
			if l.Text.S != value || l.Text.Whole().Text() != value || l.Bad {
				t.Errorf("%s: %q is read as %q from %q", c.name, value, l.Text.S, l.Text.Whole().Text())
			}
		}
	}
}

func TestNamesOfEntries(t *testing.T) {
	for _, c := range []struct {
		name, data string
		lines      string // NAME=TEXT, those that can be used
		lost       int
		faults     []string
	}{
		{name: "plain", data: "parts:\n  hub: fitted\n  ring: needed", lines: "hub=fitted ring=needed"},
		{name: "a name ends at the first colon and space", data: "parts:\n  hub: needed hub: left", lines: "hub=needed hub: left"},
		{name: "a colon in a name", data: "parts:\n  a:b: needed", lines: "a:b=needed"},
		{name: "quotes", data: "parts:\n  hub: \"needed: left\"\n  - 'ring: needed'", lines: "hub=needed: left ring=needed"},
		{name: "twice with dashes", data: "parts:\n  - hub: ordered\n  - hub: fitted\n  - hub: returned", lines: "hub=ordered hub=fitted hub=returned"},
		{name: "twice without", data: "parts:\n  hub: ordered\n  hub: fitted", lines: "hub=ordered", lost: 1, faults: []string{"repeated-name 4:3-4:6 |hub|"}},
		{name: "a dash before the second only", data: "parts:\n  hub: ordered\n  - hub: fitted", lines: "hub=ordered", lost: 1, faults: []string{"repeated-name 4:5-4:8 |hub|"}},
		{name: "no name", data: "parts:\n  fitted\n  - needed", lost: 2,
			faults: []string{"wrong-shape 3:3-3:9 |fitted|", "wrong-shape 4:5-4:11 |needed|"}},
		{name: "nothing behind a name", data: "parts:\n  hub:\n  ring: ''", lost: 2,
			faults: []string{"empty-entry 3:3-3:6 |hub|", "empty-entry 4:3-4:7 |ring|"}},
		{name: "a name on the key's own line", data: "parts: hub: fitted", lines: "hub=fitted"},
		{name: "no dash where lines are expected", data: "time:\n  3h\n  - 2h", lines: "=2h", lost: 1, faults: []string{"wrong-shape 3:3-3:5 |3h|"}},
		{name: "a list where one value is expected", data: "title:\n  - a\n  - b", lost: 2, faults: []string{"wrong-shape 3:5-3:6 |a|"}},
		{name: "an unknown key", data: "tiem:\n  - 2h\n  - 3h\ncsot: 3", lost: 3, faults: []string{"unknown-key 2:1-2:5 |tiem|", "unknown-key 5:1-5:5 |csot|"}},
		{name: "lines of a repeated key", data: "time: 2h\ntime:\n  - 3h\n  - 4h", lines: "=2h", lost: 2, faults: []string{"repeated-key 3:1-3:5 |time|"}},
		{name: "lines that cannot be used", data: "time:\n\t- 2h\n  -\n  - 3h\n", lines: "=3h", lost: 2,
			faults: []string{"tab-indentation 3:1-3:2 |\t|", "empty-entry 4:3-4:4 |-|"}},
	} {
		n := readNote([]*Kind{{Key: "parts", Shape: Named}, {Key: "time", Shape: Many}, {Key: "title"}}, "---\n"+c.data+"\n---\n")
		var lines []string
		for _, l := range n.Lines {
			lines = append(lines, l.Name+"="+l.Text.S)
			if l.NameSpan().Text() != l.Name || l.Text.Whole().Text() != l.Text.S {
				t.Errorf("%s: the spans of %q hold %q and %q", c.name, l.Text.S, l.NameSpan().Text(), l.Text.Whole().Text())
			}
		}
		if got := strings.Join(lines, " "); got != c.lines || n.Lost != c.lost {
			t.Errorf("%s: lines %q, %d lost; want %q, %d", c.name, got, n.Lost, c.lines, c.lost)
		}
		wantFaults(t, c.name, n, c.faults...)
	}
}

func TestUnknownKeyKnowsTheKeysThereAre(t *testing.T) {
	n := sessionOf("date: 2026-04-11", "odometre: 91252 mi")
	for _, f := range n.Faults {
		if f.Flaw == UnknownKey && f.Word == "odometre" && len(f.Near) == len(Session) {
			return
		}
	}
	t.Errorf("no fault with the keys of a session: %q", faultsOf(n))
}

func TestTooLarge(t *testing.T) {
	data := "---\ndate: 2026-04-11\n---\n" + strings.Repeat("x", MaxSize)
	n := readNote(Session, data)
	if !n.Unread || n.Doc() != nil || len(n.Fields) != 0 {
		t.Errorf("a note over MaxSize is read")
	}
	wantFaults(t, "too large", n, "too-large 1:1-1:1 ||")
	if n = readNote(Session, data[:MaxSize]); n.Unread {
		t.Error("a note of MaxSize is not read")
	}
}

// An unclosed block says so once, and keeps the keys that tell what file it is.
func TestUnclosed(t *testing.T) {
	n := readNote(Session, "---\ndate: 2026-04-11\ntime:\n  - 3h\n\nNot a line here\nstage: x\n")
	if !n.Unread || n.Field("date") == nil || n.Field("time") == nil || n.Field("stage") != nil || n.Lost != 1 || len(n.Lines) != 0 {
		t.Errorf("unread %v, fields %s, %d lost, %d lines", n.Unread, fieldsOf(n), n.Lost, len(n.Lines))
	}
}

// Curly quotes around a whole value stay in it, which is said unless it is in error anyway.
func TestCurlyQuotes(t *testing.T) {
	for value, said := range map[string]bool{
		"title: “Beam out”": true, "title: ‘Beam out’": true, "title: „Beam out“": true, "title: »Beam out«": true, "title: «Beam out»": true, "title: ”Beam out”": true,
		"title: \"Beam out\"": false, "title: “Beam” and “axle”": false, "title: the “beam”": false, "title: “": false, "title: “”": false, "stage: “body”": true,
		"cost: 9.00 “seals”": false, "remaining:\n  body: “12”": false, "parts:\n  - “hose: needed hose”": false,
	} {
		n := sessionOf(value)
		if got := slices.ContainsFunc(n.Faults, func(f source.Fault) bool { return f.Flaw == StrayQuotes }); got != said {
			t.Errorf("%s: said %t", value, got)
		}
		for _, l := range n.Lines {
			if said && (l.Bad || !strings.Contains(l.Text.S, "B") && !strings.Contains(l.Text.S, "body")) {
				t.Errorf("%s: %q, bad %t", value, l.Text.S, l.Bad)
			}
		}
	}
}

// So does a straight quote at one end, but for inches.
func TestLoneQuotes(t *testing.T) {
	for value, why := range map[string]string{
		`title: "Beam out`: "is not closed", `title: Beam out"`: "is not opened", `time: 3h beam"`: "is not opened",
		`title: "Beam out"`: "", `title: "Beam" out`: "", `title: Beam "out"`: "", `title: wheels of 17"`: "", `title: the 5" gap`: "", `title: 'Tis done`: "", `title: "`: "",
	} {
		got := ""
		for _, f := range sessionOf(value).Faults {
			if f.Flaw == StrayQuotes {
				got = f.Why
			}
		}
		if got != why {
			t.Errorf("%s: %q, want %q", value, got, why)
		}
	}
}
