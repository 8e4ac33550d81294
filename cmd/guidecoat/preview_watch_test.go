package main

import (
	"bytes"
	"context"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync/atomic"
	"testing"
	"time"

	"guidecoat/journal/marker"
)

// What a build is not made of does not refresh the preview.
func TestWatcherLooks(t *testing.T) {
	dir := t.TempDir()
	p := &previewed{t: t, dir: dir}
	p.write("build.md", "x")
	p.write("notes/a.md", "x")
	p.write("site/"+marker.Marker, marker.Site{Audience: "public", Build: "x"}.Text())
	w := newWatcher(os.DirFS(dir))
	same := func(what string, want bool) {
		t.Helper()
		now := w.look()
		if (now == w.last) != want {
			t.Errorf("%s: whether it looks the same is not %v", what, want)
		}
		w.last = now
	}
	same("untouched", true)
	p.write(".site.lock", "x")
	p.write(".git/index", "x")
	p.write("notes/.a.md.swp", "x")
	p.write("site/index.html", "x")
	p.write("site/pictures/a.jpg", "x")
	same("hidden and published", true)
	p.write("site/2026-04-11.md", "x")
	same("a note in a published folder, which is an error", false)
	p.write("notes/a.md", "xy")
	same("another size", false)
	if err := os.Chtimes(filepath.Join(dir, "notes/a.md"), time.Time{}, time.Unix(1e9, 5)); err != nil {
		t.Fatal(err)
	}
	same("another time", false)
	p.write("photos/a.jpg", "x")
	same("a new file", false)
	if err := os.Rename(filepath.Join(dir, "photos/a.jpg"), filepath.Join(dir, "photos/b.jpg")); err != nil {
		t.Fatal(err)
	}
	same("another name", false)
	if err := os.RemoveAll(dir); err != nil {
		t.Fatal(err)
	}
	same("gone", false)
}

// slowly is a folder in which it takes long to look at everything.
type slowly struct {
	fs.FS
	looks *atomic.Int32
}

func (f slowly) ReadDir(name string) ([]fs.DirEntry, error) {
	if name == "." {
		f.looks.Add(1)
		time.Sleep(200 * time.Millisecond)
	}
	return fs.ReadDir(f.FS, name)
}

// Everything in a large folder is looked at seldom, and a note that is saved is noticed
// at once all the same.
func TestWatcherOfMuch(t *testing.T) {
	dir := t.TempDir()
	p := &previewed{t: t, dir: dir}
	for i := range 3 * hotMost {
		p.write(fmt.Sprintf("old-%d.md", i), "x")
		if err := os.Chtimes(filepath.Join(dir, fmt.Sprintf("old-%d.md", i)), time.Time{}, time.Unix(int64(i), 0)); err != nil {
			t.Fatal(err)
		}
	}
	p.write("notes/today.md", "x")
	var looks atomic.Int32
	w := newWatcher(slowly{os.DirFS(dir), &looks})
	ctx, stop := context.WithTimeout(t.Context(), 3*time.Second)
	defer stop()
	if w.wait(ctx) || looks.Load() > 1 {
		t.Errorf("in 3 seconds of quiet everything is looked at %d times", looks.Load()-1)
	}
	for _, saved := range []string{"today.md", "today.md", "new.md"} {
		waiting := make(chan bool)
		go func() { waiting <- w.wait(t.Context()) }()
		p.write("notes/"+saved, fmt.Sprint("x", looks.Load()))
		select {
		case <-waiting:
		case <-time.After(5 * time.Second):
			t.Fatalf("%s is not noticed", saved)
		}
	}
	if n := looks.Load(); n > 5 {
		t.Errorf("everything is looked at %d times for three notes", n-1)
	}
}

func TestDressed(t *testing.T) {
	page := []byte("<!doctype html><head><meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'\">\n<title>x</title></head><body><p>x</p></body></html>")
	before := bytes.Clone(page)
	got := dressed(page, "v", nil)
	want := "<!doctype html><head><title>x</title></head><body><p>x</p><script data-version=\"v\">" + refreshScript + "</script>\n</body></html>"
	if string(got) != want || !bytes.Equal(page, before) {
		t.Errorf("%s", got)
	}
	if got := dressed([]byte("<p>x"), "v", nil); !bytes.HasPrefix(got, []byte("<p>x<script")) {
		t.Errorf("a page without an end: %s", got)
	}
}
