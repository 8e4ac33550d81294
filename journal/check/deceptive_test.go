package check

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// deceptions are the characters that deceive, as "line: message".
func deceptions(t *testing.T, build string) []string {
	t.Helper()
	list := []string{}
	for _, p := range proofread(t, folder(build)) {
		if p.Check == "deceptive-character" {
			what, _, _ := strings.Cut(p.Message, " stands here")
			list = append(list, fmt.Sprintf("%d: %s", p.Span.Begin().Line, what))
		}
	}
	return list
}

func TestDeceptiveCharacters(t *testing.T) {
	for _, c := range []struct {
		note string
		want []string
	}{
		{"---\ntitle: a\u202eb\n---\n", []string{"2: the character U+202E"}},
		{"---\ntitle: a\u2066b\u2069c\n---\n", []string{"2: the character U+2066"}}, // one a line
		{"---\ntitle: a\u200bb\nstage: body\ncost: 9.00 se\u2060als\n---\n", []string{"2: the character U+200B", "4: the character U+2060"}},
		{"---\ntitle: a\u200db\n---\n", []string{"2: the character U+200D"}},
		{"a \u202a b\n\nc \u200b d\n", []string{"1: the character U+202A"}}, // spaces without width are no harm in a body
		{"---\ntitle: \U0001F468\u200d\U0001F527 \u0645\u06cc\u200c\u062e\n---\n", nil},
		{"---\ntitle: “a” – b… Ω 10 μm Δ é\n---\n“a” – b…\n", nil},
		{"---\ntitle: Ремонт и покраска\n---\n", nil},
		{"---\ntitle: r\u0435ar \u0430xle\n---\n", []string{"2: \"r\u0435ar\" holds U+0435, which only looks like the Latin letter \"e\""}},
		{"---\n# r\u0435ar\nstage: body\nremaining:\n  body: 9 h\u03bfse\n---\nr\u0435ar\n", []string{
			"2: \"r\u0435ar\" holds U+0435, which only looks like the Latin letter \"e\"", "5: \"h\u03bfse\" holds U+03BF, which only looks like the Latin letter \"o\""}},
		{"- [ ] h\u043ese-clip: of wire\n- [ ] the h\u043ese is loose\n", []string{"1: \"h\u043ese-clip\" holds U+043E, which only looks like the Latin letter \"o\""}},
		{"---\nstage: body\nparts:\n  h\u043ese: needed hose\n---\n", nil}, // said by bad-id
		{"---\nstage: b\u043edy\n---\n", nil}, // said by unknown-stage
	} {
		if got := deceptions(t, c.note); !slices.Equal(got, c.want) && len(got)+len(c.want) > 0 {
			t.Errorf("%q\n got %q\nwant %q", c.note, got, c.want)
		}
	}
}

func TestNearSuppliers(t *testing.T) {
	for _, c := range []struct{ names, want string }{
		{"Tidewell Dismantlers|Tidewel Dismantlers", "Tidewel Dismantlers"},
		{"Tidewel Dismantlers|Tidewell Dismantlers|Tidewell Dismantlers", "Tidewel Dismantlers"},
		{"Tidewell|TIDEWELL", "TIDEWELL"},
		{"Mill-Lane|mill lane", "mill lane"},
		{"AB|ab", "ab"},
		{"Tidewell|Tidewell", ""},
		{"Mill Lane|Hill Lane", ""},
		{"Yard 4|Yard 5", ""},
		{"AB|AC", ""},
		{"Tidewell|Tidewell Dismantlers", ""},
		{"Tidewell|Tidew\u0435ll", ""}, // said by deceptive-character
	} {
		note := "---\nstage: body\ncost:\n"
		for name := range strings.SplitSeq(c.names, "|") {
			note += "  - 9.00 seals; from " + name + "\n"
		}
		var got []string
		for _, p := range proofread(t, folder(note+"parts:\n  hose: needed hose; from Skylark Metals\ncredit: 1.00 seals; from Skylark Metal\n---\n")) {
			if p.Check == "near-supplier" {
				got = append(got, p.Span.Text())
			}
		}
		want := strings.TrimPrefix(c.want+"|Skylark Metal", "|")
		slices.Sort(got)
		wanted := strings.Split(want, "|")
		slices.Sort(wanted)
		if !slices.Equal(got, wanted) {
			t.Errorf("%s: %q, want %q", c.names, got, wanted)
		}
	}
}
