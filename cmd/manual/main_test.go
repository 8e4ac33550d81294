package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal"
	"guidecoat/journal/check"
	"guidecoat/journal/problem"
)

func readme(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestReadmeIsMadeFromTheCode(t *testing.T) {
	have := readme(t)
	want, err := fill(have)
	if err != nil {
		t.Fatal(err)
	}
	if have != want {
		t.Error("README.md is out of date: run go run ./cmd/manual")
	}
}

// The first note that the README shows must be a note without any problem.
func TestReadmeFirstNote(t *testing.T) {
	_, rest, _ := strings.Cut(readme(t), "<!-- first note -->\n")
	text, _, ok := strings.Cut(rest, "<!-- end -->")
	if !ok {
		t.Fatal("README.md shows no first note")
	}
	var lines []string
	for line := range strings.Lines(strings.TrimSpace(text)) {
		lines = append(lines, strings.TrimPrefix(line, "    "))
	}
	fsys := fstest.MapFS{
		"build.md":      {Data: []byte("---\nbuild: Halden hatchback\ncurrency: GBP\nvat: 20%\n---\n")},
		"2026-04-11.md": {Data: []byte(strings.Join(lines, ""))},
	}
	b, err := journal.ReadBuild(fsys, ".")
	if err != nil {
		t.Fatal(err)
	}
	if len(b.Money) != 1 || len(b.Work) != 1 || len(b.At(0, 20261125).Snags) != 1 {
		t.Errorf("the note was not read as the README says: %d money lines, %d of time", len(b.Money), len(b.Work))
	}
	for _, p := range check.Run(b.At(0, 20261125), problem.Information) {
		if p.Severity != problem.Information {
			t.Errorf("%s: %s", p.Check, p.Message)
		}
	}
}
