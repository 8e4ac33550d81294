package main

import (
	"bytes"
	"context"
	"errors"
	"image"
	"image/png"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
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

// Whatever is changed between two runs, a run that knows the one before it ends with
// the site that one which knows nothing makes, and the next one is left out.
func TestLastRunChangesNothing(t *testing.T) {
	dir, cache := t.TempDir(), t.TempDir()
	site := filepath.Join(dir, "site") // where it stays that of the build, whatever its name
	if err := os.CopyFS(dir, os.DirFS("../../example-build")); err != nil {
		t.Fatal(err)
	}
	if err := os.RemoveAll(filepath.Join(dir, "photos")); err != nil { // making those again and again takes long
		t.Fatal(err)
	}
	notes, err := filepath.Glob(filepath.Join(dir, "20*.md"))
	if err != nil || len(notes) < 12 {
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
	publishTo(t, cache, dir, site)
	page := filepath.Join(site, "sessions", strings.TrimSuffix(filepath.Base(notes[4]), ".md")+".html")
	for _, step := range []struct {
		what   string
		change func()
	}{
		{"words of a note", func() { edit(notes[3], add("\nA word more.\n")) }},
		{"a check that warns", func() { edit(notes[3], add("\n![it](not-there.png)\n")) }},
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
		{"a page that somebody edited to the same length", func() { edit(page, func(s string) string { return strings.Replace(s, "<h1 ", "<h2 ", 1) }) }},
		{"a page that somebody deleted", func() { os.Remove(page) }},
		{"a template of one's own", func() {
			write(filepath.Join(dir, "theme", "style.css"), "h1 { color: red }\n")
		}},
		{"one letter of it", func() {
			write(filepath.Join(dir, "theme", "style.css"), "h1 { color: tan }\n")
		}},
		{"no template of one's own", func() { os.RemoveAll(filepath.Join(dir, "theme")) }},
		{"the other theme", func() { args = append(args, "--theme", "lacquer") }},
		{"an address", func() { args = append(args, "--address", "https://example.org/halden/") }},
		{"a date", func() { args = append(args, "--as-of", "2026-06-01") }},
		{"a record that is damaged", func() {
			kept, _ := filepath.Glob(filepath.Join(cache, "guidecoat", "sites", "*"))
			for _, file := range kept {
				edit(file, func(s string) string { return s[:len(s)/2] })
			}
		}},
	} {
		step.change()
		said := publishTo(t, cache, dir, site, args...)
		if strings.Contains(said, "nothing has changed") && step.what != "a record that is damaged" {
			t.Errorf("%s: it says %q", step.what, said)
		}
		if again := publishTo(t, cache, dir, site, args...); again != upToDate(said, site) {
			t.Errorf("%s: the next run says %q, behind %q", step.what, again, said)
		}
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

// upToDate is what a run says where nothing has changed since one that said something.
func upToDate(said, site string) string {
	lines := slices.DeleteFunc(strings.SplitAfter(said, "\n"), func(l string) bool { return strings.Contains(l, "it is kept here") })
	return strings.Join(lines[:len(lines)-2], "") + site + " is up to date: nothing has changed.\n"
}

// stands tells whether a run would be left out.
func stands(w world, dir, site string) bool {
	if w.now == nil {
		w.now = theDay
	}
	w.getenv, w.stderr = func(string) string { return "" }, io.Discard
	r := w.lastRun(dir, publishing{audience: "public", theme: "surfacer", to: site})
	if kept, ok := r.store().Get(r.name); ok {
		defer r.store().Put(r.name, kept) // which a run that is not left out forgets
	}
	return r.stands()
}

// A run is left out only if all that it would see, and all that it has made, is as it was.
func TestLastRunStands(t *testing.T) {
	for _, inside := range []bool{false, true} {
		in := t.TempDir()
		dir, cache := filepath.Join(in, "halden"), t.TempDir()
		site := filepath.Join(in, "site")
		if inside {
			site = filepath.Join(dir, "site")
		}
		write := func(path, data string) {
			t.Helper()
			path = filepath.Join(dir, filepath.FromSlash(path))
			if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o755), os.WriteFile(path, []byte(data), 0o644)); err != nil {
				t.Fatal(err)
			}
		}
		write("build.md", previewCard+"\n![a van](van.png) [the sheet](sheet.pdf) [what](gone.pdf)\n")
		write("2026-04-11.md", "---\nstage: strip\n---\n# Began\n")
		write("left alone.md", "Words.\n")
		write("van.png", dot(t, 9, 5))
		write("aside.png", dot(t, 9, 5))
		write("sheet.pdf", "%PDF-1.7")
		write("theme/touch-in.css", "p { color: red }\n")
		write("site-buyer/.guidecoat", "guidecoat site for buyer\n"+strings.Repeat("page.html\n", 100))
		publish := func(w world) {
			t.Helper()
			var said bytes.Buffer
			w.args, w.stdout, w.stderr, w.getenv, w.now = []string{"publish", dir, "--to", site}, io.Discard, &said, func(string) string { return "" }, theDay
			if code := run(context.Background(), w); code != exitDone {
				t.Fatalf("exit code %d\n%s", code, said.String())
			}
		}
		w := world{cache: cache}
		if publish(w); !stands(w, dir, site) {
			t.Fatalf("inside %v: it is not left out", inside)
		}
		kept, err := filepath.Glob(filepath.Join(cache, "guidecoat", "sites", "*"))
		if err != nil || len(kept) != 1 {
			t.Fatalf("%v, %v", kept, err)
		}
		if info, err := os.Stat(kept[0]); err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("others may read it: %v, %v", info.Mode(), err)
		}
		if stands(world{}, dir, site) || stands(world{cache: cache, now: func() time.Time { return theDay().AddDate(0, 0, 1) }}, dir, site) {
			t.Error("it is left out without a cache, or on another day")
		}
		at := func(name string) string {
			if rest, ok := strings.CutPrefix(name, "site/"); ok {
				return filepath.Join(site, rest)
			}
			return filepath.Join(dir, name)
		}
		for _, name := range []string{"build.md", "2026-04-11.md", "left alone.md", "van.png", "sheet.pdf", "theme/touch-in.css", "site-buyer/.guidecoat",
			"site/index.html", "site/style.css", "site/.guidecoat"} {
			name = at(name)
			info, err := os.Stat(name)
			was, err2 := os.ReadFile(name)
			if err := errors.Join(err, err2); err != nil {
				t.Fatal(err)
			}
			other := strings.Repeat("x", len(was))
			for what, change := range map[string]func() error{
				"another of the same size and time": func() error {
					return errors.Join(os.WriteFile(name, []byte(other), 0o644), os.Chtimes(name, info.ModTime(), info.ModTime()))
				},
				"longer":      func() error { return os.WriteFile(name, append(was[:len(was):len(was)], 'x'), 0o644) },
				"shorter":     func() error { return os.WriteFile(name, was[:len(was)-1], 0o644) },
				"gone":        func() error { return os.Remove(name) },
				"a folder":    func() error { return errors.Join(os.Remove(name), os.Mkdir(name, 0o755)) },
				"a loose end": func() error { return errors.Join(os.Remove(name), os.Symlink("nowhere", name)) },
			} {
				if err := change(); err != nil {
					t.Fatal(err)
				}
				if stands(w, dir, site) {
					t.Errorf("%s is %s: it is left out", name, what)
				}
				if err := errors.Join(os.RemoveAll(name), os.WriteFile(name, was, 0o644)); err != nil {
					t.Fatal(err)
				}
				if !stands(w, dir, site) {
					t.Errorf("%s was %s: it is not left out again", name, what)
				}
			}
		}
		for _, name := range []string{"gone.pdf", "2026-04-12.md", "a.markdown", "more/build.md", "more/2026-04-12.md", "theme/style.css", "site/more.html", "site/photos/mine.jpg", "site/.git/config"} {
			name = at(name)
			if err := errors.Join(os.MkdirAll(filepath.Dir(name), 0o755), os.WriteFile(name, nil, 0o644)); err != nil {
				t.Fatal(err)
			}
			if stands(w, dir, site) {
				t.Errorf("there is also %s: it is left out", name)
			}
			_, err := os.Stat(name)
			for err == nil { // and the folder it was alone in
				if err = os.Remove(name); err == nil {
					name = filepath.Dir(name)
				}
			}
			if !stands(w, dir, site) {
				t.Errorf("there was also %s: it is not left out again", name)
			}
		}
		if err := os.RemoveAll(filepath.Join(dir, "theme")); err != nil || stands(w, dir, site) {
			t.Errorf("there is no theme any more: it is left out; %v", err)
		}
	}
}

// What the notes are warned of is said by a run that is left out as by any other.
func TestLastRunSaysTheSame(t *testing.T) {
	dir, cache, site := t.TempDir(), t.TempDir(), filepath.Join(t.TempDir(), "site")
	p := &previewed{t: t, dir: dir}
	p.write("build.md", previewCard+"\n[what](gone.pdf)\n")
	p.write("theme/touch-in.css", "")
	said := publishTo(t, cache, dir, site)
	if !strings.Contains(said, "1 warning in 1 note") || !strings.Contains(said, "touch-in.css") {
		t.Fatalf("it says %q", said)
	}
	for range 2 {
		if again := publishTo(t, cache, dir, site); again != upToDate(said, site) {
			t.Errorf("it says %q, behind %q", again, said)
		}
	}
}
