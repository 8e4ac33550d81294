package render

import (
	"bytes"
	"fmt"
	"image"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"github.com/chromedp/chromedp"

	"guidecoat/journal"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
	"guidecoat/themes"
)

func ownTheme(t *testing.T, files fstest.MapFS) *themes.Theme {
	t.Helper()
	th, err := themes.Load(themes.Default, &themes.Folder{Name: "theme", FS: files, Labels: Labels})
	if err != nil {
		t.Fatal(err)
	}
	return th
}

// Every label of the table stands on some page, and may be called otherwise: whatever
// it is called, it is no markup. What the pages label is in the table.
func TestLabels(t *testing.T) {
	var words strings.Builder
	for i, label := range Labels {
		fmt.Fprintf(&words, "%s: zq%d<b>&\"\n", label, i)
	}
	th := ownTheme(t, fstest.MapFS{"words.txt": {Data: []byte(words.String())}})
	b, err := journal.ReadBuild(example(), ".")
	if err != nil {
		t.Fatal(err)
	}
	var all bytes.Buffer
	for _, st := range []*state.State{state.At(b, 0, today), state.At(b, day0(t, "2026-07-12"), today), state.At(b, day0(t, "2026-06-01"), today), state.At(b, day0(t, "2026-04-20"), today)} {
		for _, v := range []*view.View{view.Of(st, view.ForWorkshop), view.Of(st, view.ForPublic), view.ForHandover(st, view.ForBuyer, nil)} {
			for _, f := range siteIn(t, th, example(), b, v) {
				if isPage(f) {
					all.Write(f.Data)
				}
			}
		}
	}
	for i, label := range Labels {
		called := fmt.Sprintf("zq%d&lt;b&gt;&amp;&#34;", i)
		if !bytes.Contains(all.Bytes(), []byte(called)) {
			t.Errorf("%q is a label of no page of the example", label)
		}
	}
	if bytes.Contains(all.Bytes(), []byte("<b>&\"")) {
		t.Error("a label has become markup")
	}
}

// The pictures of a theme stand beside the style, without what was written into them.
func TestPicturesOfATheme(t *testing.T) {
	told := tellingPicture(true, 40)
	th := ownTheme(t, fstest.MapFS{"chip.jpg": {Data: told}})
	b, err := journal.ReadBuild(hostileBuild(t), ".")
	if err != nil {
		t.Fatal(err)
	}
	st := state.At(b, 0, today)
	o := Options{Theme: th, Read: hostileBuild(t).ReadFile}
	for _, files := range []func() ([]byte, bool){
		func() ([]byte, bool) {
			data, ok := byPath(siteIn(t, th, hostileBuild(t), b, view.Of(st, view.ForPublic)))["chip.jpg"]
			return data, ok
		},
		func() ([]byte, bool) {
			made, err := allOf(GarageSite(Garage{Name: "g", Builds: []Build{{Path: "one", View: view.Of(st, view.ForPublic)}}}, o))
			if err != nil {
				t.Fatal(err)
			}
			data, ok := byPath(made)["one/chip.jpg"]
			return data, ok && byPath(made)["chip.jpg"] != nil
		},
	} {
		data, ok := files()
		if _, _, err := image.DecodeConfig(bytes.NewReader(data)); !ok || err != nil {
			t.Errorf("the picture is there: %v, %v", ok, err)
		}
		if bytes.Equal(data, told) || bytes.Contains(data, []byte("Exif")) {
			t.Error("the picture is as it was")
		}
	}
	th = ownTheme(t, fstest.MapFS{"chip.png": {Data: []byte("<script>")}})
	if _, err := allOf(Site(view.Of(st, view.ForPublic), Options{Theme: th, Read: o.Read})); err == nil || !strings.Contains(err.Error(), "chip.png") {
		t.Errorf("what is no picture is published: %v", err)
	}
}

// A style brings in nothing from elsewhere, whatever it asks for, and runs nothing.
func TestStylesFetchNothing(t *testing.T) {
	ctx := browser(t)
	var mu sync.Mutex
	var asked []string
	elsewhere := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		mu.Lock()
		defer mu.Unlock()
		asked = append(asked, r.URL.Path)
		w.Header().Set("Access-Control-Allow-Origin", "*")
	}))
	defer elsewhere.Close()
	css := strings.ReplaceAll(`@import "URL/a.css"; @import url(URL/b.css);
@font-face { font-family: f; src: url(URL/f.woff2) }
body { background: url(URL/c.png); font-family: f; cursor: url(URL/d.cur), auto; list-style: url(URL/e.png); border-image: url(URL/g.png); mask: url(URL/h.svg#x); filter: url(URL/i.svg#x) }
body::before { content: url(URL/j.png) } main { background: image-set("URL/k.png" 1x) } h1 { background: url(chip.png), url("javascript:alert(1)"), url("data:image/svg+xml,<svg xmlns='http://www.w3.org/2000/svg'><script>document.title='ran'</script></svg>") }
`, "URL", elsewhere.URL)
	th := ownTheme(t, fstest.MapFS{"style.css": {Data: []byte(css)}, "chip.png": differing(t, 7)})
	b, err := journal.ReadBuild(hostileBuild(t), ".")
	if err != nil {
		t.Fatal(err)
	}
	dir := writeSite(t, siteIn(t, th, hostileBuild(t), b, view.Of(state.At(b, 0, today), view.ForPublic)))
	own := httptest.NewServer(http.FileServer(http.Dir(dir)))
	defer own.Close()
	for _, url := range []string{own.URL + "/", "file://" + dir + "/index.html"} {
		var title, family string
		var shown int
		do(ctx, t, chromedp.Navigate(url), chromedp.Title(&title), chromedp.Evaluate(`getComputedStyle(document.body).fontFamily`, &family),
			chromedp.Evaluate(`performance.getEntriesByType("resource").filter(e => e.name.endsWith("/chip.png")).length`, &shown))
		if family != "f" || shown != 1 && url == own.URL+"/" { // of files nothing is told
			t.Errorf("%s: the style is not used: %q, its own picture asked for %d times", url, family, shown)
		}
		if title == "ran" {
			t.Errorf("%s: a style has run something", url)
		}
	}
	mu.Lock()
	defer mu.Unlock()
	if len(asked) > 0 {
		t.Errorf("the style fetched %q", asked)
	}
}
