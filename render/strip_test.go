package render

import (
	"bytes"
	"image"
	"image/color"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
)

// taped is a build whose card and one session of 2 May hold that; a session of 11 May ticks
// "door-rope" off.
func taped(card, items string) fstest.MapFS {
	return fstest.MapFS{
		"build.md":      {Data: []byte("---\nbuild: Kite van\ncurrency: GBP\n" + card + "---\nA van.\n")},
		"2026-05-02.md": {Data: []byte("---\ntime: 1h looked at it\n---\n" + items)},
		"2026-05-11.md": {Data: []byte("---\ntime: 1h hinge\n---\n- [x] door-rope\n")},
	}
}

const (
	roped   = "- [ ] temporary door-rope: door held with a rope\n"
	tied    = "- [ ] temporary silencer-wire: silencer hung on wire\n"
	tiedHid = "- [ ] temporary silencer-wire: silencer hung on wire; private\n"
)

// stripped makes a public site for an address, by path.
func stripped(t *testing.T, fsys fstest.MapFS, to view.Audience, asOf measure.Date, base string) map[string][]byte {
	t.Helper()
	b, err := journal.ReadBuild(fsys, ".")
	if err != nil {
		t.Fatal(err)
	}
	files, err := allOf(Site(view.Of(state.At(b, asOf, today), to), Options{Theme: theme(t), Read: fsys.ReadFile, BaseURL: base, Store: pictures}))
	if err != nil {
		t.Fatal(err)
	}
	return byPath(files)
}

const somewhere = "https://kite.example/"

// The picture of the strip tells an audience what its pages tell it, and no more: with a
// fix that is hidden from them, or still to come, it is the same to the byte.
func TestStripPictureTellsWhatIsShown(t *testing.T) {
	may4, may20 := measure.NewDate(2026, 5, 4), measure.NewDate(2026, 5, 20)
	of := func(items string, to view.Audience, asOf measure.Date) []byte {
		return stripped(t, taped("", items), to, asOf, somewhere)[stripName]
	}
	shown := of(roped, view.ForPublic, may20)
	if shown == nil {
		t.Fatal("there is no picture of the strip")
	}
	if hidden := of(roped+tiedHid, view.ForPublic, may20); !bytes.Equal(hidden, shown) {
		t.Error("a private fix shows in the public picture")
	}
	if all := of(roped+tiedHid, view.ForWorkshop, may20); bytes.Equal(all, shown) {
		t.Error("the workshop's picture lacks the private fix")
	}
	if both := of(roped+tied, view.ForPublic, may20); bytes.Equal(both, shown) {
		t.Error("a second fix does not show")
	}
	if again := of(roped, view.ForPublic, may20); !bytes.Equal(again, shown) {
		t.Error("the same strip gives other bytes")
	}
	if then := of(roped, view.ForPublic, may4); bytes.Equal(then, shown) {
		t.Error("on 4 May the rope is told to have come off on 11 May")
	}
	for what, items := range map[string]string{"without a fix": "- [ ] hinge: door hinge bent\n", "with hidden ones alone": tiedHid} {
		site := stripped(t, taped("", items), view.ForPublic, may20, somewhere)
		if site[stripName] != nil || strings.Contains(string(site[buildFront]), "og:image") {
			t.Errorf("%s there is a picture of the strip", what)
		}
	}
}

// What is still on ends in the colour of what is outstanding, at the right edge; what was
// peeled off does not.
func TestStripPictureIsRedWhereTorn(t *testing.T) {
	reds := func(asOf measure.Date) (n, right int) {
		img, format, err := image.Decode(bytes.NewReader(stripped(t, taped("", roped), view.ForPublic, asOf, "")[stripName]))
		if err != nil || format != "png" || img.Bounds() != image.Rect(0, 0, 1200, 630) {
			t.Fatalf("%s, %v, %v", format, img, err)
		}
		for x := range 1200 {
			for y := range 630 {
				if img.At(x, y) == (color.RGBA{0x9c, 0x2d, 0x0e, 0xff}) {
					n, right = n+1, x
				}
			}
		}
		return n, right
	}
	if n, right := reds(measure.NewDate(2026, 5, 10)); n < 100 || right < 1130 || right >= 1140 {
		t.Errorf("with the rope on %d points are red, up to %d", n, right)
	}
	if n, _ := reds(measure.NewDate(2026, 5, 20)); n != 0 {
		t.Errorf("with the rope off %d points are red", n)
	}
}

// Letters that the picture's font lacks, words without an end and a build of one day leave
// a picture.
func TestStripPictureOfOddWords(t *testing.T) {
	for _, words := range []string{"車体 held with rope", "👨‍👩‍👧", "مربوط بحبل", strings.Repeat("rope ", 20000), strings.Repeat("ä", 500), "a"} {
		fsys := taped("", "- [ ] temporary door-rope: "+words+"\n")
		delete(fsys, "2026-05-11.md")
		if _, _, err := image.Decode(bytes.NewReader(stripped(t, fsys, view.ForPublic, measure.NewDate(2026, 5, 2), "")[stripName])); err != nil {
			t.Errorf("%.20s: %v", words, err)
		}
	}
}

var ogImage = regexp.MustCompile(`<meta property="og:image(:\w+)?" content="([^"]*)">`)

// Previews get the picture that stands for the build first, then the strip, each with what
// Open Graph says of a picture; without an address there is none.
func TestPreviews(t *testing.T) {
	fsys := taped("", "![The bent door](door.png)\n\n"+roped)
	fsys["door.png"] = &fstest.MapFile{Data: tellingPicture(false, 9)}
	site := stripped(t, fsys, view.ForPublic, 0, somewhere)
	for path, page := range site {
		if !strings.HasSuffix(path, ".html") {
			continue
		}
		found := ogImage.FindAllStringSubmatch(string(page), -1)
		if len(found) != 10 {
			t.Fatalf("%s: %q", path, found)
		}
		for i, want := range []struct{ kind, alt string }{{"png", "The bent door"}, {"png", "1 temporary fix, taken off again after 9 days."}} {
			m := found[i*5 : i*5+5]
			file, ok := strings.CutPrefix(m[0][2], somewhere)
			size, kind, err := image.DecodeConfig(bytes.NewReader(site[file]))
			if !ok || err != nil || kind != want.kind || m[1][2] != "image/"+kind || m[2][2] != strconv.Itoa(size.Width) || m[3][2] != strconv.Itoa(size.Height) || spaced(m[4][2]) != want.alt {
				t.Errorf("%s: %q, which is %v %s, %v", path, m, size, kind, err)
			}
			if names := m[0][1] + m[1][1] + m[2][1] + m[3][1] + m[4][1]; names != ":type:width:height:alt" {
				t.Errorf("%s: the properties are %s", path, names)
			}
		}
	}
	if front := stripped(t, fsys, view.ForPublic, 0, "")[buildFront]; ogImage.Match(front) {
		t.Error("without an address a preview has a picture")
	}
}
