package render

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"net/url"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal/view"
	"guidecoat/render/place"
)

// differing is a PNG unlike any other of another shade.
func differing(t *testing.T, shade int) *fstest.MapFile {
	t.Helper()
	m := image.NewGray16(image.Rect(0, 0, 4, 3))
	for i := range m.Pix {
		m.Pix[i] = byte(shade >> (i % 2 * 8))
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return &fstest.MapFile{Data: b.Bytes()}
}

// plainPath is one that every host and every system takes as it is.
var plainPath = regexp.MustCompile(`^[a-z0-9]([a-z0-9./-]*[a-z0-9])?$`)

// held holds the paths of a site to what every host can tell apart, and its links
// to what is there.
func held(t *testing.T, files []place.File) map[string][]byte {
	t.Helper()
	all := byPath(files)
	if len(all) != len(files) {
		t.Errorf("%d files at %d paths", len(files), len(all))
	}
	for _, f := range files {
		if !plainPath.MatchString(f.Path) || len(path.Base(f.Path)) > 120 { // so that upper case clashes with nothing
			t.Errorf("a path %q", f.Path)
		}
		if !isPage(f) {
			continue
		}
		for n := range parse(t, f).Descendants() {
			for _, target := range targets(n) {
				to, _, _ := strings.Cut(target, "#")
				if to != "" && all[path.Join(path.Dir(f.Path), to)] == nil {
					t.Errorf("%s leads to %q, which is not there", f.Path, target)
				}
			}
		}
	}
	return all
}

// Whatever a file is called, a note that names it shows it.
func TestStrangeNames(t *testing.T) {
	const nfc, nfd = "caf\u00e9", "cafe\u0301"
	names := map[string]string{ // as the note has it, as the disk has it
		"a b": "a b", "it's": "it's", `quo"te`: `quo"te`, "#1": "#1", "100%": "100%", "what?": "what?", "a&b": "a&b", "<x>": "<x>", "(1)": "(1)", "a+b": "a+b", "%41": "%41",
		"søster": "søster", "日本": "日本", "عربي": "عربي", "🚗": "🚗", nfc: nfc, nfd + "2": nfc + "2", nfc + "3": nfd + "3", strings.Repeat("long ", 40): strings.Repeat("long ", 40),
		"Upper": "Upper", "upper": "upper", "con": "con", "index": "index", "a,b": "a,b",
	}
	fsys := fstest.MapFS{"build.md": {Data: []byte("---\nbuild: b\ncurrency: GBP\n---\n")}}
	var note, body strings.Builder
	note.WriteString("---\nparts:\n  hub: needed a hub")
	for i, name := range slices.Sorted(func(yield func(string) bool) {
		for name := range names {
			if !yield(name) {
				return
			}
		}
	}) {
		for _, ext := range []string{".png", ".pdf"} {
			at := "my photos/" + names[name] + ext
			fsys[at] = &fstest.MapFile{Data: fmt.Appendf(nil, "%%PDF-1.7 %d", i)}
			if ext == ".png" {
				fsys[at] = differing(t, i)
				fmt.Fprintf(&body, "![p](%s)\n\n", (&url.URL{Path: "my photos/" + name + ext}).EscapedPath())
			} else {
				fmt.Fprintf(&body, "[d](%s)\n\n", (&url.URL{Path: "my photos/" + name + ext}).EscapedPath())
			}
		}
		fmt.Fprintf(&note, "; photo my photos/%s.png", name)
	}
	fsys["2026-04-11.md"] = &fstest.MapFile{Data: []byte(note.String() + "\n---\n" + strings.NewReplacer("(1)", "%281%29").Replace(body.String()))}
	all := held(t, siteOf(t, fsys, view.ForPublic, 0))
	page := string(all["sessions/2026-04-11.html"])
	if got := strings.Count(page, `alt="p"`); got != len(names) {
		t.Errorf("%d pictures of %d are shown", got, len(names))
	}
	if strings.Contains(page, "missing-picture") {
		t.Error("a picture is missing")
	}
	if got := strings.Count(page, `href="../files/`); got != len(names) {
		t.Errorf("%d documents of %d are linked", got, len(names))
	}
	if got := strings.Count(string(all["parts.html"]), "<img "); got != len(names) {
		t.Errorf("the part shows %d pictures of %d", got, len(names))
	}
}

// A receipt and a photo are found in whichever spelling the note and the disk have them.
func TestReceiptsInBothSpellings(t *testing.T) {
	spellings := []string{"caf\u00e9", "cafe\u0301"}
	for _, written := range spellings {
		for _, stored := range spellings {
			fsys := fstest.MapFS{
				"build.md":                  {Data: []byte("---\nbuild: b\ncurrency: GBP\n---\n")},
				"2026-04-11.md":             {Data: fmt.Appendf(nil, "---\ncost:\n  - 12.00 bolts; receipt papers/%[1]s.pdf\n---\n- [ ] x; photo papers/%[1]s.png\n", written)},
				"papers/" + stored + ".pdf": {Data: []byte("%PDF-1.7")},
				"papers/" + stored + ".png": differing(t, 1),
			}
			all := held(t, siteOf(t, fsys, view.ForWorkshop, 0))
			if got := strings.Count(string(all["money.html"]), `href="files/caf`); got != 1 {
				t.Errorf("%+q as %+q: the receipt is linked %d times", written, stored, got)
			}
			if got := strings.Count(string(all["snags.html"]), "<img "); got != 1 {
				t.Errorf("%+q as %+q: the photo is shown %d times", written, stored, got)
			}
		}
	}
}

// Names that differ in their capitals alone, or in what an address cannot hold, lead
// to pages of their own on hosts that take capitals for small letters.
func TestNamesThatDifferLittle(t *testing.T) {
	fsys := fstest.MapFS{"build.md": {Data: []byte("---\nbuild: b\ncurrency: GBP\n---\n")}}
	notes := []string{"2026-04-11 Axle", "2026-04-11 axle", "2026-04-11-axle", "notes/2026-04-11 AXLE", "2026-04-11 axle!", "2026-04-11 äxle", "2026-04-11 axle-2"}
	for i, name := range notes {
		fsys[name+".md"] = &fstest.MapFile{Data: fmt.Appendf(nil, "---\ntitle: T%d\n---\nWords %d.\n", i, i)}
	}
	for _, page := range []string{"A", "a", "À"} {
		fsys["p-"+page+".md"] = &fstest.MapFile{Data: []byte("---\npage: " + page + "\n---\nx\n")}
	}
	all := held(t, siteOf(t, fsys, view.ForWorkshop, 0))
	for i := range notes {
		n := 0
		for at, data := range all {
			if strings.HasPrefix(at, "sessions/2026") && bytes.Contains(data, fmt.Appendf(nil, "Words %d.", i)) {
				n++
			}
		}
		if n != 1 {
			t.Errorf("%s has %d pages", notes[i], n)
		}
	}
}

// Titles of any length and direction, and files deep below, make sound pages.
func TestLongAndForeignTitles(t *testing.T) {
	deep := strings.Repeat("a folder with a long name/", 30)
	long := strings.Repeat("word ", 2000)
	fsys := fstest.MapFS{
		"build.md":             {Data: []byte("---\nbuild: " + long + "\ncurrency: GBP\n---\n")},
		deep + "2026-04-11.md": {Data: []byte("---\ntitle: " + strings.Repeat("x", 5000) + "\n---\nWords.\n\n![p](p.png)\n")},
		deep + "p.png":         differing(t, 1),
		"2026-04-12.md":        {Data: []byte("---\ntitle: שלום עולם\ntime: 2h עבודה\n---\nمرحبا\n")},
		"2026-04-13 שלום.md":   {Data: []byte("---\ntitle: \u202eabc\n---\nWords.\n")},
		"page.md":              {Data: []byte("---\npage: " + long + "\n---\nx\n")},
	}
	all := held(t, siteOf(t, fsys, view.ForWorkshop, 0))
	for at, data := range all {
		if !strings.HasSuffix(at, ".html") {
			continue
		}
		for _, complaint := range complaints(parse(t, place.File{Path: at, Data: data})) {
			t.Errorf("%s: %s", at, complaint)
		}
	}
	if !bytes.Contains(all["sessions/2026-04-12.html"], []byte("שלום עולם")) {
		t.Error("the title is not on its page")
	}
}

// A checkout with the line ends of another system makes the same site.
func TestLineEnds(t *testing.T) {
	fsys, other := hostileBuild(t), fstest.MapFS{}
	for name, f := range fsys {
		other[name] = f
		if strings.HasSuffix(name, ".md") {
			other[name] = &fstest.MapFile{Data: bytes.ReplaceAll(f.Data, []byte("\n"), []byte("\r\n"))}
		}
	}
	want := byPath(siteOf(t, fsys, view.ForBuyer, 0))
	got := byPath(siteOf(t, other, view.ForBuyer, 0))
	for at := range want {
		if !bytes.Equal(got[at], want[at]) {
			t.Errorf("%s differs", at)
		}
	}
	if len(got) != len(want) {
		t.Errorf("%d files, then %d", len(want), len(got))
	}
}

// A job card alone makes a site, and so does a build of one empty note.
func TestAlmostNothing(t *testing.T) {
	card := &fstest.MapFile{Data: []byte("---\nbuild: b\ncurrency: GBP\n---\n")}
	for name, fsys := range map[string]fstest.MapFS{
		"card only": {"build.md": card}, "an empty note": {"build.md": card, "2026-04-11.md": {}}, "one note": {"build.md": card, "2026-04-11.md": {Data: []byte("Words.\n")}},
	} {
		for _, to := range view.Audiences() {
			all := held(t, siteOf(t, fsys, to, 0))
			if all["index.html"] == nil {
				t.Errorf("%s, %s: no front page", name, to)
			}
			for at, data := range all {
				if strings.HasSuffix(at, ".html") {
					for _, complaint := range complaints(parse(t, place.File{Path: at, Data: data})) {
						t.Errorf("%s, %s, %s: %s", name, to, at, complaint)
					}
				}
			}
		}
	}
}
