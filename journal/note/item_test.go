package note

import (
	"slices"
	"strings"
	"testing"
)

// itemOf shows a task-list item as `[x] again KIND #ID |words| clause=value; …`.
func itemOf(it *Item) string {
	s := "[ ]"
	if it.Ticked {
		s = "[x]"
	}
	if it.Again {
		s += " again"
	}
	if it.Kind != "" {
		s += " " + it.Kind
	}
	if it.ID != "" {
		s += " #" + it.ID
	}
	return strings.TrimSpace(s + " " + lineOf(it.Line))
}

// itemCases are bodies with task-list items: every form of the manual's section
// "Snags". The body begins on line 4.
var itemCases = []struct {
	name, body string
	want       []string
	faults     []string
}{
	{name: "opens", body: "- [ ] temporary exhaust-hanger: hung on wire until the rubber comes; major; waits for exhaust-rubber\n",
		want: []string{"[ ] temporary #exhaust-hanger |hung on wire until the rubber comes| major; waits for=exhaust-rubber"}},
	{name: "clears", body: "- [x] tow-socket: rewired and tried with a lamp board\n", want: []string{"[x] #tow-socket |rewired and tried with a lamp board|"}},
	{name: "clears, capital X", body: "- [X] tow-socket: done\n", want: []string{"[x] #tow-socket |done|"}},
	{name: "a remark", body: "- [ ] tow-socket: still dead\n", want: []string{"[ ] #tow-socket |still dead|"}},
	{name: "again", body: "- [ ] again tow-socket: dead once more; dangerous\n", want: []string{"[ ] again #tow-socket |dead once more| dangerous"}},
	{name: "Again", body: "- [ ] Again tow-socket: x\n", want: []string{"[ ] again #tow-socket |x|"}},
	{name: "opened and cleared", body: "- [x] job tow-socket: rewired\n", want: []string{"[x] job #tow-socket |rewired|"}},
	{name: "other words", body: "- [ ] sweep the floor\n- [x] order coffee; minor\n", want: []string{"[ ] |sweep the floor|", "[x] |order coffee| minor"}},
	{name: "any case of the kind", body: "- [ ] TEMPORARY a-b: x\n- [ ] Job a-b: x\n- [ ] Inspect: x\n- [ ] DECIDE: x\n- [ ] recheck a-b: x\n",
		want: []string{"[ ] temporary #a-b |x|", "[ ] job #a-b |x|", "[ ] inspect |x|", "[ ] decide |x|", "[ ] recheck #a-b |x|"}},
	{name: "a kind without an id", body: "- [ ] temporary: cable tie on the loom\n", want: []string{"[ ] temporary |cable tie on the loom|"}},

	// What stands before the first colon decides, if it is one or two such words.
	{name: "a colon in a time of day", body: "- [ ] look at 19:30 when it is dark\n- [ ] at 19:30\n- [ ] ring 19:30\n",
		want: []string{"[ ] |look at 19:30 when it is dark|", "[ ] |at 19:30|", "[ ] |ring 19:30|"}},
	{name: "several words before the colon", body: "- [ ] left rear hub: look again\n- [ ] job for tow-socket: x\n",
		want: []string{"[ ] |left rear hub: look again|", "[ ] job |for tow-socket: x|"}},
	{name: "a word without a hyphen is no id", body: "- [ ] hub: look again\n- [ ] job hub: look\n", want: []string{"[ ] |hub: look again|", "[ ] job |hub: look|"}},
	{name: "a colon in the text", body: "- [ ] job a-b: ask: how; minor\n", want: []string{"[ ] job #a-b |ask: how| minor"}},
	{name: "no space behind the colon", body: "- [ ] job a-b:x\n", want: []string{"[ ] job #a-b |x|"}},
	{name: "no colon", body: "- [x] tow-socket\n- [ ] temporary exhaust-hanger\n- [ ] temporary\n- [ ] job to do\n- [x] tow-socket; private\n",
		want: []string{"[x] #tow-socket", "[ ] temporary #exhaust-hanger", "[ ] temporary", "[ ] job |to do|", "[x] #tow-socket private"}},
	{name: "nothing", body: "- [ ] \n- [x] :\n- [ ] ; minor\n", want: []string{"[ ]", "[x] |:|", "[ ] minor"}},
	{name: "capitals in the id of a kind", body: "- [ ] job Tow-Socket: x\n", want: []string{"[ ] job #tow-socket |x|"},
		faults: []string{"bad-id 4:11-4:21 |Tow-Socket|"}},
	{name: "capitals in an id", body: "- [ ] Tow-Socket: x\n", want: []string{"[ ] |Tow-Socket: x|"}},
	{name: "a letter or two from a kind", body: "- [ ] temporery a-b: x\n- [ ] inspct: x\n- [ ] agian a-b: x\n- [ ] jobs a-b: x\n",
		want:   []string{"[ ] temporary #a-b |x|", "[ ] inspect |x|", "[ ] again #a-b |x|", "[ ] job #a-b |x|"},
		faults: []string{"near-kind 4:7-4:16 |temporery|", "near-kind 5:7-5:13 |inspct|", "near-kind 6:7-6:12 |agian|", "near-kind 7:7-7:11 |jobs|"}},
	{name: "a kind cut short before an id", body: "- [ ] temp a-b: x\n- [ ] Temp. a-b: x\n- [ ] tmp a-b: x\n- [ ] insp a-b: x\n- [x] dec a-b: x\n",
		want:   []string{"[ ] temporary #a-b |x|", "[ ] temporary #a-b |x|", "[ ] temporary #a-b |x|", "[ ] inspect #a-b |x|", "[x] decide #a-b |x|"},
		faults: []string{"near-kind 7:7-7:11 |insp|", "near-kind 8:7-8:10 |dec|"}},
	{name: "short words before no id", body: "- [ ] temp: 90 degrees at idle\n- [ ] try a-b: x\n- [ ] te a-b: x\n- [ ] temp hose: x\n- [ ] temp a-b x\n",
		want: []string{"[ ] temporary |90 degrees at idle|", "[ ] |try a-b: x|", "[ ] |te a-b: x|", "[ ] temporary |hose: x|", "[ ] temporary |a-b x|"}},
	{name: "words like a kind in plain words", body: "- [ ] jobs for tomorrow\n- [ ] inspector comes at 9\n", want: []string{"[ ] |jobs for tomorrow|", "[ ] |inspector comes at 9|"}},

	{name: "comments around the id", body: "- [ ] temporary <!-- so: far --> a-b: x\n- [x] <!-- y --> a-b <!-- z -->: w\n- [ ] <!-- y --> sweep\n",
		want: []string{"[ ] temporary #a-b |x|", "[x] #a-b |w|", "[ ] |sweep|"}},

	// Plain words first: what everybody would read in one way.
	{name: "a kind in parentheses, a severity in capitals", body: "- [ ] exhaust-strap (temp): wire\n- [ ] DANGEROUS no anchor\n- [ ] Major service due\n",
		want: []string{"[ ] temporary #exhaust-strap |wire|", "[ ] |no anchor| dangerous", "[ ] |Major service due|"}},
	{name: "other words for a temporary fix", body: "- [ ] bodge on the exhaust\n- [ ] provisional a-b: x\n- [ ] the bodge on the exhaust\n", want: []string{"[ ] |bodge on the exhaust|", "[ ] |provisional a-b: x|", "[ ] |the bodge on the exhaust|"}, faults: []string{"near-kind 4:7-4:12 |bodge|", "near-kind 5:7-5:18 |provisional|"}},
	{name: "temp without a colon", body: "- [ ] TEMP sliding door tied shut\n- [ ] temp - bin bag\n- [ ] tmp: primer only\n- [ ] **temporary** cable tie\n- [ ] temp, wire\n",
		want: []string{"[ ] temporary |sliding door tied shut|", "[ ] temporary |bin bag|", "[ ] temporary |primer only|", "[ ] temporary |cable tie|", "[ ] temporary |wire|"}},
	{name: "temp of temperature", body: "- [ ] temp gauge reads low\n- [ ] temp sensor: fit the new one\n- [ ] Temp light on\n- [ ] temporary light on\n- [ ] temp-sensor: order\n",
		want: []string{"[ ] |temp gauge reads low|", "[ ] |temp sensor: fit the new one|", "[ ] |Temp light on|", "[ ] temporary |light on|", "[ ] #temp-sensor |order|"}},
	{name: "other kinds without a colon", body: "- [ ] decide carpet: dry or renew\n- [ ] Inspect the seal; major\n- [ ] again the same\n",
		want: []string{"[ ] decide |carpet: dry or renew|", "[ ] inspect |the seal| major", "[ ] |again the same|"}},
	{name: "id and kind in either order", body: "- [ ] ex-hanger temporary: wire\n- [ ] ex-hanger temp\n- [ ] tow-socket again: dead\n- [ ] temporary: ex-hanger: wire\n",
		want: []string{"[ ] temporary #ex-hanger |wire|", "[ ] temporary #ex-hanger", "[ ] again #tow-socket |dead|", "[ ] temporary #ex-hanger |wire|"}},
	{name: "severities in words", body: "- [ ] (dangerous) brake pipe\n- [ ] major: ABS light\n- [ ] temp (major) a-b: x\n- [ ] (Major) temporary a-b: x\n- [ ] a-b (minor): x\n- [ ] brake pipe weeps (dangerous)\n- [ ] temp (major) wire\n- [ ] x (major) y\n- [ ] (dangerous): x\n",
		want: []string{"[ ] |brake pipe| dangerous", "[ ] |ABS light| major", "[ ] temporary #a-b |x| major", "[ ] temporary #a-b |x| major", "[ ] #a-b |x| minor", "[ ] |brake pipe weeps| dangerous",
			"[ ] temporary |wire| major", "[ ] |x (major) y| major", "[ ] |x| dangerous"}},
	{name: "two severities", body: "- [ ] (major) a-b: x; minor\n", want: []string{"[ ] #a-b |x| major"}, faults: []string{"repeated-clause 4:23-4:28 |minor|"}},
	{name: "words of severity that are words", body: "- [ ] major works on the sill\n- [ ] (minor, I think) scratch\n- [ ] minor\n", want: []string{"[ ] |major works on the sill|", "[ ] |(minor, I think) scratch|", "[ ] |minor|"}},
	{name: "nearly temporary", body: "- [ ] tempoary wire on the exhaust\n- [ ] contemporary trim\n", want: []string{"[ ] |tempoary wire on the exhaust|", "[ ] |contemporary trim|"}, faults: []string{"near-kind 4:7-4:15 |tempoary|"}},
	{name: "any space in a box", body: "- [] job a-b: x\n- [\u00a0] x\n- [\u202f x\u2009] y\n- [\u200b] z\n- [ ]\u00a0job c-d: w\n- [ X ]v\n- [](a)\n- [x](a)\n- []u\n",
		want: []string{"[ ] job #a-b |x|", "[ ] |x|", "[x] |y|", "[ ] |z|", "[ ] job #c-d |w|", "[x] |v|", "[ ] |u|"}},

	// Clauses.
	{name: "comments among clauses", body: "- [ ] job a-b: x; minor <!-- or major; who knows -->; <!-- y --> takes <!-- z --> 1h; <!-- private -->\n- [ ] job a-b: x; takes <!-- z --> 1x\n",
		want: []string{"[ ] job #a-b |x| minor; takes=60min", "[ ] job #a-b |x| takes="}, faults: []string{"bad-duration 5:37-5:38 |x|"}},
	{name: "every clause", body: "- [ ] job a-b: x; minor; due 2026-05-30; waits for c-d; waits for e; takes 1h30; stage rear axle; system brakes; disclose; photo a.jpg; photo b.jpg; private\n",
		want: []string{"[ ] job #a-b |x| minor; due=2026-05-30; waits for=c-d; waits for=e; takes=90min; stage=rear axle; system=brakes; disclose; photo=a.jpg; photo=b.jpg; private"}},
	{name: "due after a distance", body: "- [ ] recheck a-b: x; due 500 km; major\n- [ ] x; due 30 mi; dangerous\n",
		want: []string{"[ ] recheck #a-b |x| due=500 km; major", "[ ] |x| due=30 mi; dangerous"}},
	{name: "a clause without a head's text", body: "- [x] a-b: ; minor\n", want: []string{"[x] #a-b minor"}},
	{name: "bad clauses", body: "- [ ] job a-b: x; mayor\n- [ ] x; due soon\n- [ ] x; due 2026-13-01\n- [ ] x; minor; major\n- [ ] x; takes 1h off\n- [ ] x; waits for A\n- [ ] x; waits\n- [ ] x; takes\n- [ ] x; system brake\n",
		want: []string{"[ ] job #a-b |x|", "[ ] |x| due=", "[ ] |x| due=", "[ ] |x| minor", "[ ] |x| takes=", "[ ] |x| waits for=", "[ ] |x|", "[ ] |x| takes", "[ ] |x| system="},
		faults: []string{"unknown-clause 4:19-4:24 |mayor|", "bad-date 5:14-5:18 |soon|", "bad-date 6:19-6:21 |13|", "repeated-clause 7:17-7:22 |major|",
			"bad-duration 8:19-8:22 |off|", "bad-id 9:20-9:21 |A|", "unknown-clause 10:10-10:15 |waits|", "clause-value 11:10-11:15 |takes|", "unknown-system 12:17-12:22 |brake|"}},

	// Inline Markdown is kept; what parts nothing in it.
	{name: "markup", body: "- [ ] job a-b: **tighten** the [left one](x.md \"a\"); minor\n", want: []string{"[ ] job #a-b |**tighten** the [left one](x.md \"a\")| minor"}},
	{name: "a semicolon in a code span", body: "- [ ] job a-b: run `a; b` and ``c ` ; d``; minor\n", want: []string{"[ ] job #a-b |run `a; b` and ``c ` ; d``| minor"}},
	{name: "a backtick that closes nowhere", body: "- [ ] job a-b: 5` long; minor\n", want: []string{"[ ] job #a-b |5` long| minor"}},
	{name: "entities", body: "- [ ] job a-b: nut &amp; bolt &#59; &#x3b; more; minor\n", want: []string{"[ ] job #a-b |nut &amp; bolt &#59; &#x3b; more| minor"}},
	{name: "an ampersand", body: "- [ ] job a-b: nut & bolt; minor\n- [ ] a&; minor\n- [ ] R&D; minor\n", want: []string{"[ ] job #a-b |nut & bolt| minor", "[ ] |a&| minor", "[ ] |R&D; minor|"}},
	{name: "an escaped semicolon", body: "- [ ] job a-b: one\\; two; minor\n", want: []string{"[ ] job #a-b |one\\; two| minor"}},
	{name: "an escaped backtick", body: "- [ ] a \\` b; minor\n", want: []string{"[ ] |a \\` b| minor"}},
	{name: "a comment", body: "- [ ] job a-b: x <!-- ask; perhaps: no --> y; minor\n", want: []string{"[ ] job #a-b |x  y| minor"}},
	{name: "what only looks like a comment", body: "- [ ] x --> y \\<!-- z; minor\n- [ ] x <!-- a; b --> <!-- c; d --> e; minor\n",
		want: []string{"[ ] |x --> y \\<!-- z| minor", "[ ] |x   e| minor"}},

	// Wherever Markdown has an item.
	{name: "over several lines", body: "- [ ] job a-b: hung on\n  wire until\n     it comes; waits\n  for c-d;\n  major\n",
		want: []string{"[ ] job #a-b |hung on wire until it comes| waits for=c-d; major"}},
	{name: "lazily over several lines", body: "- [ ] job a-b: hung on\nwire; major\n", want: []string{"[ ] job #a-b |hung on wire| major"}},
	{name: "from its second line", body: "- [ ] \n  job a-b: x\n", want: []string{"[ ] job #a-b |x|"}},
	{name: "CRLF", body: "- [ ] job a-b: hung on\r\n  wire; major\r\n- [x] c-d: x\r\n", want: []string{"[ ] job #a-b |hung on wire| major", "[x] #c-d |x|"}},
	{name: "no last newline", body: "- [ ] job a-b: x", want: []string{"[ ] job #a-b |x|"}},
	{name: "in a blockquote", body: "> - [ ] job a-b: hung\n>   on wire; major\n", want: []string{"[ ] job #a-b |hung on wire| major"}},
	{name: "nested", body: "- first\n  - [ ] job a-b: x\n    1. [x] c-d: y\n", want: []string{"[ ] job #a-b |x|", "[x] #c-d |y|"}},
	{name: "an item with items below", body: "- [ ] job a-b: x; major\n  - [ ] job c-d: y\n", want: []string{"[ ] job #a-b |x| major", "[ ] job #c-d |y|"}},
	{name: "other bullets", body: "* [ ] job a-b: x\n\n+ [ ] job c-d: y\n\n3) [ ] job e-f: z\n", want: []string{"[ ] job #a-b |x|", "[ ] job #c-d |y|", "[ ] job #e-f |z|"}},
	{name: "a loose list", body: "- [ ] job a-b: x\n\n  More of it; this is no clause.\n\n- [x] c-d: y\n", want: []string{"[ ] job #a-b |x|", "[x] #c-d |y|"}},
	{name: "by tabs", body: "-\t[ ]\tjob a-b: x;\tminor\n", want: []string{"[ ] job #a-b |x| minor"}},
	{name: "no items", body: "- [y] x\n- a [ ] b\n\n```\n- [ ] job a-b: in code\n```\n\n<!--\n- [ ] job a-b: in a comment\n-->\n"},
	{name: "letters of several bytes", body: "- [ ] job a-b: Öl; dürfen\n", want: []string{"[ ] job #a-b |Öl|"}, faults: []string{"unknown-clause 4:20-4:26 |dürfen|"}},
	{name: "faults on later lines", body: "> 1. [ ] job a-b: hung\n>    on wire;\n>    mayor\n", want: []string{"[ ] job #a-b |hung on wire|"}, faults: []string{"unknown-clause 6:6-6:11 |mayor|"}},
}

func TestItems(t *testing.T) {
	for _, c := range itemCases {
		n := bodyOf(c.body)
		var got []string
		for _, it := range n.Items {
			got = append(got, itemOf(it))
			checkItemSpans(t, it)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s\nread as %q\nwant    %q", c.name, got, c.want)
		}
		wantFaults(t, c.name, n, c.faults...)
	}
}

// checkItemSpans holds the spans of an item to the text it was read from. An item
// may be joined over lines: then white space stands for line breaks and their markers.
func checkItemSpans(t *testing.T, it *Item) {
	t.Helper()
	same := func(x Text, text string) bool {
		return text == x.S || strings.Contains(text, "\n")
	}
	for _, x := range []Text{it.Text, it.Words(), it.Lead()} {
		if !same(x, x.Whole().Text()) {
			t.Errorf("%q stands at %q", x.S, x.Whole().Text())
		}
	}
	for _, c := range it.Clauses {
		if !same(c.Arg, c.Arg.Whole().Text()) || c.Span.Start < it.Text.Whole().Start || c.Span.End > it.Text.Whole().End {
			t.Errorf("the clause %s of %q stands at %q", c.Word, it.Text.S, c.Span.Text())
		}
	}
	if strings.ToLower(it.IDSpan.Text()) != it.ID {
		t.Errorf("the id %q stands at %q", it.ID, it.IDSpan.Text())
	}
	for i := range len(it.Text.S) { // byte by byte
		if at := it.Text.Span(i, i+1); at.Text() != it.Text.S[i:i+1] && it.Text.S[i] != ' ' {
			t.Errorf("byte %d of %q stands at %q", i, it.Text.S, at.Text())
		}
	}
}

// A kind that is nearly right says which it was meant to be.
func TestNearKindOffersTheKind(t *testing.T) {
	for body, want := range map[string]string{"- [ ] temporery a-b: x\n": "temporary", "- [ ] Inspct: x\n": "inspect", "- [ ] agian a-b: x\n": "again"} {
		n := bodyOf(body)
		if len(n.Faults) != 1 || !slices.Equal(n.Faults[0].Near, []string{want}) {
			t.Errorf("%s: %q offers %v, want %s", body, faultsOf(n), n.Faults, want)
		}
	}
}

// Slicing keeps the place of every byte, whatever the pieces.
func TestTextSlices(t *testing.T) {
	n := bodyOf("> - [ ] job a-b: hung\n>   on wïre\n>\t\tuntil; major\n")
	whole := n.Items[0].Text
	for start := range len(whole.S) + 1 {
		for end := start; end <= len(whole.S); end++ {
			part := whole.Slice(start, end)
			if part.S != whole.S[start:end] || part.Whole() != whole.Span(start, end) {
				t.Fatalf("Slice(%d, %d) is %q at %v, want %q at %v", start, end, part.S, part.Whole(), whole.S[start:end], whole.Span(start, end))
			}
			for i := range len(part.S) {
				if part.Span(i, i+1) != whole.Span(start+i, start+i+1) {
					t.Fatalf("byte %d of Slice(%d, %d) stands at %v, want %v", i, start, end, part.Span(i, i+1), whole.Span(start+i, start+i+1))
				}
			}
			if inner := part.Slice(len(part.S)/2, len(part.S)); inner.Whole() != whole.Span(start+len(part.S)/2, end) {
				t.Fatalf("a slice of Slice(%d, %d) stands at %v", start, end, inner.Whole())
			}
		}
	}
	if (Text{}).Whole().Text() != "" {
		t.Error("the zero Text stands somewhere")
	}
}

// A line that Markdown does not take as an item is reported where it begins.
func TestNearItems(t *testing.T) {
	for _, line := range []string{
		"-[ ] x", "-[x] x", "*[ ] x", "+[ ] x", "- [✓] x", "- [✔️] x", "- [*] x", "- [-] x", "- [v] x", "- TODO order it", "TODO: order it", "- { } x", "- {x} x", "- \\[ ] x", "- \\[x\\] x", "-\u00a0[ ] x", "-\u2003[x] x", "-\u200b[ ] x",
		"[ ] x", "[x] x", "[] x", "- ☐ x", "☑ x", "words\n-[ ] x", "- [ ] y\n  -[ ] x", "- a\n\n  [ ] x",
		"– [ ] x", "— [x] x", "• [ ] x", "·[ ] x", "- [ ] y\n– [ ] x", "- (x) x", "- ( ) x", "- () x", "- **[ ] x**", "- *[x]* x", "- ~~[ ] x~~", "1. __[ ] x__", "- ***[] x***", "- horn-dead: x; major", "1. horn-dead: x; y; takes 20m", "- a\n  - horn-dead: x; private", "    - [ ] x", "words\n\n\t- [x] x",
	} {
		n := bodyOf(line + "\n")
		if got := faultsOf(n); len(got) != 1 || !strings.HasPrefix(got[0], "near-item ") || n.Lost != 1 {
			t.Errorf("%q: %q, %d lost", line, got, n.Lost)
		}
	}
	for _, text := range []string{
		"- [ ] x\n- [x] y\n* [X] z\n1. [ ] a", "-\\[ ] x", "- [a] x", "- Todor rang", "- todo", "- {a} x", "Today", "- [1] x", "- [x](b.md) y", "- [*](b.md)", "[x]: b.md", "- [x]: y", "-[x](b.md)", "`[ ] x`", "    [ ] x", "```\n- [] x\n```",
		"a [ ] b", "- a [] b", "- [note] x", "- [xx] y", "-- [ ] x", "-", "*", "- [^1] x", "<!-- [ ] x -->", "| [ ] | b |\n|---|---|\n| [] | c |", "- [ ][x]", "* * *",
		"- horn-dead: no sound", "- horn: no sound; major", "- horn-dead: no sound; loud", "- Horn-dead: no sound; major", "horn-dead: no sound; major", "    - horn-dead: x; major", "- a-b: x;", "- a\n- see the-list: of it; as he said",
		"– x", "• x", "- **x** [ ] x", "- **[x](b.md) y**", "- **[a] x**", "**[x]** x", "- ~~x~~", "- _x_", "(x) x", "words (x) y", "- (x)y", "- a (x) b", "- (2x) y", "    - x", "    [ ] x", "```\n- [ ] x\n```", "£5 x", "“[ ] x",
	} {
		if got := faultsOf(bodyOf(text + "\n")); len(got) > 0 {
			t.Errorf("%q: %q", text, got)
		}
	}
	wantFaults(t, "a page has no snags", readNote(Page, "---\npage: Words\n---\n- guide-coat: a dusting of paint; minor\n"))
	n := bodyOf("- [✓] job tow-socket: x\n")
	wantFaults(t, "the place", n, "near-item 4:3-4:24 |[✓] job tow-socket: x|")
}
