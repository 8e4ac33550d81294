package render

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"path"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
	"guidecoat/render/place"
)

// leanTo is a garage of three builds; the last has not begun, and two are in folders
// whose names make the same address.
func leanTo(t *testing.T, to view.Audience, base string) (Garage, Options, fstest.MapFS) {
	t.Helper()
	fsys := fstest.MapFS{
		"garage.md":               {Data: []byte("---\ngarage: The lean-to\ncurrency: GBP\n---\n")},
		"van/build.md":            {Data: []byte("---\nbuild: Van\ncurrency: GBP\n---\nA van.\n")},
		"van/2026-04-11.md":       {Data: []byte("---\ntitle: Doors off\n---\nBoth <doors>.\n")},
		"van/2026-06-01.md":       {Data: []byte("---\ntitle: Sold\nsold: 900\n---\nGone.\n")},
		"Van/build.md":            {Data: []byte("---\nbuild: Other van\ncurrency: GBP\n---\n")},
		"Van/notes/2026-05-01.md": {Data: []byte("---\ntitle: Wash\n---\nWashed.\n")},
		"wagon/build.md":          {Data: []byte("---\nbuild: Wagon\ncurrency: GBP\n---\nNot begun.\n")},
	}
	g, err := journal.ReadGarage(fsys)
	if err != nil {
		t.Fatal(err)
	}
	out := Garage{Copy: view.CopyFor(to), Name: g.Name}
	for _, b := range g.Builds {
		out.Builds = append(out.Builds, Build{Path: b.Path, View: view.Of(state.At(b, 0, today), to)})
	}
	return out, Options{Theme: theme(t), Version: "test", BaseURL: base, Read: fsys.ReadFile}, fsys
}

func TestGarageMachines(t *testing.T) {
	for _, base := range []string{"", "https://halden.example"} {
		g, o, _ := leanTo(t, view.ForPublic, base)
		list, err := allOf(GarageSite(g, o))
		if err != nil {
			t.Fatal(err)
		}
		files := byPath(list)
		if len(files) != len(list) {
			t.Errorf("%q: %d files at %d paths", base, len(list), len(files))
		}
		var f struct {
			ID      string `xml:"id"`
			Updated string `xml:"updated"`
			Entries []struct {
				ID    string `xml:"id"`
				Title string `xml:"title"`
				Link  struct {
					Href string `xml:"href,attr"`
				} `xml:"link"`
			} `xml:"entry"`
		}
		if err := xml.Unmarshal(files["feed.xml"], &f); err != nil {
			t.Fatal(err)
		}
		var titles []string
		for _, e := range f.Entries {
			titles = append(titles, e.Title)
			at := strings.TrimPrefix(e.Link.Href, base+"/")
			if files[at] == nil {
				t.Errorf("%q: the feed leads to %q", base, e.Link.Href)
			}
			if own := files[path.Dir(path.Dir(at))+"/feed.xml"]; !bytes.Contains(own, []byte("<id>"+e.ID+"</id>")) {
				t.Errorf("%q: %s has another id in the feed of its build", base, e.Title)
			}
			if base == "" && bytes.Contains(files["van/feed.xml"], []byte(f.ID)) {
				t.Errorf("the feed has the id of another")
			}
		}
		if got := strings.Join(titles, ", "); got != "Van: Sold, Other van: Wash, Van: Doors off" || f.Updated != "2026-06-01T00:00:00Z" {
			t.Errorf("%q: the feed tells of %s, updated %s", base, got, f.Updated)
		}
		var data struct {
			Garage string
			Builds []struct {
				Build, State, Page, Data string
				Newest                   *string
			}
		}
		if err := json.Unmarshal(files["garage.json"], &data); err != nil {
			t.Fatal(err)
		}
		if data.Garage != "The lean-to" || len(data.Builds) != 3 {
			t.Errorf("%q: %s", base, files["garage.json"])
		}
		for _, b := range data.Builds {
			if files[b.Page] == nil || files[b.Data] == nil || (b.Newest == nil) != (b.Build == "Wagon") || (b.State == "sold") != (b.Build == "Van") {
				t.Errorf("%q: %+v", base, b)
			}
		}
		for _, m := range []string{"feed.xml", "garage.json"} {
			if !bytes.Contains(files["index.html"], []byte(`href="`+m+`"`)) {
				t.Errorf("%q: the front page does not lead to %s", base, m)
			}
		}
		if (files["sitemap.xml"] != nil) != (base != "") || (files["robots.txt"] != nil) != (base != "") {
			t.Errorf("%q: a sitemap %v, a robots.txt %v", base, files["sitemap.xml"] != nil, files["robots.txt"] != nil)
		}
		if base == "" {
			continue
		}
		var m urlSet
		if err := xml.Unmarshal(files["sitemap.xml"], &m); err != nil {
			t.Fatal(err)
		}
		var listed, pages []string
		for _, u := range m.URLs {
			listed = append(listed, u.Loc)
		}
		for at := range files {
			if strings.HasSuffix(at, ".html") {
				pages = append(pages, base+"/"+strings.TrimSuffix(at, "index.html"))
			}
		}
		slices.Sort(listed)
		slices.Sort(pages)
		if !slices.Equal(listed, pages) {
			t.Errorf("the sitemap lists %v; there are %v", listed, pages)
		}
	}
	g, o, _ := leanTo(t, view.ForBuyer, "https://halden.example")
	list, err := allOf(GarageSite(g, o))
	if err != nil {
		t.Fatal(err)
	}
	if files := byPath(list); files["sitemap.xml"] != nil || files["robots.txt"] != nil || files["feed.xml"] == nil {
		t.Error("the buyer's copy invites robots, or has no feed")
	}
}

// A draft of a garage makes the same bytes as its whole site, however often it is asked.
func TestGarageDraft(t *testing.T) {
	g, o, _ := leanTo(t, view.ForWorkshop, "")
	want, err := allOf(GarageSite(g, o))
	if err != nil {
		t.Fatal(err)
	}
	d, err := NewGarageDraft(g, o)
	if err != nil {
		t.Fatal(err)
	}
	for range 2 {
		for _, f := range want {
			files, err := d.Make(f.Path)
			at := slices.IndexFunc(files, func(g place.File) bool { return g.Path == f.Path })
			if err != nil || at < 0 || !bytes.Equal(files[at].Data, f.Data) {
				t.Errorf("%s differs from that of the whole site: %v", f.Path, err)
			}
		}
	}
	for _, at := range []string{"", "van", "van/", "van/van/index.html", "no/index.html", "van/build.md", "van/../index.html"} {
		files, err := d.Make(at)
		if err != nil || slices.ContainsFunc(files, func(f place.File) bool { return f.Path == at }) {
			t.Errorf("%q: %v", at, err)
		}
	}
}

// The front page of a garage says of each build what is dangerous or held together
// for now, and warns.
func TestGarageWarns(t *testing.T) {
	for _, to := range view.Audiences() {
		fsys := fstest.MapFS{
			"garage.md":         {Data: []byte("---\ngarage: The lean-to\ncurrency: GBP\n---\n")},
			"van/build.md":      {Data: []byte("---\nbuild: Van\ncurrency: GBP\n---\n")},
			"van/2026-04-11.md": {Data: []byte("---\nstage: brakes\n---\n- [ ] brake-pipe: rubs on the wheel; dangerous; system brakes\n- [ ] own-secret: hidden; dangerous; private\n- [ ] temporary gate-strap: strap on the tailgate\n")},
			"wagon/build.md":    {Data: []byte("---\nbuild: Wagon\ncurrency: GBP\n---\n")},
		}
		g, err := journal.ReadGarage(fsys)
		if err != nil {
			t.Fatal(err)
		}
		out := Garage{Copy: view.CopyFor(to), Name: g.Name}
		for _, b := range g.Builds {
			out.Builds = append(out.Builds, Build{Path: b.Path, View: view.Of(state.At(b, 0, today), to)})
		}
		files, err := allOf(GarageSite(out, Options{Theme: theme(t), Version: "test", Read: fsys.ReadFile}))
		if err != nil {
			t.Fatal(err)
		}
		seen := `>1 dangerous</a>`
		if to == view.ForWorkshop {
			seen = `>2 dangerous</a>`
		}
		pages := map[string]string{"index.html": spaced(text(t, files, "index.html"))}
		holds(t, pages, "index.html", seen, `<a href="van/snags.html#_temporary">1 temporary fix</a>`, "<strong>Caution.</strong>")
		if to == view.ForBuyer { // who may ask the builder
			holds(t, pages, "index.html", "1 dangerous item not described here")
		}
	}
}
