package render

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal/measure"
	"guidecoat/journal/view"
)

// pictured is a build with a picture of each name, each of another size, and those notes.
func pictured(notes map[string]string, names ...string) fstest.MapFS {
	fsys := fstest.MapFS{}
	for i, name := range names {
		fsys[name+".png"] = &fstest.MapFile{Data: tellingPicture(false, uint8(i+1))}
	}
	for name, words := range notes {
		fsys[name] = &fstest.MapFile{Data: []byte(words)}
	}
	return fsys
}

var cureFigure = regexp.MustCompile(`(?s)<figure>.*?<time datetime="([^"]*)">.*?</span> (.*?)</figcaption>`)

// The front page shows how the vehicle came and what it has become, never from after the
// day that is told of.
func TestCrashAndCure(t *testing.T) {
	const card = "---\nbuild: b\ncurrency: GBP\n---\nIt was hit.\n\n![Done](done.png)\n"
	notes := map[string]string{
		"build.md":      card,
		"2026-04-01.md": "# Came\n![Crushed](crushed.png)\n",
		"2026-05-01.md": "# Primed\n\nGrey. ![Primed](primed.png) Now.\n",
		"2026-06-01.md": "---\nsold: 900.00\n---\n# Sold\n![Gone](gone.png)\n",
	}
	dated := map[string]string{}
	for name, words := range notes {
		dated[name] = words
	}
	dated["2026-06-01.md"] = "---\nsold: 900.00\n---\n# Sold\n![Done](done.png)\n\n![The empty drive](gone.png)\n"
	for _, c := range []struct {
		name  string
		notes map[string]string
		asOf  measure.Date
		want  string
	}{
		{"the job card's own once it is sold", dated, 0, "2026-04-01 Crushed, 2026-06-01 Done"},
		{"the newest where that has no date", notes, 0, "2026-04-01 Crushed, 2026-06-01 Gone"},
		{"before the sale", dated, measure.NewDate(2026, 5, 20), "2026-04-01 Crushed, 2026-05-01 Primed"},
		{"one picture", dated, measure.NewDate(2026, 4, 20), "2026-04-01 Crushed"},
		{"none yet", dated, measure.NewDate(2026, 3, 20), ""},
	} {
		files := siteOf(t, pictured(c.notes, "crushed", "primed", "done", "gone"), view.ForPublic, c.asOf)
		page := text(t, files, "index.html")
		var got []string
		for _, m := range cureFigure.FindAllStringSubmatch(page, -1) {
			got = append(got, m[1]+" "+m[2])
		}
		if strings.Join(got, ", ") != c.want {
			t.Errorf("%s: %s, want %s", c.name, strings.Join(got, ", "), c.want)
		}
		if n := strings.Count(page, `alt="Done"`); n > 1 {
			t.Errorf("%s: the same picture %d times", c.name, n)
		}
		if c.asOf != 0 {
			for _, f := range files {
				if strings.Contains(string(f.Data), "Done") {
					t.Errorf("%s: %s tells of a picture from later", c.name, f.Path)
				}
			}
		}
	}
}

// Every picture opens large on a page of its own, which leads to the one before and after.
func TestEveryPictureOpens(t *testing.T) {
	files := siteOf(t, pictured(map[string]string{
		"build.md":      "---\nbuild: b\ncurrency: GBP\nstages:\n  axle: budget 9; system suspension\n---\nIt was hit.\n",
		"2026-04-01.md": "# Came\n![Crushed](crushed.png)\n\nWords with ![a bolt](bolt.png) in them, and [![a bolt](bolt.png)](2026-04-02.md) that leads elsewhere.\n",
		"2026-04-02.md": "---\nstage: axle\nparts:\n  beam: fitted rear beam; photo beam.png\n---\n# Axle\n![Before](before.png)\n![After](after.png)\n",
	}, "crushed", "bolt", "beam", "before", "after"), view.ForPublic, 0)
	opened := regexp.MustCompile(`<a href="\.\./(album/[^"]*)"><img`)
	var order []string
	for _, page := range []string{"sessions/2026-04-01.html", "sessions/2026-04-02.html"} {
		for _, m := range opened.FindAllStringSubmatch(text(t, files, page), -1) {
			order = append(order, m[1])
		}
	}
	want := []string{"album/2026-04-01-1.html", "album/2026-04-01-2.html", "album/2026-04-02-1.html", "album/2026-04-02-2.html"}
	if fmt.Sprint(order) != fmt.Sprint(want) {
		t.Errorf("pictures open %v, want %v", order, want)
	}
	want = append(want, "album/2026-04-02-3.html") // of the part
	for i, page := range want {
		words := text(t, files, page)
		if i > 0 && !strings.Contains(words, `href="../`+want[i-1]+`" rel="prev"`) || i+1 < len(want) && !strings.Contains(words, `href="../`+want[i+1]+`" rel="next"`) {
			t.Errorf("%s does not lead to its neighbours", page)
		}
		for _, list := range []string{"album/index.html", "album/places.html"} {
			if n := strings.Count(text(t, files, list), `href="../`+page+`"`); n != 1 {
				t.Errorf("%s stands %d times in %s", page, n, list)
			}
		}
	}
	if _, after, ok := strings.Cut(text(t, files, "album/places.html"), "<h2>Suspension</h2>"); !ok || strings.Count(after, "<img") != 3 {
		t.Error("the pictures of the suspension do not stand together")
	}
}
