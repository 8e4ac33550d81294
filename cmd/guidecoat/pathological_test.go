package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// A trap is a note made to exhaust whoever reads it.
type trap struct {
	name  string
	front string // below the date
	body  string
	// check is what is said of it; "" where it is sound, or information at most.
	check string
}

const pathologicalCard = "---\nbuild: Halden\ncurrency: GBP\nstages:\n  axle: beam\n---\nx\n"

func traps() []trap {
	items := 20_000 // the race detector makes each ten times as dear
	if os.Getenv("GUIDECOAT_LONG") != "" {
		items = 100_000
	}
	control := ""
	for c := range 0x20 {
		control += fmt.Sprintf("a%cb\n", c)
	}
	return []trap{
		{"quotes in quotes", "", strings.Repeat("> ", 50_000) + "x\n", "too-tangled"},
		{"lists in lists", "", strings.Repeat("- ", 50_000) + "x\n", "too-tangled"},
		{"lists in lists, by lines", "", stairs(1500), "too-tangled"},
		{"emphasis never closed", "", strings.Repeat("*a_ ", 50_000) + "\n", "too-tangled"},
		{"links never closed", "", strings.Repeat("[a](", 16_000) + "\n", "too-tangled"},
		{"brackets", "", strings.Repeat("[", 60_000) + strings.Repeat("]", 60_000) + "\n", "too-tangled"},
		{"backticks of every length", "", ticks(600), "too-tangled"},
		{"angle brackets", "", strings.Repeat("<a ", 60_000) + "\n", "too-tangled"},
		{"comments never closed", "", strings.Repeat("<!-- ", 40_000) + "\n", "unclosed-comment"},
		{"comments that are text", "", strings.Repeat("\\<!-- ", 40_000) + "\n", "too-tangled"},
		{"comments among code", "", strings.Repeat("`<!-- -->` <!-- a\n\n-->\n", 10_000) + "\n", "too-tangled"},
		{"entities", "", strings.Repeat("&amp;&#0;&#x110000;", 20_000) + "\n", "too-tangled"},
		{"a wide table", "", "|" + strings.Repeat("a|", 3000) + "\n|" + strings.Repeat("-|", 3000) + "\n" + strings.Repeat("|x\n", 3000), "too-tangled"},
		{"references", "", references(5000), "too-tangled"},
		{"a line of 50 MB", "", strings.Repeat("word ", 10<<20), "too-large"},
		{"a line of 3 MB", "", strings.Repeat("word ", 600_000) + "\n", ""},
		{"control characters", "", control, "control-character"},
		{"zero bytes", "", strings.Repeat("\x00", 100_000) + "\n", "control-character"},
		{"bytes that are not UTF-8", "", strings.Repeat("\xff\xc0\xaf\n", 30_000), "not-utf8"},
		{"100,000 clauses", "cost:\n  - 1.00 x" + strings.Repeat("; from y", 100_000) + "\n", "", "too-tangled"},
		{"100,000 unknown clauses", "cost:\n  - 1.00 x" + strings.Repeat("; fron y", 100_000) + "\n", "", "too-tangled"},
		{"an item of 100,000 clauses", "", "- [ ] x" + strings.Repeat("; minor", 100_000) + "\n", "too-tangled"},
		{"many items", "", strings.Repeat("- [ ] x\n", items), ""},
		{"remarks on one snag", "", strings.Repeat("- [ ] arch-seal: x\n", 30000), ""},
		{"items of one id", "", strings.Repeat("- [ ] job arch-seal: x\n", 30_000), "opened-twice"},
		{"10,000 parts", "parts:\n" + each(10_000, "  part-%d: needed thing; stage axle\n"), "", ""},
		{"10,000 unknown parts", "cost:\n" + each(10_000, "  - 1.00 x; for part-%d\n"), "", "unknown-part"},
		{"a chain of 5,000", "", chain(5000, false), ""},
		{"a circle of 5,000", "", chain(5000, true), "waits-in-circle"},
		{"a scan of 100,000 lines", "", "```scan abs\n" + strings.Repeat("C0035 left front wheel\n", 100_000) + "```\n", ""},
		{"one item of 1 MB", "", strings.Repeat("- [ ] a-b: ", 90_000) + "\n", "too-tangled"},
		{"anchors of anchors", bomb(), "", "unknown-key"},
		{"64 KB of front matter", "time:\n" + strings.Repeat("  - 1h x\n", 7000), "", ""},
		{"brackets in front matter", "title: " + strings.Repeat("[", 60_000) + "\n", "", ""},
		{"braces in front matter", "title: " + strings.Repeat("{a: ", 15_000) + "\n", "", ""},
		{"words like patterns", "title: (a+)+$ .*.*.*.* ([a-z]*)*[\n", strings.Repeat("a", 100_000) + "!\n(a+)+$ \\b{1000}\n", ""},
		{"an id of 1 MB", "", "- [ ] job a-" + strings.Repeat("a", 1<<20) + ": x\n", ""},
		{"a number of 1 MB", "cost:\n  - " + strings.Repeat("9", 1<<20) + " x\n", "", "bad-amount"},
	}
}

func each(n int, format string) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, format, i)
	}
	return b.String()
}

// stairs is a list in which every item stands within the one above it.
func stairs(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat("  ", i) + "- x\n")
	}
	return b.String()
}

func ticks(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString("e" + strings.Repeat("`", i+1))
	}
	return b.String() + "\n"
}

// references name each other, and are then all used.
func references(n int) string {
	return each(n, "[r%d]: https://example.org/\n") + "\n" + each(n, "[r%d] ") + "\n"
}

// chain is of snags that each wait for the next.
func chain(n int, circle bool) string {
	var b strings.Builder
	for i := range n {
		next := i + 1
		if next == n {
			if next = 0; !circle {
				fmt.Fprintf(&b, "- [ ] job snag-%d: x\n", i)
				break
			}
		}
		fmt.Fprintf(&b, "- [ ] job snag-%d: x; waits for snag-%d\n", i, next)
	}
	return b.String()
}

// bomb is YAML that grows ninefold with every line where anchors are followed.
func bomb() string {
	b := "a0: &a0 lol\n"
	for i := range 12 {
		b += fmt.Sprintf("a%d: &a%d [%s]\n", i+1, i+1, strings.TrimSuffix(strings.Repeat(fmt.Sprintf("*a%d,", i), 9), ","))
	}
	return b
}

// TestTraps proofreads and publishes each trap with an ordinary note beside it.
// What cannot be read is told, and nothing hangs.
func TestTraps(t *testing.T) {
	for _, c := range traps() {
		t.Run(c.name, func(t *testing.T) {
			dir := memoryDir(t)
			note := "---\ndate: 2026-04-11\n" + c.front + "---\n" + c.body
			for name, text := range map[string]string{"build.md": pathologicalCard, "2026-04-11.md": note, "2026-04-12.md": "# Beam out\n"} {
				if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			proofread, found, _ := timed(t, "proofread", dir, "--json")
			var got struct {
				Problems []struct{ Check, Severity, File string }
				Errors   int
			}
			if err := json.Unmarshal([]byte(found), &got); err != nil {
				t.Fatal(err)
			}
			said := map[string]bool{}
			for _, p := range got.Problems {
				if p.Severity == "error" {
					said[p.Check] = true
				}
				if p.File != "2026-04-11.md" {
					t.Errorf("a problem %s of %s", p.Check, p.File)
				}
			}
			if c.check != "" && !said[c.check] || c.check == "" && got.Errors > 0 {
				t.Errorf("errors of %v, want %q", said, c.check)
			}
			code, _, words := timed(t, "publish", dir)
			if want := min(got.Errors, 1); code != want {
				t.Errorf("publish exits %d, want %d", code, want)
			}
			if proofread != min(got.Errors, 1) || len(words) > 64<<20 {
				t.Errorf("proofread exits %d, publish says %d bytes", proofread, len(words))
			}
		})
	}
}

// memoryDir is a folder that is on no disk, where there is one.
func memoryDir(t *testing.T) string {
	dir, err := os.MkdirTemp("/dev/shm", "guidecoat-test-")
	if err != nil {
		return t.TempDir()
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	return dir
}

// patience is how long a trap may hold a run up on a machine with nothing else to
// do; tests run beside others, and under the race detector.
const patience, slack = 2 * time.Second, 8

func theDay() time.Time { return time.Date(2026, 11, 25, 20, 0, 0, 0, time.UTC) }

func timed(t *testing.T, args ...string) (code int, stdout, stderr string) {
	t.Helper()
	var out, errs bytes.Buffer
	begun := time.Now()
	code = run(context.Background(), world{args, strings.NewReader(""), &out, &errs, func(string) string { return "" }, theDay, ""})
	took := time.Since(begun)
	limit := patience * slack
	if os.Getenv("GUIDECOAT_LONG") != "" {
		limit = patience
	}
	if t.Logf("%s: %v", args[0], took.Round(time.Millisecond)); took > limit {
		t.Errorf("%s took %v", args[0], took)
	}
	if !slices.Contains([]int{0, 1}, code) {
		t.Errorf("%s exits %d: %.300s", args[0], code, errs.String())
	}
	return code, out.String(), errs.String()
}
