package main

import (
	"bytes"
	"image"
	"image/png"
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
// from the album: others of the same size, put there in between, are what it publishes.
func TestPhotosAreWorkedOnOnce(t *testing.T) {
	dir, cache := t.TempDir(), t.TempDir()
	p := &previewed{t: t, dir: dir}
	p.write("build.md", previewCard+"\n![the van](van.png)\n")
	p.write("van.png", string(greyPicture(t, 1000, 500, 9)))
	publishTo(t, cache, dir, filepath.Join(dir, "site"))
	kept, err := filepath.Glob(filepath.Join(cache, "guidecoat", "pictures", "*"))
	if err != nil || len(kept) != 3 {
		t.Fatalf("kept %v, %v", kept, err)
	}
	other := map[string][]byte{}
	for _, name := range kept {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		c, _, err := image.DecodeConfig(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		other[filepath.Base(name)] = greyPicture(t, c.Width, c.Height, 77)
		if err := os.WriteFile(name, other[filepath.Base(name)], 0o600); err != nil {
			t.Fatal(err)
		}
	}
	publishTo(t, cache, dir, filepath.Join(dir, "other"), "--for", "workshop")
	for name, want := range other {
		if got, err := os.ReadFile(filepath.Join(dir, "other", "pictures", name)); err != nil || !bytes.Equal(got, want) {
			t.Errorf("%s was made again: %v", name, err)
		}
	}
}

func TestAlbumTidies(t *testing.T) {
	now := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	a := &album{dir: filepath.Join(t.TempDir(), "pictures"), now: func() time.Time { return now }}
	days := map[string]int{"new.jpg": 1, "old.jpg": 181, "asked.jpg": 181, unfinished + "1": 1}
	for name, age := range days {
		a.Put(name, []byte(name))
		at := now.AddDate(0, 0, -age)
		if err := os.Chtimes(filepath.Join(a.dir, name), at, at); err != nil {
			t.Fatal(err)
		}
	}
	if data, ok := a.Get("asked.jpg"); !ok || string(data) != "asked.jpg" {
		t.Errorf("%q, %v", data, ok)
	}
	a.tidy()
	for name, want := range map[string]bool{"new.jpg": true, "old.jpg": false, "asked.jpg": true, unfinished + "1": false} {
		if _, ok := a.Get(name); ok != want {
			t.Errorf("%s is kept: %v", name, ok)
		}
	}
	var none *album
	none.Put("a", nil)
	none.tidy()
	if _, ok := none.Get("a"); ok {
		t.Error("a nil album keeps something")
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
