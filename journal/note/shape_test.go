package note

import (
	"fmt"
	"strings"
	"testing"
	"time"
)

// evilShapes cost a parser far more than their size;
// without a limit some take minutes. %d is how often the piece is repeated.
var evilShapes = []struct {
	name, before, piece, after string
	fault                      bool
}{
	{name: "links that never close", piece: "[a](", fault: true},
	{name: "emphasis that never closes", piece: "*a_ ", fault: true},
	{name: "brackets", piece: "[", fault: true},
	{name: "pictures", piece: "![", fault: true},
	{name: "code that never closes", piece: "` `` ", fault: true},
	{name: "quotes in quotes", piece: "> ", after: "x", fault: true},
	{name: "quotes in quotes, without spaces", piece: ">", after: "x", fault: true},
	{name: "lists in lists", piece: "- ", after: "x", fault: true},
	{name: "numbers in numbers", piece: "1. ", after: "x", fault: true},
	{name: "a mixture", piece: "> 1) * + ", after: "x", fault: true},
	{name: "in a heading", before: "# ", piece: "*a_ ", fault: true},
	{name: "in an item", before: "- [ ] ", piece: "*a_ ", fault: true},
	{name: "over lines", piece: "*a_ [b](\n", fault: true},
	{name: "over lines of a quote", piece: "> *a_ [b](\n", fault: true},
	{name: "html", piece: "<a ", fault: true},
	{name: "a wide table of short rows", before: strings.Repeat("|a", 1000) + "\n" + strings.Repeat("|-", 1000) + "\n", piece: "|\n", fault: true},
	{name: "a table behind words", before: "words\n" + strings.Repeat("|a", 1000) + "\n" + strings.Repeat("|-", 1000) + "\n", piece: "|\n", fault: true},
	{name: "code in an item that never closes", before: "- [ ] x ", piece: "&amp", fault: true},
	{name: "link references", piece: "[a]: b\n", fault: true},
	{name: "clauses", before: "- [ ] x", piece: "; waits for a", fault: true},
	{name: "semicolons", before: "- [ ] x", piece: ";", fault: true},
	{name: "items", piece: "- [ ] job a-b: *x* [y](z); major\n"},
	{name: "a table", before: "| a | b |\n|---|---|\n", piece: "| *x* | [y](z) |\n"},
	{name: "prose", piece: "Words and *words*, \"quoted\".\n\n"},
	{name: "code", before: "```\n", piece: "[ 0.1] a *b* <c>\n", after: "```\n"},
	{name: "a rule", piece: "-"},
	{name: "stars", piece: "*"},
	{name: "dots", piece: "1.1."},
	{name: "a staircase", before: "", piece: "%STAIRS%", fault: true},
}

func evil(i, times int) string {
	s := evilShapes[i]
	if s.piece == "%STAIRS%" {
		var b strings.Builder
		for depth := range times / 20 {
			b.WriteString(strings.Repeat("  ", depth%400) + "- x\n")
		}
		return b.String()
	}
	return s.before + strings.Repeat(s.piece, times) + s.after + "\n"
}

func TestEvilShapes(t *testing.T) {
	for i, s := range evilShapes {
		body := evil(i, 5_000)
		start := time.Now()
		n := bodyOf(body)
		if took := time.Since(start); took > 20*time.Second {
			t.Errorf("%s: %d bytes take %v", s.name, len(body), took)
		}
		found := false
		for _, f := range n.Faults {
			found = found || f.Flaw == TooTangled
		}
		if s.name == "stars" { // a run of stars alone is a rule, and no emphasis
			continue
		}
		if found != s.fault || found != (n.Lost > 0 || len(n.Items) > 0 && n.Items[0].Bad) {
			t.Errorf("%s: reported %v, %d lost; want %v", s.name, found, n.Lost, s.fault)
		}
	}
}

// Where the line stops: what anybody may write is parsed.
func TestOrdinaryShapes(t *testing.T) {
	for name, body := range map[string]string{
		"nesting":                 strings.Repeat("> ", 50) + "- 1. x\n",
		"a long paragraph":        strings.Repeat("Some *words* and `code` with [a link](x).\n", 200),
		"a wide table":            strings.Repeat("| a ", 60) + "\n" + strings.Repeat("|---", 60) + "\n" + strings.Repeat(strings.Repeat("| 1 ", 60)+"\n", 40),
		"rows that end early":     "| a | b | c | d | e |\n|---|---|---|---|---|\n" + strings.Repeat("| 1 |\n", 20),
		"a long tight list":       strings.Repeat("- [ ] job a-b: *x* [y](z) `q`\n", 5000),
		"a long table with marks": "| a | b |\n|---|---|\n" + strings.Repeat("| [x](y) | *z* `q` |\n", 2000),
		"a dump of brackets":      "```\n" + strings.Repeat("[1] <x> *y*\n", 3000) + "```\n",
		"rules":                   strings.Repeat("-", 300) + "\n\n" + strings.Repeat("*", 300) + "\n\n" + strings.Repeat("- ", 30) + "\n",
	} {
		if n := bodyOf(body); n.Lost > 0 {
			t.Errorf("%s: %q", name, fmt.Sprint(faultsOf(n))[:100])
		}
	}
	n := bodyOf("Fine.\n\n" + strings.Repeat("*a_ [b](\n", 1000) + "\n- [ ] job a-b: kept\n")
	wantFaults(t, "the place", n, "too-tangled 6:1-6:9 |*a_ [b](|")
	if len(n.Items) != 1 || n.Items[0].ID != "a-b" {
		t.Error("what stands beside it is lost")
	}
	n = bodyOf("Fine.\n" + strings.Repeat("> ", 200) + "x\n\n- [ ] job a-b: lost\n")
	if len(n.Faults) != 1 || n.Faults[0].Span.Begin().Line != 5 || len(n.Items) != 0 || n.Doc() == nil || n.Lost != 1 {
		t.Errorf("%q, %d items", faultsOf(n), len(n.Items))
	}
}
