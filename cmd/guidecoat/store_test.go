package main

import (
	"bytes"
	"errors"
	"image"
	"image/png"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

func greyPicture(t *testing.T, w, h int, shade byte) []byte {
	t.Helper()
	m := image.NewGray(image.Rect(0, 0, w, h))
	for i := range m.Pix {
		m.Pix[i] = shade
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// A second publishing, into another folder and for somebody else, takes every picture
// from the store: others, put there in between under their names, are what it publishes.
func TestPhotosAreWorkedOnOnce(t *testing.T) {
	dir, cache := t.TempDir(), t.TempDir()
	kept := publishPicture(t, dir, cache)
	pictures := (&world{cache: cache, now: time.Now}).store("pictures")
	for name := range kept {
		pictures.Put(name, []byte("another "+name))
	}
	publishTo(t, cache, dir, filepath.Join(dir, "other"), "--for", "workshop")
	for name := range kept {
		if got, err := os.ReadFile(filepath.Join(dir, "other", "pictures", name)); err != nil || string(got) != "another "+name {
			t.Errorf("%s was made again: %v", name, err)
		}
	}
}

// publishPicture publishes a build with a picture and returns the three that were made
// of it, by their names.
func publishPicture(t *testing.T, dir, cache string) map[string]string {
	t.Helper()
	p := &previewed{t: t, dir: dir}
	p.write("build.md", previewCard+"\n![the van](van.png)\n")
	p.write("van.png", string(greyPicture(t, 1000, 500, 9)))
	publishTo(t, cache, dir, filepath.Join(dir, "site"))
	made := filesIn(t, filepath.Join(dir, "site", "pictures"))
	if kept := filesIn(t, filepath.Join(cache, "guidecoat", "pictures")); len(made) != 3 || len(kept) != 3 {
		t.Fatalf("%d were made, %d kept", len(made), len(kept))
	}
	return made
}

// Whatever is in the place of a picture that was kept, the site has the right one.
func TestDamagedStore(t *testing.T) {
	dir, cache, elsewhere := t.TempDir(), t.TempDir(), t.TempDir()
	made := publishPicture(t, dir, cache)
	folder := filepath.Join(cache, "guidecoat", "pictures")
	kept := filesIn(t, folder)
	of := func(change func(data string) string) func(path, data string) error {
		return func(path, data string) error { return os.WriteFile(path, []byte(change(data)), 0o600) }
	}
	for what, damage := range map[string]func(path, data string) error{
		"cut short":         of(func(s string) string { return s[:len(s)-1] }),
		"cut to half":       of(func(s string) string { return s[:len(s)/2] }),
		"cut to its digest": of(func(s string) string { return s[len(s)-32:] }),
		"empty":             of(func(s string) string { return "" }),
		"first byte":        of(func(s string) string { return "x" + s[1:] }),
		"a byte within":     of(func(s string) string { return s[:len(s)/2] + string(s[len(s)/2]^1) + s[len(s)/2+1:] }),
		"its digest":        of(func(s string) string { return s[:len(s)-1] + string(s[len(s)-1]^1) }),
		"more behind it":    of(func(s string) string { return s + "the address of a garage" }),
		"more in front":     of(func(s string) string { return "the address of a garage" + s }),
		"a bare picture":    of(func(s string) string { return s[:len(s)-32] }),
		"another of them": func(path, data string) error {
			for name, other := range kept {
				if other != data {
					return os.WriteFile(path, []byte(other), 0o600)
				}
				_ = name
			}
			return nil
		},
		"a folder": func(path, _ string) error { return errors.Join(os.Remove(path), os.Mkdir(path, 0o700)) },
		"a link to the right one": func(path, data string) error {
			right := filepath.Join(elsewhere, filepath.Base(path))
			return errors.Join(os.WriteFile(right, []byte(data), 0o600), os.Remove(path), os.Symlink(right, path))
		},
		"a link to nowhere": func(path, _ string) error {
			return errors.Join(os.Remove(path), os.Symlink(filepath.Join(elsewhere, "none"), path))
		},
	} {
		for name, data := range kept {
			if err := damage(filepath.Join(folder, name), data); err != nil {
				t.Fatalf("%s: %v", what, err)
			}
		}
		publishTo(t, cache, dir, filepath.Join(t.TempDir(), "site"))
		site := filepath.Join(t.TempDir(), "site")
		publishTo(t, cache, dir, site)
		if got := filesIn(t, filepath.Join(site, "pictures")); !maps.Equal(got, made) {
			t.Errorf("%s: it was published", what)
		}
		if what == "a folder" {
			err := os.RemoveAll(folder)
			publishTo(t, cache, dir, filepath.Join(t.TempDir(), "site"))
			if err != nil {
				t.Fatal(err)
			}
		}
		if now := filesIn(t, folder); !maps.Equal(now, kept) {
			t.Errorf("%s: it is still there", what)
		}
	}
}

// A store removes what it named itself and nobody has asked for in a long time.
func TestStoreTidies(t *testing.T) {
	now := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	s := (&world{cache: filepath.Join(t.TempDir(), "cache"), now: func() time.Time { return now }}).store("pictures")
	folder := filepath.Join(s.cache, "guidecoat", "pictures")
	const id, unfinished = "0123456789abcdef0123", ".new-ABCDEFGHIJKLMNOPQRSTUVWXYZ"
	asked := id + "-1600.jpg"
	s.Put(asked, []byte("asked"))
	if info, err := os.Stat(filepath.Join(folder, asked)); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("others may read it: %v", err)
	}
	for _, dir := range []string{folder, filepath.Dir(folder), s.cache} {
		if info, err := os.Stat(dir); err != nil || info.Mode().Perm() != 0o700 {
			t.Errorf("others may look into %s: %v", dir, err)
		}
	}
	stays := map[string]bool{asked: true}
	put := func(name string, age time.Duration, stay bool) {
		t.Helper()
		path := filepath.Join(folder, name)
		if name != asked {
			if err := os.WriteFile(path, []byte(name), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		if err := os.Chtimes(path, now.Add(-age), now.Add(-age)); err != nil {
			t.Fatal(err)
		}
		stays[name] = stay
	}
	put(asked, keepUnused+1, true)
	put(id+"-400.jpg", keepUnused-1, true)
	put(id+"-800.png", keepUnused+1, false)
	put("0123456789abcdef0123456789abcdef", keepUnused+1, false)
	put(unfinished, keepUnfinished+1, false)
	put(unfinished[:30]+"A", keepUnfinished-1, true)
	for _, name := range []string{"2026-04-11.md", "build.md", "old.jpg", ".new-1", "new-1", id + "-400.jpg.md", id + "-400.JPG", "x" + id + "-400.jpg", id + "-12345.jpg", id + ".jpg", ".new-" + id} {
		put(name, 10*keepUnused, true)
	}
	if err := os.Mkdir(filepath.Join(folder, "fedcba98765432100123-400.jpg"), 0o700); err != nil {
		t.Fatal(err)
	}
	if data, ok := s.Get(asked); !ok || string(data) != "asked" {
		t.Errorf("%q, %v", data, ok)
	}
	s.tidy()
	for name, want := range stays {
		if _, err := os.Lstat(filepath.Join(folder, name)); (err == nil) != want {
			t.Errorf("%s is kept: %v", name, err == nil)
		}
	}
	var none *store
	none.Put("a", nil)
	none.tidy()
	if _, ok := none.Get("a"); ok {
		t.Error("a nil store keeps something")
	}
}

// Where a folder of the store is a link to notes, nothing there is read, written or
// removed, though it is called as a picture is, and publishing goes on.
func TestStoreElsewhere(t *testing.T) {
	const old = "0123456789abcdef0123-400.jpg"
	for what, c := range map[string]struct{ notes, link, to string }{
		"the store":                   {"notes", "cache/guidecoat/pictures", "../../notes"},
		"the store, within the cache": {"cache/notes", "cache/guidecoat/pictures", "../notes"},
		"the store, within itself":    {"cache/guidecoat/notes", "cache/guidecoat/pictures", "notes"},
		"the folder above it":         {"cache/notes/pictures", "cache/guidecoat", "notes"},
		"a file of that name":         {"notes", "cache/guidecoat", ""},
	} {
		in, dir := t.TempDir(), t.TempDir()
		notes, link := filepath.Join(in, c.notes), filepath.Join(in, c.link)
		err := errors.Join(os.MkdirAll(notes, 0o700), os.MkdirAll(filepath.Dir(link), 0o700), os.WriteFile(filepath.Join(notes, old), nil, 0o600))
		long := time.Now().Add(-10 * keepUnused)
		err = errors.Join(err, os.Chtimes(filepath.Join(notes, old), long, long))
		if c.to == "" {
			err = errors.Join(err, os.WriteFile(link, nil, 0o600))
		} else {
			err = errors.Join(err, os.Symlink(c.to, link))
		}
		if err != nil {
			t.Fatal(err)
		}
		before := exactly(t, notes)
		p := &previewed{t: t, dir: dir}
		p.write("build.md", previewCard+"\n![the van](van.png)\n")
		p.write("van.png", string(greyPicture(t, 1000, 500, 9)))
		publishTo(t, filepath.Join(in, "cache"), dir, filepath.Join(t.TempDir(), "site"))
		if after := exactly(t, notes); !maps.Equal(before, after) {
			t.Errorf("%s is a link: the notes are %v, were %v", what, after, before)
		}
	}
}

// A photo that has not changed is not read again, and one that has is.
func TestSightings(t *testing.T) {
	s := &sightings{dir: t.TempDir()}
	name := filepath.Join(s.dir, "a.png")
	at := time.Date(2026, 4, 11, 12, 0, 0, 0, time.UTC)
	put := func(data []byte, at time.Time) {
		t.Helper()
		if err := os.WriteFile(name, data, 0o600); err != nil {
			t.Fatal(err)
		}
		if err := os.Chtimes(name, at, at); err != nil {
			t.Fatal(err)
		}
	}
	first, second := greyPicture(t, 10, 10, 1), greyPicture(t, 10, 10, 2)
	if len(first) != len(second) {
		t.Fatal("the pictures must be of one size")
	}
	see := func() string {
		t.Helper()
		plan, err := s.look("a.png")
		if err != nil {
			t.Fatal(err)
		}
		return plan.Sizes[0].Name
	}
	put(first, at)
	was := see()
	put(second, at)
	if see() != was {
		t.Error("it was read again")
	}
	put(second, at.Add(time.Second))
	if see() == was {
		t.Error("it was not read again")
	}
	if _, err := s.look("../a.png"); err == nil {
		t.Error("a file outside was read")
	}
}

// Damage in the middle of a picture is found when it is made. All such are told of,
// and the site that is there stays.
func TestDamagedPictures(t *testing.T) {
	dir := t.TempDir()
	p := &previewed{t: t, dir: dir}
	p.write("build.md", previewCard+"\n![a](a.png) ![b](b.png)\n")
	for i, name := range []string{"a.png", "b.png"} {
		data := greyPicture(t, 300, 300+i, 9) // two that are the same would be made once
		data[len(data)/2] ^= 0xff
		p.write(name, string(data))
	}
	var out, errs bytes.Buffer
	w := world{[]string{"publish", dir}, nil, &out, &errs, func(string) string { return "" }, time.Now, ""}
	if code := run(t.Context(), w); code != exitFiles {
		t.Errorf("exit code %d", code)
	}
	lines := strings.Split(errs.String(), "\n")
	if len(lines) != 4 || !strings.HasPrefix(lines[0], "guidecoat: a.png: it cannot be read as a picture: ") || !strings.HasPrefix(lines[1], "guidecoat: b.png: ") || lines[2] != "Nothing was written." {
		t.Errorf("%q", lines)
	}
	if _, err := os.Stat(filepath.Join(dir, "site")); err == nil {
		t.Error("something was written")
	}
}
