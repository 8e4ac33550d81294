package markdown

import (
	"strings"
	"testing"

	"guidecoat/journal/note"

	"github.com/alecthomas/chroma/v2"
)

// names are the types of token as the cases write them.
var names = map[chroma.TokenType]string{
	chroma.NameTag: "key", chroma.NameLabel: "id", chroma.NameConstant: "word", chroma.Keyword: "kw", chroma.KeywordPseudo: "box",
	chroma.LiteralNumber: "num", chroma.LiteralDate: "date", chroma.LiteralString: "str", chroma.GenericHeading: "head", chroma.Comment: "com",
}

// marked writes the tokens of a text that are told apart as TYPE(VALUE).
func marked(text string) string {
	var b strings.Builder
	for _, t := range lex(text) {
		if name := names[t.Type]; name != "" {
			b.WriteString(name + "(" + t.Value + ")")
		} else {
			b.WriteString(t.Value)
		}
	}
	return b.String()
}

func TestLexer(t *testing.T) {
	for _, c := range []struct{ name, in, want string }{
		{"front matter", "---\ndate: 2026-04-11\n# x: y\nstage: rear axle\nodometer: 91252 mi; new cluster\n---\n",
			"---\nkey(date): date(2026-04-11)\ncom(# x: y)\nkey(stage): rear axle\nkey(odometer): num(91252 mi); kw(new cluster)\n---\n"},
		{"lines", "---\ntime:\n  - 3h40 beam out; hands 2\n- 19:30-21:15; stage rear axle\ncost: 2 x 6.49 grease; as consumables; for rear-beam; on 2026-01-02; plus vat 20%\n---\n",
			"---\nkey(time):\n  - num(3h40) beam out; kw(hands) num(2)\n- num(19:30-21:15); kw(stage) str(rear axle)\n" +
				"key(cost): num(2 x 6.49) grease; kw(as) word(consumables); kw(for) id(rear-beam); kw(on) date(2026-01-02); kw(plus vat) num(20%)\n---\n"},
		{"names", "---\nparts:\n  rear-beam: fitted\n  - hub: needed ring: left; new; estimate 9 14 30; system brakes\nreadings:\n  disc: 8.7 mm; min 8.0 mm; within 1..2\n---\n",
			"---\nkey(parts):\n  id(rear-beam): word(fitted)\n  - id(hub): word(needed) ring: left; kw(new); kw(estimate) num(9) num(14) num(30); kw(system) word(brakes)\n" +
				"key(readings):\n  id(disc): num(8.7 mm); kw(min) num(8.0 mm); kw(within) num(1..2)\n---\n"},
		{"a card", "---\nbuild: Halden\nrates:\n  EUR: 0.86\nfees:\n  buyer's: 75 to 500, 12% above; plus vat\nstages:\n  buying: budget 1500; purchase\ndue checks:\n  tow: after brakes, fuel; major\n---\n",
			"---\nkey(build): Halden\nkey(rates):\n  id(EUR): num(0.86)\nkey(fees):\n  id(buyer's): num(75) to num(500,) num(12%) above; kw(plus vat)\n" +
				"key(stages):\n  id(buying): kw(budget) num(1500); kw(purchase)\nkey(due checks):\n  id(tow): kw(after) word(brakes), word(fuel); kw(major)\n---\n"},
		{"what is not understood", "---\nnosuch: 3h\ntime: long; hand 2\ncost: 12,50 x\n  just words\n\t- x\n---\n",
			"---\nkey(nosuch): 3h\nkey(time): long; hand 2\nkey(cost): 12,50 x\n  just words\n\t- x\n---\n"},
		{"no front matter", "----\na: b\n---\n", "----\na: b\n---\n"},
		{"front matter that never ends", "---\ndate: x\n", "---\ndate: x\n"},
		{"line ends", "---\r\ndate: 2026-04-11\r\n---\r\n# x\r\n", "---\r\nkey(date): date(2026-04-11)\r\n---\r\nhead(# x)\r\n"},
		{"items", "- [ ] temporary tow-socket: wired `a;` b; due 2026-05-30; waits for x-y; takes 2h\n- [x] tow-socket: done\n- [x] tow-socket\n- [ ] plain words: x\n1. [X] again a-b: c\n",
			"- box([ ]) kw(temporary) id(tow-socket): wired str(`a;`) b; kw(due) date(2026-05-30); kw(waits for) id(x-y); kw(takes) num(2h)\n" +
				"- box([x]) id(tow-socket): done\n- box([x]) id(tow-socket)\n- box([ ]) plain words: x\n1. box([X]) kw(again) id(a-b): c\n"},
		{"an item of several lines", "- [ ] a\n  b; major\n\nc; major\n- d; major\n", "- box([ ]) a\n  b; kw(major)\n\nc; major\n- d; major\n"},
		{"a kind alone", "- [ ] job: a; minor\n- [ ] job\n- [ ] Job A: b\n", "- box([ ]) kw(job): a; kw(minor)\n- box([ ]) job\n- box([ ]) Job A: b\n"},
		{"no items", "- [] a\n-[ ] b\n[ ] c; major\n- x [ ] d\n", "- [] a\n-[ ] b\n[ ] c; major\n- x [ ] d\n"},
		{"headings", "# a\n###### b\n####### c\n#d\n", "head(# a)\nhead(###### b)\n####### c\n#d\n"},
		{"comments", "a <!-- b --> c <!-- d\n\n# e\n--> f \\<!-- g\n", "a com(<!-- b -->) c com(<!-- d)\n\ncom(# e)\ncom(-->) f \\<!-- g\n"},
		{"code", "a `b` ``c`d`` `e\n", "a str(`b`) str(``c`d``) `e\n"},
		{"fences", "```go\n# x\n~~~\n```\n# y\n", "```kw(go)\nstr(# x)\nstr(~~~)\n```\nhead(# y)\n"},
		{"a scan", "~~~scan abs\nC0035 left\nno faults\n~~~~\n# y\n", "~~~kw(scan) id(abs)\nword(C0035) left\nno faults\n~~~~\nhead(# y)\n"},
		{"no fence", "``` a`b\n# y\n", "``` a`b\nhead(# y)\n"},
	} {
		if got := marked(c.in); got != c.want {
			t.Errorf("%s: %q is\n%s\nwant\n%s", c.name, c.in, got, c.want)
		}
	}
}

// The lexer is made of the tables of package note: every key and clause there is
// stands out.
func TestLexerKnowsTheGrammar(t *testing.T) {
	has := func(text string, typ chroma.TokenType, value string) {
		t.Helper()
		for _, token := range lex(text) {
			if token.Type == typ && token.Value == value {
				return
			}
		}
		t.Errorf("%q has no %s %q", text, typ, value)
	}
	for _, list := range [][]*note.Kind{note.Session, note.Card, note.Garage, note.Page} {
		for _, k := range list {
			line := "x"
			if k.Shape == note.Named {
				line = "name: x"
			}
			has("---\n"+k.Key+": "+line+"\n---\n", chroma.NameTag, k.Key)
			for _, c := range k.Clauses {
				has("---\n"+k.Key+":\n  - "+line+"; "+c.Word+" x\n---\n", chroma.Keyword, c.Word)
			}
		}
	}
	for _, c := range note.Snag.Clauses {
		has("- [ ] x; "+c.Word+" x\n", chroma.Keyword, c.Word)
	}
	for _, kind := range note.Kinds {
		has("- [ ] "+kind+" a-b: x\n", chroma.Keyword, kind)
	}
}

func FuzzLexer(f *testing.F) {
	f.Add("---\ndate: 2026-04-11\ntime:\n  - 3h\n---\n# a\n- [ ] b-c: `d`; due <!-- e\n```scan f\nC0035\n")
	f.Fuzz(func(t *testing.T, text string) {
		var b strings.Builder
		for _, token := range lex(text) {
			if token.Value == "" {
				t.Error("an empty token")
			}
			b.WriteString(token.Value)
		}
		if b.String() != text {
			t.Errorf("the tokens of %q are %q", text, b.String())
		}
	})
}
