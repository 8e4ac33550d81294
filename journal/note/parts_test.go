package note

import (
	"strings"
	"testing"

	"guidecoat/journal/source"
)

// sorts are the sorts of part as the cases write them.
var sorts = map[Sort]string{KeyPart: "key", NamePart: "id", WordPart: "kw", ChoicePart: "one", FigurePart: "num", QuotePart: "str", HeadingPart: "head", RemarkPart: "com"}

// marked writes a text with its parts as SORT(VALUE).
func marked(text string) string {
	f := Open(source.NewFile("a.md", []byte(text))).File
	var b strings.Builder
	at := 0
	for _, p := range PartsOf(f) {
		b.WriteString(string(f.Data[at:p.Start]) + sorts[p.Sort] + "(" + p.Text() + ")")
		at = int(p.End)
	}
	return b.String() + string(f.Data[at:])
}

func TestParts(t *testing.T) {
	for _, c := range []struct{ name, in, want string }{
		{"front matter", "---\ndate: 2026-04-11\n# x: y\nstage: rear axle\nodometer: 91252 mi; new cluster\n---\n",
			"---\nkey(date): num(2026-04-11)\ncom(# x: y)\nkey(stage): rear axle\nkey(odometer): num(91252 mi); kw(new cluster)\n---\n"},
		{"lines", "---\ntime:\n  - 3h40 beam out; hands 2\n- 19:30-21:15; stage rear axle\ncost: 2 x 6.49 grease; as consumables; for rear-beam; on 2026-01-02; plus vat 20%\n---\n",
			"---\nkey(time):\n  - num(3h40) beam out; kw(hands) num(2)\n- num(19:30-21:15); kw(stage) str(rear axle)\n" +
				"key(cost): num(2 x 6.49) grease; kw(as) one(consumables); kw(for) id(rear-beam); kw(on) num(2026-01-02); kw(plus vat) num(20%)\n---\n"},
		{"names", "---\nparts:\n  rear-beam: fitted\n  - hub: needed ring: left; new; estimate 9 14 30; system brakes\nreadings:\n  disc: 8.7 mm; min 8.0 mm; within 1..2\n---\n",
			"---\nkey(parts):\n  id(rear-beam): one(fitted)\n  - id(hub): one(needed) ring: left; kw(new); kw(estimate) num(9 14 30); kw(system) one(brakes)\n" +
				"key(readings):\n  id(disc): num(8.7 mm); kw(min) num(8.0 mm); kw(within) num(1..2)\n---\n"},
		{"a card", "---\nbuild: Halden\nrates:\n  EUR: 0.86\nfees:\n  buyer's: 75 to 500, 12% above; plus vat\nstages:\n  buying: budget 1500; purchase\ndue checks:\n  tow: after brakes, fuel; major\n---\n",
			"---\nkey(build): Halden\nkey(rates):\n  id(EUR): num(0.86)\nkey(fees):\n  id(buyer's): num(75 to 500, 12% above); kw(plus vat)\n" +
				"key(stages):\n  id(buying): kw(budget) num(1500); kw(purchase)\nkey(due checks):\n  id(tow): kw(after) one(brakes, fuel); kw(major)\n---\n"},
		{"what is not understood", "---\nnosuch: 3h\ntime: long; hand 2\ncost: 12,50 x\n  just words\n\t- x\n---\n",
			"---\nkey(nosuch): 3h\nkey(time): long; hand 2\nkey(cost): 12,50 x\n  just words\n\t- x\n---\n"},
		{"no front matter", "----\na: b\n", "----\na: b\n"},
		{"front matter that never ends", "---\ndate: x\n", "---\ndate: x\n"},
		{"line ends", "---\r\ndate: 2026-04-11\r\n---\r\n# x\r\n", "---\r\nkey(date): num(2026-04-11)\r\n---\r\nhead(# x)\r\n"},
		{"items", "- [ ] temporary tow-socket: wired `a;` b; due 2026-05-30; waits for x-y; takes 2h\n- [x] tow-socket: done\n- [x] tow-socket\n- [ ] plain words: x\n1. [X] again a-b: c\n",
			"- kw([ ]) kw(temporary) id(tow-socket): wired str(`a;`) b; kw(due) num(2026-05-30); kw(waits for) id(x-y); kw(takes) num(2h)\n" +
				"- kw([x]) id(tow-socket): done\n- kw([x]) id(tow-socket)\n- kw([ ]) plain words: x\n1. kw([X]) kw(again) id(a-b): c\n"},
		{"an item of several lines", "- [ ] a\n  b; major\n\nc; major\n- d; major\n", "- kw([ ]) a\n  b; kw(major)\n\nc; major\n- d; major\n"},
		{"a kind alone", "- [ ] job: a; minor\n- [ ] job\n- [ ] Job A: b\n", "- kw([ ]) kw(job): a; kw(minor)\n- kw([ ]) kw(job)\n- kw([ ]) kw(Job) A: b\n"},
		{"no items", "-[ ] b\n[ ] c; major\n- x [ ] d\n", "-[ ] b\n[ ] c; major\n- x [ ] d\n"},
		{"headings", "# a\n###### b\n####### c\n#d\n", "head(# a)\nhead(###### b)\n####### c\n#d\n"},
		{"code", "a `b` ``c`d`` `e\n", "a str(`b`) str(``c`d``) `e\n"},
		{"fences", "```go\n# x\n~~~\n```\n# y\n", "```kw(go)\nstr(# x)\nstr(~~~)\n```\nhead(# y)\n"},
		{"a scan", "~~~scan abs\nC0035 left\nno faults\n~~~~\n# y\n", "~~~kw(scan) id(abs)\none(C0035) left\nno faults\n~~~~\nhead(# y)\n"},
		{"no fence", "``` a`b\n# y\n", "``` a`b\nhead(# y)\n"},
	} {
		if got := marked(c.in); got != c.want {
			t.Errorf("%s: %q is\n%s\nwant\n%s", c.name, c.in, got, c.want)
		}
	}
}

// Every key and clause of the grammar stands out.
func TestPartsKnowTheGrammar(t *testing.T) {
	has := func(text string, sort Sort, value string) {
		t.Helper()
		for _, part := range PartsOf(source.NewFile("2026-04-11.md", []byte(text))) {
			if part.Sort == sort && part.Text() == value {
				return
			}
		}
		t.Errorf("%q has no %d %q", text, sort, value)
	}
	of := map[string][]*Kind{"": Session, "build: x\n": Card, "garage: x\n": Garage, "page: x\n": Page}
	for first, list := range of {
		for _, k := range list {
			line, begin := "x", "---\n"+first
			if k.Key+": x\n" == first {
				begin = "---\n"
			}
			if k.Shape == Named {
				line = "name: x"
			}
			has(begin+k.Key+": "+line+"\n---\n", KeyPart, k.Key)
			for _, c := range k.Clauses {
				if c.Value == nil {
					has(begin+k.Key+": "+line+"; "+c.Word+"\n---\n", WordPart, c.Word)
				}
			}
		}
	}
	for _, c := range Snag.Clauses {
		if c.Value == nil {
			has("- [ ] x; "+c.Word+"\n", WordPart, c.Word)
		}
	}
	for _, kind := range Kinds {
		has("- [ ] "+kind+" a-b: x\n", WordPart, kind)
	}
}

func FuzzParts(f *testing.F) {
	f.Add("---\ndate: 2026-04-11\ntime:\n  - 3h\n---\n# a\n- [ ] b-c: `d`; due <!-- e\n```scan f\nC0035\n")
	f.Fuzz(func(t *testing.T, text string) {
		var end int32
		for _, part := range PartsOf(source.NewFile("a.md", []byte(text))) {
			if part.Start < end || part.End <= part.Start || int(part.End) > len(part.File.Data) {
				t.Errorf("%q: a part from %d to %d behind %d", text, part.Start, part.End, end)
			}
			end = part.End
		}
	})
}
