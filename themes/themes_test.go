package themes

import (
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
		th, err := Load(name)
		if err != nil {
			t.Fatal(err)
		}
		if th.Name != name || len(th.Style) == 0 || len(th.Pages()) == 0 || th.Page(th.Pages()[0]) == nil || th.Page("no such page") != nil {
			t.Errorf("%s: %+v", name, th)
		}
	}
	for name, want := range map[string]string{"surfacr": `nearest is "surfacer"`, "chrome-plate": "there is lacquer, surfacer", "../surfacer": "no theme", "": "no theme"} {
		if _, err := Load(name); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("Load(%q): %v, want %q", name, err, want)
		}
	}
}

// A style asks for nothing from elsewhere.
func TestStylesLoadNothing(t *testing.T) {
	for _, name := range Names() {
		th, err := Load(name)
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

func TestReadSaysWhatIsWrong(t *testing.T) {
	whole := fstest.MapFS{"style.css": {}, "templates/_frame.html": {Data: []byte(`{{define "frame"}}{{template "main" .}}{{end}}`)}, "templates/a.html": {Data: []byte(`{{define "main"}}x{{end}}`)}}
	if th, err := Read("own", Layer{"own", whole}); err != nil || !slices.Equal(th.Pages(), []string{"a"}) {
		t.Fatal(th, err)
	}
	for _, missing := range []string{"style.css", "templates/_frame.html"} {
		part := fstest.MapFS{}
		for name, f := range whole {
			if name != missing {
				part[name] = f
			}
		}
		if _, err := Read("own", Layer{"own", part}); err == nil {
			t.Errorf("without %s nothing is said", missing)
		}
	}
	whole["templates/a.html"] = &fstest.MapFile{Data: []byte("{{define")}
	if _, err := Read("own", Layer{"own", whole}); err == nil || !strings.Contains(err.Error(), "a.html") {
		t.Errorf("a broken template: %v", err)
	}
}
