package themes

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

func TestLoad(t *testing.T) {
	if !slices.Contains(Names(), Default) {
		t.Fatalf("the default %q is not among %v", Default, Names())
	}
	for _, name := range Names() {
		th, err := Load(name, nil)
		if err != nil {
			t.Fatal(err)
		}
		if th.Name != name || len(th.Style) == 0 || len(th.Own) > 0 {
			t.Errorf("%s: %+v", name, th)
		}
	}
	for name, want := range map[string]string{"surfacr": `nearest is "surfacer"`, "chrome-plate": "there is lacquer, surfacer", "../surfacer": "no theme", "": "no theme"} {
		if _, err := Load(name, nil); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("Load(%q): %v, want %q", name, err, want)
		}
	}
}

// A style asks for nothing from elsewhere.
func TestStylesLoadNothing(t *testing.T) {
	for _, name := range Names() {
		th, err := Load(name, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, word := range []string{"url(", "@import", "@font-face", "http:", "https:"} {
			if strings.Contains(string(th.Style), word) {
				t.Errorf("%s: the style holds %q", name, word)
			}
		}
	}
}

// own is a builder's folder with those files.
func own(files map[string]string) *Folder {
	m := fstest.MapFS{}
	for name, text := range files {
		m[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return &Folder{"theme", m, []string{"Snags", "Money"}}
}

func TestOwnFolder(t *testing.T) {
	plain, err := Load(Default, nil)
	if err != nil {
		t.Fatal(err)
	}
	th, err := Load(Default, own(map[string]string{"touch-in.css": "b {}", "words.txt": "\ufeff# mine\r\n\r\n Snags :Still: to mend\r\nMoney: Geld", "chip-2.png": "x", ".DS_Store": "y"}))
	if err != nil {
		t.Fatal(err)
	}
	if got, want := string(th.Style), string(plain.Style)+"b {}"; got != want {
		t.Error("the style is not the theme's with mine behind it")
	}
	if len(th.Words) != 2 || th.Words["Snags"] != "Still: to mend" || th.Words["Money"] != "Geld" {
		t.Errorf("words %q", th.Words)
	}
	if len(th.Pictures) != 1 || th.Pictures[0].Name != "chip-2.png" || string(th.Pictures[0].Data) != "x" {
		t.Errorf("pictures %v", th.Pictures)
	}
	if !slices.Equal(th.Own, []string{"chip-2.png", "touch-in.css", "words.txt"}) {
		t.Errorf("used are %q", th.Own)
	}
	if th, err = Load(Default, own(map[string]string{"style.css": "a {}", "touch-in.css": "b {}"})); err != nil || string(th.Style) != "a {}b {}" {
		t.Errorf("the style is %q, %v", th.Style, err)
	}
	if th, err = Load(Default, own(nil)); err != nil || len(th.Own) != 0 {
		t.Errorf("an empty folder: %v, %v", th.Own, err)
	}
}

// A theme holds nothing that could run, lead elsewhere, or never end.
func TestRefusedFiles(t *testing.T) {
	for name, f := range map[string]*fstest.MapFile{
		"templates/session.html": {}, "session.html": {}, "extra.css": {}, "readme.txt": {}, "logo.svg": {}, "Logo.png": {}, "run.js": {}, "font.woff2": {}, "a b.png": {}, "a.png.js": {},
		"style.css": {Mode: fs.ModeNamedPipe}, "touch-in.css": {Mode: fs.ModeSymlink, Data: []byte("style.css")}, "words.txt": {Mode: fs.ModeDir},
	} {
		err := second(Load(Default, &Folder{"theme", fstest.MapFS{name: f}, nil}))
		top, _, _ := strings.Cut(name, "/")
		if list, ok := errors.AsType[Faults](err); !ok || len(list) != 1 || !strings.HasPrefix(err.Error(), "theme: it may not hold "+top+": a theme is style.css, touch-in.css, words.txt and up to 61 pictures") {
			t.Errorf("%s: %v", name, err)
		}
	}
	many := map[string]string{"a.js": "", "b.js": ""}
	for i := range maxFiles {
		many[fmt.Sprintf("z%d.png", i)] = ""
	}
	if err := second(Load(Default, own(many))); err == nil || !strings.Contains(err.Error(), "hold a.js, b.js: ") {
		t.Error(err)
	}
	many["zz1.png"], many["zz2.png"], many["zz3.png"], many["zz4.png"] = "", "", "", ""
	if err := second(Load(Default, own(many))); err == nil || !strings.Contains(err.Error(), "hold a.js, b.js, zz1.png, zz2.png, zz3.png and 1 more: ") {
		t.Error(err)
	}
	for name, most := range map[string]int{"a.png": 2 << 20, "style.css": 256 << 10, "touch-in.css": 256 << 10, "words.txt": 16 << 10} {
		if err := second(Load(Default, own(map[string]string{name: "#" + strings.Repeat("/", most-1)}))); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if err := second(Load(Default, own(map[string]string{name: "#" + strings.Repeat("/", most)}))); err == nil || !strings.HasPrefix(err.Error(), fmt.Sprintf("theme/%s: it is larger than %d KB", name, most>>10)) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func second(_ *Theme, err error) error { return err }

func TestWrongWords(t *testing.T) {
	for text, want := range map[string]string{
		"Snags":                             "theme/words.txt:1: a line of words is a label, a colon",
		"\nSnagz: x":                        `theme/words.txt:2: no page has a label "Snagz"; the nearest is "Snags"`,
		"Zebra crossing: x":                 `no page has a label "Zebra crossing"`,
		"Snags:":                            `it does not say what "Snags" is called`,
		"Snags: a\nSnags: b":                `theme/words.txt:2: "Snags" is called twice`,
		"Snags: a\x07b":                     "it holds a character that cannot be shown",
		"Snags: a\u202eb":                   "it holds a character that cannot be shown",
		"Snags: a\xff":                      "it holds a character that cannot be shown",
		"Snags: " + strings.Repeat("x", 61): "a label has at most 60 characters",
	} {
		if err := second(Load(Default, own(map[string]string{"words.txt": text}))); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %s", text, err, want)
		}
	}
	if err := second(Load(Default, own(map[string]string{"words.txt": "a\nb\nSnags: x\nc"}))); strings.Count(err.Error(), "words.txt:") != 3 {
		t.Errorf("not every line is told: %v", err)
	}
}
