package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"
)

// obeyed are characters that a terminal obeys, or that turn the direction of writing round.
const obeyed = "\x1b[2J\x07\x7f\u009b31m\u202e\u2066\u200b"

// Nothing that is printed for people holds a character that a terminal obeys, whatever
// notes, names of files and folders, and arguments hold.
func TestNothingIsObeyed(t *testing.T) {
	const x = obeyed
	root := filepath.Join(t.TempDir(), "garage"+x)
	dir := filepath.Join(root, "build"+x)
	card := "---\nbuild: H" + x + "\ncurrency: GBP\nresale: 1 2 3\nvehicle:\n  model" + x + ": F" + x + "\nfees:\n  fee" + x + ": 5\nstages:\n  strip" + x + ": budget 1\n  paint: about" + x + "; budget 1\n---\n"
	note := "---\ntitle: T" + x + "\nstage: strip" + x + "\ncost:\n  - 1.00 seal" + x + "; from Mill" + x + "; receipt r" + x + "\nparts:\n  hub-seal: needed a seal" + x + "; from Mill" + x + "\nchecks:\n  road" + x + ": failed" + x + "\n  road-test: failed rattles" + x +
		"\nreadings:\n  disc" + x + ": 8 mm; min 9 mm\nkey" + x + ": x\n---\n- [ ] job seat-belt: frayed" + x + "; takes 1h; dangerous\n- [ ] plain" + x + "\n- [ ] job hub-job: x" + x + "; waits for hub-seal\n![x](gone" + x + ".jpg)\n\n```scan abs\nC0035 left" + x + "\n```\n"
	for _, clean := range []bool{false, true} { // what stops at errors goes on without
		files := map[string]string{"garage.md": "---\ngarage: G" + x + "\ncurrency: GBP\ntools:\n  - 9.00 jack" + x + "; over 2; on 2026-01-01\n---\n"}
		files["build"+x+"/build.md"], files["build"+x+"/2026-01-02 a"+x+".md"] = card, note
		if clean {
			files["build"+x+"/build.md"], files["build"+x+"/2026-01-02 a"+x+".md"] = strings.ReplaceAll(card, x, ""), "- [ ] job hub-job: x; takes 1h\n"
			files["garage.md"] = strings.ReplaceAll(files["garage.md"], x, "")
		}
		for name, data := range files {
			at := filepath.Join(root, name)
			if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
				t.Skipf("this file system takes no such names: %v", err)
			}
			if err := os.WriteFile(at, []byte(data), 0o644); err != nil {
				t.Skipf("this file system takes no such names: %v", err)
			}
		}
		for _, in := range []string{root, dir, filepath.Join(root, "none"+x), filepath.Join(dir, "build.md")} {
			for _, args := range [][]string{
				{"proofread", in}, {"proofread", in, "--all"}, {"costs", in}, {"snags", in}, {"snags", in, "--all"}, {"snags", in, "--doable"}, {"snags", in, "--hours", "8h"},
				{"parts", in}, {"parts", in, "--shopping"}, {"bid", in}, {"publish", in}, {"publish", in, "--to", in}, {"publish", in, "--theme", "no" + x}, {"handover", in}, {"handover", in, "--to", "sell"},
				{"note", in}, {"note", in, "--title", "T" + x}, {"note", in, "--build", "H" + x}, {"note", in, "--build", "H"}, {"no" + x}, {"snags", in, in}, {"snags", in, "--kind", "no" + x}, {"snags", in, "--no" + x}, {"help", "no" + x}, {"proofread", "--about", "no" + x},
			} {
				var out bytes.Buffer
				run(context.Background(), world{args, strings.NewReader(""), &out, &out, func(string) string { return "" }, theDay, ""})
				for _, r := range out.String() {
					if unicode.IsControl(r) && r != '\n' && r != '\t' || unicode.Is(unicode.Cf, r) {
						t.Errorf("%q prints %U: %.300q", args, r, out.String())
						break
					}
				}
			}
		}
	}
}

// A title of any length makes a note whose name every file system takes, and that is
// without a mistake; one with characters that nobody sees makes none.
func TestTitles(t *testing.T) {
	const family = "\U0001F468\u200d\U0001F469\u200d\U0001F467"
	for title, made := range map[string]bool{
		strings.Repeat("\U0001F527", 80): true, strings.Repeat("車", 300): true, strings.Repeat(family, 90): true, "e" + strings.Repeat("\u0301", 300): true, strings.Repeat("axle ", 90): true,
		"a" + obeyed: false, "a\x1b": false, "a\u202eb": false, "a\u0085b": true, "a\nb": true, "a\xffb": false,
	} {
		dir := memoryDir(t)
		if err := os.WriteFile(filepath.Join(dir, "build.md"), []byte(shapeCard), 0o644); err != nil {
			t.Fatal(err)
		}
		want := exitDone
		if !made {
			want = exitUsage
		}
		runQuietly(t, want, "note", dir, "--title", title)
		first, _ := filepath.Glob(filepath.Join(dir, "2*.md"))
		for _, path := range first { // one that is still empty is not made again
			text, err := os.ReadFile(path)
			if err == nil {
				err = os.WriteFile(path, append(text, "\nBegun.\n"...), 0o644)
			}
			if err != nil {
				t.Fatal(err)
			}
		}
		runQuietly(t, want, "note", dir, "--title", title) // another of that name
		runQuietly(t, exitDone, "proofread", dir)
		files, err := filepath.Glob(filepath.Join(dir, "2*.md"))
		if err != nil || len(files) != map[bool]int{true: 2}[made] {
			t.Errorf("%.20q makes %q, %v", title, files, err)
		}
		for _, f := range files {
			if name := filepath.Base(f); len(name) > 255 || !utf8.ValidString(name) || strings.HasSuffix(strings.TrimSuffix(name, ".md"), "\u200d") {
				t.Errorf("%.20q makes %q", title, name)
			}
		}
	}
}
