package main

import (
	"bytes"
	"context"
	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/rivo/uniseg"
	"github.com/shopspring/decimal"
)

func testScreen(width int) *screen { return &screen{out: &bytes.Buffer{}, width: width, edge: true} }

func TestCut(t *testing.T) {
	for _, c := range []struct {
		text  string
		width int
		want  string
	}{
		{"caliper", 7, "caliper"},
		{"caliper", 6, "calip…"},
		{"caliper", 1, "…"},
		{"rear axle", 6, "rear…"},
		{"後車軸", 6, "後車軸"},
		{"後車軸", 5, "後車…"},
		{"後車軸", 4, "後…"}, // half a wide character is not shown
		{"e\u0301e\u0301e\u0301", 2, "e\u0301…"},
		{"👩‍🔧👩‍🔧", 3, "👩‍🔧…"},
		{"", 0, ""},
	} {
		if got := cut(c.text, c.width); got != c.want || uniseg.StringWidth(got) > max(c.width, 1) {
			t.Errorf("cut(%q, %d) = %q, want %q", c.text, c.width, got, c.want)
		}
	}
}

func TestClean(t *testing.T) {
	for text, want := range map[string]string{
		"plain":                "plain",
		"\x1b[2Jgone":          "<U+001B>[2Jgone",
		"a\tb\nc":              "a<U+0009>b<U+000A>c",
		"turned \u202eround":   "turned <U+202E>round",
		"family 👩\u200d🔧":      "family 👩\u200d🔧",
		"not \xff text":        "not \ufffd text",
		"both \xff and \x07 x": "both \ufffd and <U+0007> x",
	} {
		if got := clean(text); got != want {
			t.Errorf("clean(%q) = %q, want %q", text, got, want)
		}
	}
}

func TestTable(t *testing.T) {
	columns := []column{{head: "part"}, {head: "what it is", least: 8}, {head: "note"}, {head: "paid", right: true}}
	rows := func() []row {
		return []row{
			{cells: []string{"beam", "車軸 of steel, long", "", "1,250.00"}, below: []string{"and a line of more words below it"}},
			{cells: []string{"seal", "é", "", "5.00"}},
		}
	}
	for width, want := range map[int]string{
		40: "part  what it is               paid\n" +
			"beam  車軸 of steel, long  1,250.00\n" +
			"      and a line of more words below it\n" +
			"seal  é                        5.00\n",
		24: "part  what it…      paid\n" +
			"beam  車軸 of…  1,250.00\n" +
			"      and a line of mor…\n" +
			"seal  é             5.00\n",
		22: "part        beam\n" +
			"  what it is  車軸 of…\n" +
			"  paid        1,250.00\n" +
			"  and a line of more…\n" +
			"part        seal\n" +
			"  what it is  é\n" +
			"  paid        5.00\n",
	} {
		s := testScreen(width)
		(&table{columns: columns, rows: rows()}).print(s)
		if got := s.b.String(); got != want {
			t.Errorf("at %d columns:\n%swant\n%s", width, got, want)
		}
		for line := range strings.Lines(s.b.String()) {
			if n := uniseg.StringWidth(strings.TrimSuffix(line, "\n")); n > width {
				t.Errorf("%q takes %d of %d columns", line, n, width)
			}
		}
	}
	s := testScreen(40)
	(&table{columns: columns}).print(s)
	if s.b.Len() != 0 {
		t.Errorf("a table of nothing prints %q", s.b.String())
	}
}

// Nothing is cut for a file or another program; on a terminal ids are not.
func TestCutsOnlyOnTerminals(t *testing.T) {
	const id, path = "left-rear-subframe-mounting-bolt-upper", "2026-04-18-a-long-evening-under-the-car.md:12"
	long := strings.Repeat("words that explain it ", 8)
	for edge, below := range map[bool]string{false: long, true: "…"} {
		s := testScreen(leastWidth)
		s.edge = edge
		(&table{columns: []column{{head: "part"}, {head: "what it is", least: 10}, {head: "where"}}, rows: []row{{cells: []string{id, long, path}, below: []string{long}}}}).print(s)
		s.line(long)
		s.say("", path)
		for _, want := range []string{id, path, below} {
			if !strings.Contains(s.b.String(), want) {
				t.Errorf("with an edge %v %q is not in\n%s", edge, want, s.b.String())
			}
		}
		if !edge && strings.Contains(s.b.String(), "…") {
			t.Errorf("cut:\n%s", s.b.String())
		}
	}
}

// Of snags the words give way on a terminal, the ids do not.
func TestSnagTableKeepsIDs(t *testing.T) {
	const id, words = "left-rear-mounting-bolt", "look at the pipe above the tank once it is out again"
	b, err := journal.ReadBuild(fstest.MapFS{"build.md": {Data: []byte("---\nbuild: x\ncurrency: GBP\n---\n")},
		"2026-04-11.md": {Data: []byte("- [ ] " + id + ": seized\n- [ ] " + words + "\n")}}, ".")
	if err != nil {
		t.Fatal(err)
	}
	v := view.Of(state.At(b, 0, 0), view.ForWorkshop)
	var entries []entry
	for _, s := range v.Snags {
		entries = append(entries, entry{s, v})
	}
	for _, width := range []int{leastWidth, 56, 60, 64, narrowWidth} {
		s := testScreen(width)
		snagTable(entries).print(s)
		if got := s.b.String(); !strings.Contains(got, id) || width == 64 && !strings.Contains(got, "…") {
			t.Errorf("at %d columns:\n%s", width, got)
		}
	}
}

func TestColour(t *testing.T) {
	s := testScreen(40)
	s.colour = true
	(&table{columns: []column{{head: "severity"}, {head: "snag"}}, rows: []row{{cells: []string{"major", "x"}, style: yellow}}}).print(s)
	if got, want := s.b.String(), "\x1b[1mseverity  snag\x1b[0m\n\x1b[1;33mmajor\x1b[0m     x\n"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	for _, env := range []map[string]string{{"NO_COLOR": "1"}, {"TERM": "dumb"}} {
		if colourWanted(func(name string) string { return env[name] }) {
			t.Errorf("colour under %v", env)
		}
	}
	if !colourWanted(func(string) string { return "" }) { // no-color.org: empty counts as absent
		t.Error("no colour although nobody minds")
	}
}

func TestPercent(t *testing.T) {
	for chance, want := range map[float64]string{0: "0%", 0.004: "under 1%", 0.01: "1%", 0.5: "50%", 0.724: "72%", 0.9949: "over 99%", 1: "100%"} {
		if got := percent(chance); got != want {
			t.Errorf("percent(%v) = %q, want %q", chance, got, want)
		}
	}
}

func TestTenths(t *testing.T) {
	for chance, want := range map[float64]string{0: "0.0%", 0.0004: "under 0.1%", 0.5: "50.0%", 0.898: "89.8%", 0.8999: "89.9%", 0.9: "90.0%", 0.99999: "99.9%", 1: "100.0%"} {
		if got := tenths(chance); got != want {
			t.Errorf("tenths(%v) = %q, want %q", chance, got, want)
		}
	}
}

func TestTimes(t *testing.T) {
	for ratio, want := range map[string]string{"1.1833": "× 1.18", "0": "× 0.00", "-0.2": "more back than spent"} {
		if got := times(fact.Record{Ratio: decimal.RequireFromString(ratio)}); got != want {
			t.Errorf("a ratio of %s is %q, want %q", ratio, got, want)
		}
	}
}

// TestHelp holds every command to an example and to 80 columns.
func TestHelp(t *testing.T) {
	w := world{getenv: func(string) string { return "" }, now: time.Now}
	for _, make := range commands() {
		name := make(&w).Name()
		var out, errs bytes.Buffer
		w := world{args: []string{name, "--help"}, stdout: &out, stderr: &errs, getenv: w.getenv, now: w.now}
		if code := run(context.Background(), w); code != exitDone || errs.Len() > 0 {
			t.Errorf("%s --help exits %d: %s", name, code, errs.String())
		}
		if !strings.Contains(out.String(), "For example\n  guidecoat "+name) {
			t.Errorf("%s --help has no example", name)
		}
		for line := range strings.Lines(out.String()) {
			if uniseg.StringWidth(line) > narrowWidth+1 {
				t.Errorf("%s --help has a line wider than a terminal: %q", name, line)
			}
			if strings.Contains(line, "…") {
				t.Errorf("%s --help has a line that was cut short: %q", name, line)
			}
		}
	}
}
