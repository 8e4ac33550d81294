package main

import (
	"bytes"
	"context"
	"image"
	"image/png"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// publishTo publishes as on one certain day.
func publishTo(t *testing.T, cache, dir, to string, args ...string) string {
	t.Helper()
	var out, errs bytes.Buffer
	day := func() time.Time { return time.Date(2026, 7, 1, 12, 0, 0, 0, time.UTC) }
	w := world{append([]string{"publish", dir, "--to", to}, args...), bytes.NewReader(nil), &out, &errs, func(string) string { return "" }, day, cache}
	if code := run(context.Background(), w); code != exitDone {
		t.Fatalf("exit code %d\n%s", code, errs.String())
	}
	return errs.String()
}

func filesIn(t *testing.T, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := os.ReadFile(filepath.Join(dir, path))
		files[path] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// Whatever is changed between two runs, a run that remembers the one before it ends
// with the site that one without any memory makes.
func TestMemoryChangesNothing(t *testing.T) {
	dir, cache, site := t.TempDir(), t.TempDir(), filepath.Join(t.TempDir(), "site")
	if err := os.CopyFS(dir, os.DirFS("../../example-build")); err != nil {
		t.Fatal(err)
	}
	if err := os.RemoveAll(filepath.Join(dir, "photos")); err != nil { // making those again and again takes long
		t.Fatal(err)
	}
	notes, err := filepath.Glob(filepath.Join(dir, "20*.md"))
	if err != nil || len(notes) < 10 {
		t.Fatalf("%d notes, %v", len(notes), err)
	}
	write := func(path, data string) {
		t.Helper()
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(data), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	edit := func(path string, change func(string) string) {
		t.Helper()
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		was := string(data)
		now := change(was)
		if now == was {
			t.Fatalf("%s was not changed", path)
		}
		write(path, now)
	}
	add := func(words string) func(string) string { return func(s string) string { return s + words } }
	args := []string{}
	page := filepath.Join(site, "sessions", strings.TrimSuffix(filepath.Base(notes[4]), ".md")+".html")
	for _, step := range []struct {
		what   string
		change func()
	}{
		{"nothing", func() {}},
		{"words of a note", func() { edit(notes[3], add("\nA word more.\n")) }},
		{"a hidden comment", func() { edit(notes[3], add("\n<!-- only for us -->\n")) }},
		{"a snag of another note's part", func() { edit(notes[len(notes)-1], add("\n- [ ] temporary memory-test: held by wire\n")) }},
		{"a picture that is not there", func() { edit(notes[2], add("\n![the beam](beam-seen.png)\n")) }},
		{"the picture", func() { write(filepath.Join(dir, "beam-seen.png"), dot(t, 3, 2)) }},
		{"the same picture, larger", func() { write(filepath.Join(dir, "beam-seen.png"), dot(t, 5, 2)) }},
		{"a link to a note that is not there", func() { edit(notes[10], add("\nSee [later](2026-04-03-later.md).\n")) }},
		{"that note", func() { write(filepath.Join(dir, "2026-04-03-later.md"), "Much later.\n") }},
		{"a title that its neighbours tell", func() { write(filepath.Join(dir, "2026-04-03-later.md"), "# Another title\n\nMuch later.\n") }},
		{"a note that is gone", func() { os.Remove(filepath.Join(dir, "2026-04-03-later.md")) }},
		{"a snag that waits for another", func() {
			edit(notes[5], add("\n- [ ] job wait-one: first; waits for wait-two\n"))
			edit(notes[7], add("\n- [ ] job wait-two: second\n"))
		}},
		{"which is for nobody's eyes now", func() {
			edit(notes[7], func(s string) string { return strings.Replace(s, "wait-two: second", "wait-two: second; private", 1) })
		}},
		{"the name of the build", func() {
			edit(filepath.Join(dir, "build.md"), func(s string) string { return strings.Replace(s, "build: ", "build: Another ", 1) })
		}},
		{"a page that somebody edited to the same length", func() { edit(page, func(s string) string { return strings.Replace(s, "<h1>", "<h2>", 1) }) }},
		{"a page that somebody deleted", func() { os.Remove(page) }},
		{"a template of one's own", func() {
			write(filepath.Join(dir, "theme", "templates", "session.html"), `{{define "main"}}<h1>{{.Heading}}</h1>{{.Body}}{{end}}`)
		}},
		{"one letter of it", func() {
			write(filepath.Join(dir, "theme", "templates", "session.html"), `{{define "main"}}<h1>{{.Heading}}</h1>!{{.Body}}{{end}}`)
		}},
		{"no template of one's own", func() { os.RemoveAll(filepath.Join(dir, "theme")) }},
		{"the other theme", func() { args = append(args, "--theme", "lacquer") }},
		{"an address", func() { args = append(args, "--base-url", "https://example.org/halden/") }},
		{"a date", func() { args = append(args, "--as-of", "2026-06-01") }},
		{"a memory that is damaged", func() {
			kept, _ := filepath.Glob(filepath.Join(cache, "guidecoat", "pages", "*"))
			for _, file := range kept {
				edit(file, func(s string) string { return s[:len(s)/2] })
			}
		}},
	} {
		step.change()
		publishTo(t, cache, dir, site, args...)
		afresh := filepath.Join(t.TempDir(), "site")
		publishTo(t, "", dir, afresh, args...)
		got, want := filesIn(t, site), filesIn(t, afresh)
		for path := range want {
			if got[path] != want[path] {
				t.Errorf("%s: %s is not as it is made afresh", step.what, path)
			}
		}
		for path := range got {
			if _, ok := want[path]; !ok {
				t.Errorf("%s: %s is too much", step.what, path)
			}
		}
	}
}

// dot is a small picture.
func dot(t *testing.T, width, height int) string {
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, width, height))); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// A page that would come out the same is not made.
func TestMemorySaves(t *testing.T) {
	dir, cache, site := t.TempDir(), t.TempDir(), filepath.Join(t.TempDir(), "site")
	writeBuild(t, dir, 20)
	publishTo(t, cache, dir, site)
	w := world{cache: cache}
	m := w.rememberSite(site)
	if len(m.was) < 20 {
		t.Fatalf("%d pages are remembered", len(m.was))
	}
	for path, trace := range m.was {
		if !m.Stands(path, trace.of) {
			t.Errorf("%s does not stand", path)
		}
		trace.of[3]++
		if m.Stands(path, trace.of) {
			t.Errorf("%s stands, made of something else", path)
		}
	}
	if info, err := os.Stat(m.file); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("others may read it: %v, %v", info.Mode(), err)
	}
	if said := publishTo(t, cache, dir, site); !strings.Contains(said, "nothing has changed") {
		t.Errorf("the second run says %q", said)
	}
}
