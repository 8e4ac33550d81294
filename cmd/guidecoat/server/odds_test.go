package server

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// A position stands for a byte wherever it is: half a character is where that begins, one
// behind a line its end, one behind the text the end of that.
func TestOddPositions(t *testing.T) {
	text := "a😀é\r\nb\rc\n"
	for _, test := range []struct {
		line, character uint32
		utf16, utf8     int
	}{
		{0, 0, 0, 0}, {0, 1, 1, 1}, {0, 2, 1, 1}, {0, 3, 5, 1}, {0, 4, 7, 1}, {0, 5, 7, 5}, {0, 6, 7, 5}, {0, 99, 7, 7},
		{1, 0, 9, 9}, {1, 1, 10, 10}, {1, 2, 10, 10}, {2, 1, 12, 12}, {3, 0, 13, 13}, {3, 7, 13, 13}, {4, 0, 13, 13}, {1<<32 - 1, 1<<32 - 1, 13, 13},
	} {
		for _, utf8 := range []bool{false, true} {
			want := map[bool]int{false: test.utf16, true: test.utf8}[utf8]
			if got := linesOf(text, utf8).offset(position{test.line, test.character}); got != want {
				t.Errorf("%d:%d in bytes %t is byte %d, want %d", test.line, test.character, utf8, got, want)
			}
		}
	}
	// A change there is one, and what follows is about the text that it leaves.
	e := start(t, axle, "")
	e.open("2026-04-11.md", "---\nstage: b😀\n---\n")
	e.problems("2026-04-11.md", "unknown-stage")
	from, to := position{9, 9}, position{1, 9} // turned round, and half of the character
	e.notify("textDocument/didChange", map[string]any{"textDocument": map[string]any{"uri": e.uri("2026-04-11.md"), "version": 2},
		"contentChanges": []any{map[string]any{"range": textRange{from, to}, "text": "ody\n---\n- [ ] job a-b: x; majo\n"}}})
	e.texts["2026-04-11.md"], e.versions["2026-04-11.md"] = "---\nstage: body\n---\n- [ ] job a-b: x; majo\n", 2
	e.problems("2026-04-11.md", "unknown-clause")
	e.ask("textDocument/hover", e.at("2026-04-11.md", "bo|dy"), nil)
}

// What one editor has not saved, the other does not see; what it has saved, it does.
func TestTwoEditors(t *testing.T) {
	one := start(t, axle, "")
	two := startIn(t, one.dir, "")
	before := tree(t, one.dir)
	for _, e := range []*editor{one, two} {
		e.open("2026-04-11.md")
		e.problems("2026-04-11.md", "unknown-stage")
	}
	one.open("build.md")
	one.replace("build.md", "  body:", "  rear axel: budget 100\n  body:")
	one.problems("2026-04-11.md")
	two.replace("2026-04-11.md", "; as consumables", "; as consumable")
	two.problems("2026-04-11.md", "unknown-stage", "unknown-category")
	one.problems("2026-04-11.md")
	if !maps.Equal(tree(t, one.dir), before) {
		t.Error("something was written")
	}
	if err := os.WriteFile(filepath.Join(one.dir, "build.md"), []byte(one.texts["build.md"]), 0o666); err != nil {
		t.Fatal(err)
	}
	two.notify("workspace/didChangeWatchedFiles", map[string]any{"changes": []any{map[string]any{"uri": one.uri("build.md"), "type": 2}}})
	two.problems("2026-04-11.md", "unknown-category")
	one.notify("textDocument/didClose", map[string]any{"textDocument": map[string]any{"uri": one.uri("build.md")}})
	one.problems("2026-04-11.md")
}

// A build that vanishes below an open note has no problems, whatever is asked, and all are
// there again when it is.
func TestBuildVanishes(t *testing.T) {
	dir := t.TempDir()
	write(t, filepath.Join(dir, "build"), axle)
	e := startIn(t, filepath.Join(dir, "build"), "")
	e.open("2026-04-11.md")
	e.problems("2026-04-11.md", "unknown-stage")
	before := tree(t, dir)
	move := func(from, to string) {
		if err := os.Rename(filepath.Join(dir, from), filepath.Join(dir, to)); err != nil {
			t.Fatal(err)
		}
		e.notify("workspace/didChangeWatchedFiles", map[string]any{"changes": []any{}})
	}
	move("build", "away")
	e.problems("2026-04-11.md")
	for _, method := range []string{"hover", "completion", "definition", "references", "documentHighlight", "prepareRename", "rename", "inlayHint", "codeAction", "documentSymbol", "foldingRange", "semanticTokens/full"} {
		params := e.at("2026-04-11.md", "exhaust-h|anger")
		params["range"], params["newName"] = textRange{}, "hanger-rear"
		e.ask("textDocument/"+method, params, nil)
	}
	e.ask("workspace/symbol", map[string]any{"query": ""}, nil)
	e.replace("2026-04-11.md", "3h40", "3k40")
	move("away", "build")
	e.problems("2026-04-11.md", "unknown-stage", "bad-duration")
	if !maps.Equal(tree(t, dir), before) {
		t.Error("something was written")
	}
}

// In a build of ten thousand notes all is answered as in a small one.
func TestTenThousandNotes(t *testing.T) {
	if testing.Short() {
		t.Skip("skipped: it takes a while")
	}
	const many = 10_000
	var archive strings.Builder
	for i := range many {
		fmt.Fprintf(&archive, "-- %d-%02d-%02d-%05d.md --\n---\nstage: body\nparts:\n  part-%d: ordered seal; from Tidewell Dismantlers\n---\n- [ ] job snag-%d: look\n", 1990+i/336, i/28%12+1, i%28+1, i, i, i)
	}
	dir := t.TempDir()
	write(t, dir, archive.String())
	before := tree(t, dir)
	e := startIn(t, dir, "")
	files, err := filepath.Glob(filepath.Join(dir, "*-05000.md"))
	if err != nil || len(files) != 1 {
		t.Fatal(files, err)
	}
	name := filepath.Base(files[0])
	e.open(name)
	e.problems(name)
	e.replace(name, "- [ ] job", "Fetched at Tidewell Dismantlers.\n\n- [x] snag-4999: done\n- [x] snag-50001: done\n- [ ] job")
	told := e.problems(name, "private-words", "unknown-snag")
	if got := e.in(name, told[1].Range); got != "snag-50001" {
		t.Errorf("the problem stands at %q", got)
	}
	e.replace(name, "snag-50001", "snag-432")
	if got := e.labels(name, "snag-432|:"); !slices.Contains(got, "snag-4321") {
		t.Errorf("of the many it offers %q", got)
	}
	params := e.at(name, "Dismant|lers\n---")
	var edit workspaceEdit
	params["newName"] = "Tidewell"
	e.ask("textDocument/rename", params, &edit)
	if len(edit.Changes) != many {
		t.Errorf("a supplier is renamed in %d notes", len(edit.Changes))
	}
	if !maps.Equal(tree(t, dir), before) {
		t.Error("something was written")
	}
}
