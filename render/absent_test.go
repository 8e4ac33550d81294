package render

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/png"
	"maps"
	"path"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
)

// What there is nothing of has no page, and nothing leads to it.
func TestAbsentPages(t *testing.T) {
	card := "---\nbuild: b\ncurrency: GBP\npublic:\n  money: nothing\n  hours: no\n  snags: no\n---\n"
	for name, c := range map[string]struct {
		note, want string
		to         view.Audience
	}{
		"nothing":  {"", "style.css icon.svg index.html", view.ForWorkshop},
		"words":    {"x\n", "style.css icon.svg index.html sessions/index.html sessions/2026-04-11.html", view.ForPublic},
		"hidden":   {"---\ncost: 5.00 glue\ntime: 3h\n---\n- [ ] a job\n", "style.css icon.svg index.html sessions/index.html", view.ForPublic},
		"shown":    {"---\ncost: 5.00 glue\n---\n- [ ] a job\n", "style.css icon.svg index.html sessions/index.html sessions/2026-04-11.html money.html snags.html", view.ForBuyer},
		"measured": {"---\nreadings:\n  disc: 8 mm\n---\n", "style.css icon.svg index.html sessions/index.html sessions/2026-04-11.html measured.html", view.ForPublic},
	} {
		fsys := fstest.MapFS{"build.md": {Data: []byte(card)}}
		if c.note != "" {
			fsys["2026-04-11.md"] = &fstest.MapFile{Data: []byte(c.note)}
		}
		b, err := journal.ReadBuild(fsys, ".")
		if err != nil {
			t.Fatal(err)
		}
		files, err := allOf(Site(view.Of(state.At(b, 0, today), c.to), Options{Theme: theme(t)}))
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
		files, err := allOf(Site(view.Of(state.At(b, 0, today), view.ForPublic), Options{Theme: theme(t), Read: fsys.ReadFile, BaseURL: base}))
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

// A picture that the store holds in all its sizes is taken as it is. One that it has
// lost a size of, or that was damaged there, is made again.
func TestPicturesAreMadeOnce(t *testing.T) {
	grey := func(w, h int, shade uint8) []byte {
		var pic bytes.Buffer
		m := image.NewGray(image.Rect(0, 0, w, h))
		for i := range m.Pix {
			m.Pix[i] = shade
		}
		if err := png.Encode(&pic, m); err != nil {
			t.Fatal(err)
		}
		return pic.Bytes()
	}
	data := grey(1700, 300, 1)
	fsys := fstest.MapFS{"build.md": {Data: []byte("---\nbuild: b\ncurrency: GBP\n---\n![a](a.png) ![b](b.png)\n")}, "a.png": {Data: data}, "b.png": {Data: data}}
	b, err := journal.ReadBuild(fsys, ".")
	if err != nil {
		t.Fatal(err)
	}
	pictures := func(store Store) map[string][]byte {
		files, err := allOf(Site(view.Of(state.At(b, 0, today), view.ForPublic), Options{Theme: theme(t), Read: fsys.ReadFile, Store: store}))
		if err != nil {
			t.Fatal(err)
		}
		got := map[string][]byte{}
		for _, f := range files {
			if strings.HasPrefix(f.Path, "pictures/") {
				got[f.Path] = f.Data
			}
		}
		return got
	}
	want := pictures(nil)
	if len(want) != 3 {
		t.Errorf("%d files for two equal pictures of three sizes", len(want))
	}
	store := &shelf{}
	if !maps.EqualFunc(pictures(store), want, bytes.Equal) {
		t.Error("with a store the pictures are others")
	}
	old := map[string][]byte{} // of the same sizes, but of another shade
	for name := range want {
		c, _, err := image.DecodeConfig(bytes.NewReader(want[name]))
		if err != nil {
			t.Fatal(err)
		}
		old[name] = grey(c.Width, c.Height, 200)
		store.Put(path.Base(name), old[name])
	}
	if !maps.EqualFunc(pictures(store), old, bytes.Equal) {
		t.Error("pictures that the store holds are made again")
	}
	for name := range want {
		store.Put(path.Base(name), want[name])
	}
	for name := range want {
		store.files.Delete(path.Base(name))
		break
	}
	if !maps.EqualFunc(pictures(store), want, bytes.Equal) {
		t.Error("pictures of which a size is lost are not made again")
	}
}

// Every file that cannot be used is told of, not only the first.
func TestErrorsAreJoined(t *testing.T) {
	fsys := fstest.MapFS{"build.md": {Data: []byte("---\nbuild: b\ncurrency: GBP\n---\n![a](a.png) ![b](b.png)\n")}, "a.png": {}, "b.png": {}}
	b, err := journal.ReadBuild(fsys, ".")
	if err != nil {
		t.Fatal(err)
	}
	_, err = allOf(Site(view.Of(state.At(b, 0, today), view.ForPublic), Options{Theme: theme(t), Read: func(string) ([]byte, error) { return nil, errors.New("the disk is broken") }}))
	for _, want := range []string{"a.png: the disk is broken", "b.png: the disk is broken"} {
		if !strings.Contains(fmt.Sprint(err), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}
