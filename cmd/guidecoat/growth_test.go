package main

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"path/filepath"
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
