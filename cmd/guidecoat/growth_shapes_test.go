package main

import (
	"cmp"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"
)

// A shape is a build of which one thing is many. Files are by name.
type shape struct {
	name     string
	size     int      // the smaller one that is tried; 0: 250
	code     int      // of the commands
	commands []string // nil: proofread, snags
	files    func(n int) map[string]string
}

const shapeCard = "---\nbuild: H\ncurrency: GBP\nstages:\n  strip: budget 1\n  paint: budget 1\n---\n"

// cardOf is a job card with lines that are many, and a note or none beside it.
func cardOf(head, line string, word func(int) string, note string) func(int) map[string]string {
	return func(n int) map[string]string {
		files := map[string]string{"build.md": "---\nbuild: H\ncurrency: GBP\n" + head + repeated(n, line, word) + "---\n"}
		if note != "" {
			files["2026-01-01.md"] = note
		}
		return files
	}
}

// noteOf is a note with lines that are many.
func noteOf(head, line string, word func(int) string, tail string) func(int) map[string]string {
	return func(n int) map[string]string {
		return map[string]string{"build.md": shapeCard, "2026-01-01.md": head + repeated(n, line, word) + tail}
	}
}

// repeated writes a line for every number, with that number's words for WORD, those of
// the number behind it for NEXT.
func repeated(n int, line string, word func(int) string) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.NewReplacer("WORD", word(i), "NEXT", word((i+1)%n), "DAY", fmt.Sprint(1+i%28)).Replace(line))
	}
	return b.String()
}

// backwards is a chain of which each link is already waited for when it comes.
func backwards(n int) string {
	var b strings.Builder
	for i := n - 1; i > 1; i-- {
		fmt.Fprintf(&b, "- [ ] job link-%d: x; waits for link-%d\n", i, (i+1)%n)
	}
	return b.String() + "- [ ] job link-0: x; waits for link-1\n"
}

func numbered(i int) string { return fmt.Sprintf("link-%d", i) }
func lettered(i int) string { return "link-" + letters(i) }

// alike are words that are all near each other.
func alike(i int) string {
	return fmt.Sprintf("carrier-%c%c%c%c", 'a'+i%26, 'a'+i/26%26, 'a'+i/26/26%26, 'a'+i/26/26/26)
}

// shapes are the kinds of growth that a builder's notes may have.
func shapes() []shape {
	all := []string{"proofread", "costs"}
	site := []string{"publish"}
	list := []shape{
		{name: "extra pages", size: 100, commands: site, files: func(n int) map[string]string {
			files := map[string]string{"build.md": shapeCard, "2026-01-01.md": "# Begun\n"}
			for i := range n {
				files[fmt.Sprintf("page-%d.md", i)] = fmt.Sprintf("---\npage: How it was %d\n---\nWords.\n", i)
			}
			return files
		}},
		{name: "snags to fill a day with", commands: []string{"snags --hours 8h"}, files: noteOf("", "- [ ] job WORD: x; takes DAYm\n", numbered, "")},
		{name: "snags to fill a day with that others wait for", commands: []string{"snags --hours 8h"}, files: noteOf("", "- [ ] job WORD: x; takes DAYm\n- [ ] job y-WORD: x; waits for WORD\n", numbered, "")},
		{name: "parts that hold up a chain", files: noteOf("---\nstage: strip\nparts:\n", "  p-WORD: needed b\n", numbered, "---\n- [ ] job all: x; waits for p-link-0\n")},
		{name: "a chain behind every part", files: func(n int) map[string]string {
			return map[string]string{"build.md": shapeCard, "2026-01-01.md": "---\nstage: strip\nparts:\n" + repeated(n, "  p-WORD: needed b\n", numbered) + "---\n" +
				"- [ ] job link-0: x; waits for p-link-0\n" + repeated(n-1, "- [ ] job NEXT-x: y; waits for WORD-x; waits for p-WORD\n", numbered) + "- [ ] job link-0-x: z\n"}
		}, code: exitProblems},
		{name: "one snag that waits for all", files: noteOf("", "- [ ] job WORD: x\n- [ ] all-of-them: x; waits for WORD\n", numbered, "")},
		{name: "a snag waits for each part", files: func(n int) map[string]string {
			return map[string]string{"build.md": shapeCard, "2026-01-01.md": "---\nstage: strip\nparts:\n" + repeated(n, "  p-WORD: needed b\n", numbered) + "---\n" + repeated(n, "- [ ] job WORD: x; waits for p-WORD\n", numbered)}
		}},
		{name: "one part again and again", files: noteOf("---\nstage: strip\nparts:\n", "  - hub-seal: WORD seal\n", func(i int) string { return []string{"needed", "ordered", "arrived", "fitted", "returned"}[i%5] }, "---\n")},
		{name: "one snag again and again", files: noteOf("- [ ] job hub-seal: x\n", "WORD\n", func(i int) string {
			return []string{"- [ ] hub-seal: y", "- [x] hub-seal: z", "- [ ] again hub-seal: x"}[i%3]
		}, "")},
		{name: "one reading", files: noteOf("---\nreadings:\n", "  - disc: WORD mm; min 9 mm\n", func(i int) string { return fmt.Sprint(5 + i%8) }, "---\n")},
		{name: "remarks above their opening", files: noteOf("", "- [ ] all-of-them: WORD\n", numbered, "- [ ] job all-of-them: x\n"), code: exitProblems},
		{name: "codes that come and go", files: noteOf("", "```scan engine\nP0WORD x\n```\n\n", func(i int) string { return fmt.Sprintf("%03X", i%4096) }, "")},
		{name: "a circle that all lead to", files: func(n int) map[string]string {
			return map[string]string{"build.md": shapeCard, "2026-01-01.md": repeated(n, "- [ ] job x-WORD: x; waits for WORD\n", numbered) + backwards(n) + "- [ ] job link-1: x; waits for link-0\n"}
		}, code: exitProblems},
		{name: "checks due and work", commands: all, files: func(n int) map[string]string {
			return map[string]string{"build.md": "---\nbuild: H\ncurrency: GBP\nstages:\n  - strip: system wheels\n---\n",
				"2026-01-01.md": "---\nstage: strip\nodometer: 5 km\nparts:\n" + repeated(n, "  WORD: fitted x\n", numbered) + "---\n"}
		}},
		{name: "scans", files: noteOf("", "```scan unit-WORD\nP0401 x\n```\n\n", numbered, "")},
		{name: "codes of a scan", files: func(n int) map[string]string {
			return map[string]string{"build.md": shapeCard, "2026-01-01.md": "```scan engine\n" + repeated(n, "P0WORD x\n", func(i int) string { return fmt.Sprintf("%03X", i%4096) }) + "```\n"}
		}},
		{name: "surcharges", files: noteOf("---\nstage: strip\ncost:\n", "  - 9.00 core; for WORD; surcharge\n", numbered, "parts:\n  link-0: needed x\n---\n"), code: exitProblems},
		{name: "estimates", commands: all, files: func(n int) map[string]string {
			return map[string]string{"build.md": "---\nbuild: H\ncurrency: GBP\nstages:\n" + repeated(n, "  s-WORD: budget 1\n", lettered) + "---\n",
				"2026-01-01.md": "---\nremaining:\n" + repeated(n, "  s-WORD: 1; hours 1h\n", lettered) + "---\n",
				"2026-01-02.md": "---\ntime:\n" + repeated(n, "  - 1h x; stage s-WORD\n", lettered) + "cost:\n" + repeated(n, "  - 1.00 seal; stage s-WORD\n", lettered) + "parts:\n" + repeated(n, "  p-WORD: needed x; stage s-WORD; estimate 1\n", lettered) + "---\n"}
		}},
		{name: "tools of a garage", commands: []string{"costs"}, files: func(n int) map[string]string {
			return map[string]string{"garage.md": "---\ngarage: G\ncurrency: GBP\ntools:\n" + repeated(n, "  - 9.00 WORD; over 5; on 2026-01-01\n", numbered) + "---\n",
				"a/build.md": shapeCard, "a/2026-01-01.md": "# Begun\n"}
		}},
		{name: "builds and tools of a garage", size: 100, commands: []string{"costs"}, files: func(n int) map[string]string {
			files := map[string]string{"garage.md": "---\ngarage: G\ncurrency: GBP\ntools:\n" + repeated(n, "  - 9.00 WORD; over 50; on 2026-01-01\n", numbered) + "---\n"}
			for i := range n {
				dir := fmt.Sprintf("b-%d/", i)
				files[dir+"build.md"], files[dir+"2026-01-01.md"] = shapeCard, "# Begun\n"
			}
			return files
		}},
		{name: "bands of a fee", commands: []string{"bid"}, files: func(n int) map[string]string {
			b := ""
			for i := range n {
				b += fmt.Sprintf("%d to %d, ", 75+i, 500+10*i)
			}
			return map[string]string{"build.md": "---\nbuild: H\ncurrency: GBP\nresale: 4000 90000 900000\nfees:\n  buyer: " + b + "12% above\n---\n"}
		}},
		{name: "fees", commands: []string{"bid"}, files: func(n int) map[string]string {
			b := ""
			for i := range n {
				b += fmt.Sprintf("  f-%d: 0.5 to %d, 0.01%% above\n", i, 500+10*i)
			}
			return map[string]string{"build.md": "---\nbuild: H\ncurrency: GBP\nresale: 4000 9000 90000\nfees:\n" + b + "---\n"}
		}},
	}
	for _, w := range []struct {
		name string
		word func(int) string
	}{{"lettered", lettered}, {"alike", alike}} {
		snag := func(line string) func(int) map[string]string { return noteOf("", line, w.word, "") }
		field := func(key, line string) func(int) map[string]string {
			return noteOf("---\nstage: strip\n"+key+":\n", line, w.word, "---\n")
		}
		for _, s := range []shape{
			{name: "stages on the card", commands: all, files: cardOf("stages:\n", "  WORD: budget 1\n", w.word, "---\nstage: link-0\ncost: 1.00 seal\n---\n"), code: exitProblems},
			{name: "stages in notes", commands: all, files: func(n int) map[string]string {
				return map[string]string{"build.md": "---\nbuild: H\ncurrency: GBP\n---\n", "2026-01-01.md": "---\ncost:\n" + repeated(n, "  - 1.00 seal; stage WORD\n", w.word) + "---\n"}
			}},
			{name: "unknown stages", files: field("cost", "  - 1.00 seal; stage WORD\n"), code: exitProblems},
			// The nearest names are looked for up to a bound, which 250 names do not reach.
			{name: "unknown stages beside as many", size: 1000, files: func(n int) map[string]string {
				return map[string]string{"build.md": "---\nbuild: H\ncurrency: GBP\nstages:\n" + repeated(n, "  s-WORD: budget 1\n", w.word) + "---\n",
					"2026-01-01.md": "---\ncost:\n" + repeated(n, "  - 1.00 seal; stage WORD-x\n", w.word) + "---\n"}
			}, code: exitProblems},
			{name: "parts", size: 1000, files: field("parts", "  WORD: needed x\n")},
			{name: "unknown parts", files: field("cost", "  - 1.00 seal; for WORD\n"), code: exitProblems},
			{name: "suppliers", commands: all, files: field("cost", "  - 1.00 seal; from WORD Limited\n")},
			{name: "checks", files: field("checks", "  WORD: done\n")},
			{name: "failed checks", files: field("checks", "  WORD: failed\n")},
			{name: "readings", files: field("readings", "  WORD: 8.7 mm; min 9 mm\n")},
			{name: "unknown keys", files: noteOf("---\n", "WORD: x\n", w.word, "---\n"), code: exitProblems},
			{name: "details of the vehicle", files: cardOf("vehicle:\n", "  WORD: x\n", w.word, "")},
			{name: "items", files: snag("- [ ] job WORD: x\n")},
			{name: "unknown items", files: snag("- [x] WORD: x\n"), code: exitProblems},
			{name: "a chain", files: snag("- [ ] job WORD: x; waits for NEXT\n"), code: exitProblems},
			{name: "a chain of unknown", files: snag("- [ ] job WORD: x; waits for NEXT-x\n"), code: exitProblems},
			{name: "units of scans", files: noteOf("", "```scan WORD\nP0401 x\n```\n\n", w.word, "")},
			{name: "missing pictures", files: snag("![x](photos/WORD.jpg)\n\n")},
		} {
			s.name += ", " + w.name
			list = append(list, s)
		}
	}
	return list
}

// No shape takes more than its size in CPU time: what looks at every pair of things
// shows as sixty-four times for eight.
func TestShapesGrowWithSize(t *testing.T) {
	const most, times = 20.0, 8
	if cpuTime() == 0 {
		t.Skip("CPU time is not known here")
	}
	for _, s := range shapes() {
		if s.commands == nil {
			s.commands = []string{"proofread", "snags"}
		}
		t.Run(s.name, func(t *testing.T) {
			size := cmp.Or(s.size, 250)
			few, many := s.write(t, size), s.write(t, times*size)
			ratio := 100.0
			for range 3 { // whoever is slow once may have been disturbed
				some, more := s.work(t, few), s.work(t, many)
				t.Logf("%d in %v, %d in %v", size, some, times*size, more)
				if ratio = min(ratio, float64(more)/float64(some)); ratio < most {
					break
				}
			}
			if ratio > most {
				t.Errorf("%d take %.1f times as long as %d", times*size, ratio, size)
			}
		})
	}
}

func (s shape) write(t *testing.T, n int) string {
	t.Helper()
	dir := memoryDir(t)
	for name, data := range s.files(n) {
		at := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(at, []byte(data), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// work is the CPU time that the commands take.
func (s shape) work(t *testing.T, dir string) time.Duration {
	runtime.GC()
	from := cpuTime()
	for _, command := range s.commands {
		args := strings.Fields(command)
		args = slices.Insert(args, 1, dir)
		if args[0] == "publish" {
			args = append(args, "--to", filepath.Join(memoryDir(t), "site"))
		}
		runQuietly(t, s.code, args...)
	}
	return cpuTime() - from
}
