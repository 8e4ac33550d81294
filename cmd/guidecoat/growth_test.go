package main

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"
)

// Work grows with the number of notes and no faster. What is counted is allocations,
// which are the same on every machine, however busy.
func TestAllocationsGrowWithNotes(t *testing.T) {
	const small, large = 100, 400
	perNote := func(n int, command string) float64 {
		dir := t.TempDir()
		writeBuild(t, dir, n)
		round := 0
		return testing.AllocsPerRun(1, func() {
			args := []string{command, dir}
			if command == "publish" {
				round++
				args = append(args, "--to", filepath.Join(dir, "..", fmt.Sprint("site-", n, "-", round)))
			}
			runQuietly(t, exitDone, args...)
		}) / float64(n)
	}
	for _, command := range []string{"proofread", "costs", "snags", "parts", "publish"} {
		few, many := perNote(small, command), perNote(large, command)
		if ratio := many / few; ratio > 1.1 {
			t.Errorf("%s: %.0f allocations a note for %d notes, %.0f for %d", command, few, small, many, large)
		}
	}
}

// runQuietly runs the program and insists on its exit code.
func runQuietly(t *testing.T, want int, args ...string) {
	t.Helper()
	var out, errs bytes.Buffer
	w := world{args, bytes.NewReader(nil), &out, &errs, func(string) string { return "" }, time.Now, ""}
	if code := run(context.Background(), w); code != want {
		t.Fatalf("%v: exit code %d, want %d\n%.2000s", args, code, want, errs.String())
	}
}

// Builds in which everything is wrong, or hangs together, take no more than their
// size in CPU time: what looks at every pair of things shows as sixteen times for four.
func TestTimeGrowsWithSize(t *testing.T) {
	const small, large, most = 200, 800, 9.0
	if cpuTime() == 0 {
		t.Skip("CPU time is not known here")
	}
	card := "---\nbuild: H\ncurrency: GBP\nstages:\n  strip: budget 1\n  paint: budget 1\n---\n"
	for _, c := range []struct {
		name string
		code int
		note func(i, n int) string
	}{
		{"unknown stages", exitProblems, func(i, n int) string { return fmt.Sprintf("---\nstage: stripp-%d\ntime: 1h\n---\n", i) }},
		{"unknown parts", exitProblems, func(i, n int) string {
			return fmt.Sprintf("---\nstage: strip\ncost: 1.00 seal; for hub-%s\nparts:\n  bolt-%s: needed b\n---\n", letters(i), letters(i))
		}},
		{"a chain of waiting", exitDone, func(i, n int) string {
			if i == n-1 {
				return fmt.Sprintf("- [ ] job link-%d: x\n", i)
			}
			return fmt.Sprintf("- [ ] job link-%d: x; waits for link-%d\n", i, i+1)
		}},
		{"a chain of waiting, backwards", exitDone, func(i, n int) string {
			if i == 0 {
				return "- [ ] job link-0: x\n"
			}
			return fmt.Sprintf("- [ ] job link-%d: x; waits for link-%d\n", i, i-1)
		}},
		{"a snag waits for each part", exitDone, func(i, n int) string {
			return fmt.Sprintf("---\nstage: strip\nparts:\n  bolt-%d: needed b\n---\n- [ ] job link-%d: x; waits for bolt-%d\n", i, i, i)
		}},
		{"unknown snags", exitProblems, func(i, n int) string { return fmt.Sprintf("- [x] seal-%s: done\n", letters(i)) }},
		{"one part again and again", exitDone, func(i, n int) string {
			return "---\nstage: strip\ncost: 1.00 seal; for hub-seal\nparts:\n  hub-seal: " + []string{"needed seal", "ordered", "arrived", "fitted", "returned"}[i%5] + "\n---\n"
		}},
		{"one snag again and again", exitProblems, func(i, n int) string {
			return []string{"- [ ] job hub-seal: x\n", "- [ ] hub-seal: y\n", "- [x] hub-seal: z\n", "- [ ] again hub-seal: x\n", "- [x] hub-seal: z\n"}[min(i, 3+i%2)]
		}},
		{"one reading", exitDone, func(i, n int) string { return "---\nreadings:\n  disc: 8.7 mm; min 9 mm\n---\n" }},
		{"a supplier a note", exitDone, func(i, n int) string {
			return fmt.Sprintf("---\nstage: strip\ncost: 1.00 seal; from Supplier %s Limited\n---\nWent to %s.\n", letters(i), letters(i))
		}},
		{"missing pictures", exitDone, func(i, n int) string { return fmt.Sprintf("![x](photos/x-%s.jpg)\n", letters(i)) }},
		{"fault codes", exitDone, func(i, n int) string {
			return fmt.Sprintf("```scan engine\nP%04d x\nP%04d x\n```\n", i%3000, (i+1)%3000)
		}},
	} {
		of := func(n int) string {
			dir := t.TempDir()
			files := map[string]string{"build.md": card}
			for i := range n {
				files[fmt.Sprintf("2026-01-01-%05d.md", i)] = c.note(i, n)
			}
			for name, data := range files {
				if err := os.WriteFile(filepath.Join(dir, name), []byte(data), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			return dir
		}
		few, many := of(small), of(large)
		ratio := 100.0
		for range 3 { // whoever is slow once may have been disturbed
			ratio = min(ratio, float64(workOn(t, many, c.code))/float64(workOn(t, few, c.code)))
			if ratio < most {
				break
			}
		}
		if ratio > most {
			t.Errorf("%s: %d notes take %.1f times as long as %d", c.name, large, ratio, small)
		}
	}
}

// workOn is the CPU time that the commands take for a build.
func workOn(t *testing.T, dir string, code int) time.Duration {
	runtime.GC()
	from := cpuTime()
	for _, command := range []string{"proofread", "snags", "parts"} {
		runQuietly(t, code, command, dir)
	}
	return cpuTime() - from
}

// letters is a word of a number's own, far from those of other numbers: digits do not
// make words near.
func letters(i int) string {
	r := rand.New(rand.NewPCG(7, uint64(i)))
	var b strings.Builder
	for range 9 {
		b.WriteByte(byte('a' + r.IntN(26)))
	}
	return b.String()
}
