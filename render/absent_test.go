package render

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/png"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal"
)

// What there is nothing of has no page, and nothing leads to it.
func TestAbsentPages(t *testing.T) {
	card := "---\nbuild: b\ncurrency: GBP\npublic:\n  money: nothing\n  hours: no\n  snags: no\n---\n"
	for name, c := range map[string]struct {
		note, want string
		to         journal.Audience
	}{
		"nothing":  {"", "style.css index.html", journal.ForWorkshop},
		"words":    {"x\n", "style.css index.html sessions/index.html sessions/2026-04-11.html", journal.ForPublic},
		"hidden":   {"---\ncost: 5.00 glue\ntime: 3h\n---\n- [ ] a job\n", "style.css index.html sessions/index.html", journal.ForPublic},
		"shown":    {"---\ncost: 5.00 glue\n---\n- [ ] a job\n", "style.css index.html sessions/index.html sessions/2026-04-11.html money.html snags.html", journal.ForBuyer},
		"measured": {"---\nreadings:\n  disc: 8 mm\n---\n", "style.css index.html sessions/index.html sessions/2026-04-11.html measured.html", journal.ForPublic},
	} {
		fsys := fstest.MapFS{"build.md": {Data: []byte(card)}}
		if c.note != "" {
			fsys["2026-04-11.md"] = &fstest.MapFile{Data: []byte(c.note)}
		}
		b, err := journal.ReadBuild(fsys, ".")
		if err != nil {
			t.Fatal(err)
		}
		files, err := allOf(Site(b.At(0, today).View(c.to), Options{Theme: theme(t)}))
		if err != nil {
			t.Fatal(err)
		}
		var paths []string
		for _, f := range withoutMachines(files) {
			paths = append(paths, f.Path)
			for _, page := range []string{"money.html", "snags.html", "parts.html", "measured.html", "sessions/index.html", "notes/index.html"} {
				if !strings.Contains(c.want, page) && bytes.Contains(f.Data, []byte(page)) {
					t.Errorf("%s: %s leads to %s", name, f.Path, page)
				}
			}
		}
		if got := strings.Join(paths, " "); got != c.want {
			t.Errorf("%s: files %s, want %s", name, got, c.want)
		}
	}
}

// Where it is known where the site will stand, pages name their address; without
// that no page names any.
func TestBaseURL(t *testing.T) {
	fsys := hostileBuild(t)
	b, err := journal.ReadBuild(fsys, ".")
	if err != nil {
		t.Fatal(err)
	}
	for _, base := range []string{"", "https://halden.example/cars", "https://halden.example/cars/"} {
		files, err := allOf(Site(b.At(0, today).View(journal.ForPublic), Options{Theme: theme(t), Read: fsys.ReadFile, BaseURL: base}))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			for path, want := range map[string]string{"index.html": "", "snags.html": "snags.html", "sessions/index.html": "sessions/"} {
				has := bytes.Contains(f.Data, []byte(`<link rel="canonical" href="https://halden.example/cars/`+want+`">`))
				if f.Path == path && has != (base != "") {
					t.Errorf("%q: %s: its address is there: %v", base, path, has)
				}
			}
			if image := bytes.Contains(f.Data, []byte(`<meta property="og:image" content="https://halden.example/cars/pictures/`)); isPage(f) && image != (base != "") {
				t.Errorf("%q: %s: a picture for previews: %v", base, f.Path, image)
			}
		}
	}
}

// A picture that an earlier run has made is taken as it is, if all its sizes are there.
func TestPicturesAreMadeOnce(t *testing.T) {
	var pic bytes.Buffer
	if err := png.Encode(&pic, image.NewGray(image.Rect(0, 0, 1700, 3))); err != nil {
		t.Fatal(err)
	}
	fsys := fstest.MapFS{"build.md": {Data: []byte("---\nbuild: b\ncurrency: GBP\n---\n![a](a.png) ![b](b.png)\n")}, "a.png": {Data: pic.Bytes()}, "b.png": {Data: pic.Bytes()}}
	b, err := journal.ReadBuild(fsys, ".")
	if err != nil {
		t.Fatal(err)
	}
	v := b.At(0, today).View(journal.ForPublic)
	made := map[string][]byte{}
	for _, kept := range []int{0, 1, 2} {
		n := 0
		files, err := allOf(Site(v, Options{Theme: theme(t), Read: fsys.ReadFile, Made: func(path string) ([]byte, bool) {
			n++
			return []byte("made before"), n <= kept
		}}))
		if err != nil {
			t.Fatal(err)
		}
		pictures := 0
		for _, f := range files {
			if strings.HasPrefix(f.Path, "pictures/") {
				pictures++
				made[f.Path] = f.Data
				if old := string(f.Data) == "made before"; old != (kept == 2) {
					t.Errorf("%d kept: %s is an old one: %v", kept, f.Path, old)
				}
			}
		}
		if pictures != 2 {
			t.Errorf("%d files for two equal pictures of two sizes", pictures)
		}
	}
}

// Every file that cannot be used is told of, not only the first.
func TestErrorsAreJoined(t *testing.T) {
	fsys := fstest.MapFS{"build.md": {Data: []byte("---\nbuild: b\ncurrency: GBP\n---\n![a](a.png) ![b](b.heic)\n")}, "a.png": {}, "b.heic": {}}
	b, err := journal.ReadBuild(fsys, ".")
	if err != nil {
		t.Fatal(err)
	}
	broken := errors.New("the disk is broken")
	_, err = allOf(Site(b.At(0, today).View(journal.ForPublic), Options{Theme: theme(t), Read: func(p string) ([]byte, error) {
		if p == "a.png" {
			return nil, broken
		}
		return nil, nil
	}}))
	if !errors.Is(err, broken) || !strings.Contains(fmt.Sprint(err), "b.heic") {
		t.Errorf("%v", err)
	}
}
