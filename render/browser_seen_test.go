package render

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"math"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/chromedp/cdproto/emulation"
	devtools "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
	"guidecoat/themes"
)

// What drawings tell, as the browser shows it.

// drawn is a build with everything that is drawn: a fix, a pair, and budgets that are far
// from each other.
var drawn = fstest.MapFS{
	"build.md": {Data: []byte(`---
build: Kite van
currency: GBP
stages:
  buying: the van; purchase; budget 4000 5000 6000
  brakes: budget 20 30 50
---
A van.
`)},
	"2026-05-02.md": {Data: []byte(`---
stage: brakes
time: 1h looked at it
cost:
  - 4500.00 the van; as vehicle; stage buying
  - 60.00 pads
parts:
  front-pads: fitted pads, front axle; free
readings:
  gap-left: 2.0 mm; max 6 mm
  gap-right: 9.0 mm; max 6 mm
---
- [ ] temporary door-rope: door held with a rope
- [ ] temporary silencer-wire: silencer hung on wire
`)},
	"2026-05-11.md": {Data: []byte(`---
time: 1h hinge
readings:
  gap-left: 5.1 mm
  gap-right: 5.2 mm
---
- [x] door-rope
- [ ] bent-hinge: hinge is bent; major
`)},
}

// drawnSites are its sites for the workshop in every theme.
func drawnSites(t *testing.T, asOf measure.Date) map[string]string {
	t.Helper()
	b, err := journal.ReadBuild(drawn, ".")
	if err != nil {
		t.Fatal(err)
	}
	dirs := map[string]string{}
	for _, name := range themes.Names() {
		th, err := themes.Load(name, nil)
		if err != nil {
			t.Fatal(err)
		}
		dirs[name] = "file://" + writeSite(t, siteIn(t, th, drawn, b, view.Of(state.At(b, asOf, today), view.ForWorkshop))) + "/"
	}
	return dirs
}

// ask opens a page with features of media and asks it something.
func ask(ctx context.Context, t *testing.T, url string, width int64, script string, answer any, features ...string) {
	t.Helper()
	var list []*emulation.MediaFeature
	for _, f := range features {
		name, value, _ := strings.Cut(f, ": ")
		list = append(list, &emulation.MediaFeature{Name: name, Value: value})
	}
	do(ctx, t, emulation.SetEmulatedMedia().WithMedia("screen").WithFeatures(list), emulation.SetDeviceMetricsOverride(width, 800, 1, false),
		chromedp.Navigate(url), chromedp.Evaluate("{"+whatTheyShare+script+"}", answer, awaited))
}

// A seenBox is where something is on a page.
type seenBox struct{ X, Y, Width, Height float64 }

// seen is a picture of a part of the page that is open.
func seen(ctx context.Context, t *testing.T, b seenBox) image.Image {
	t.Helper()
	if b.Width < 1 || b.Height < 1 {
		t.Fatalf("there is nothing to see: %+v", b)
	}
	var data []byte
	do(ctx, t, chromedp.ActionFunc(func(ctx context.Context) (err error) {
		data, err = devtools.CaptureScreenshot().WithCaptureBeyondViewport(true).WithClip(&devtools.Viewport{X: b.X, Y: b.Y, Width: b.Width, Height: b.Height, Scale: 1}).Do(ctx)
		return err
	}))
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// hasColour tells whether a picture holds that colour of the form "rgb(1, 2, 3)".
func hasColour(img image.Image, words string) bool {
	var r, g, b uint8
	if _, err := fmt.Sscanf(words, "rgb(%d, %d, %d)", &r, &g, &b); err != nil {
		return false
	}
	for y := img.Bounds().Min.Y; y < img.Bounds().Max.Y; y++ {
		for x := img.Bounds().Min.X; x < img.Bounds().Max.X; x++ {
			if color.RGBAModel.Convert(img.At(x, y)) == (color.RGBA{r, g, b, 255}) {
				return true
			}
		}
	}
	return false
}

// A seenFix is a row of the strip: its words, its tape in hundredths of its column, the edge
// that is torn and what colour that is.
type seenFix struct {
	Words    string
	From, To float64
	Edge     seenBox
	Colour   string
}

const askStrip = `
[...document.querySelectorAll(".strip tbody tr")].map(row => {
	const column = row.querySelector("svg").getBoundingClientRect(), tape = row.querySelector("rect").getBoundingClientRect(), torn = row.querySelector("path")
	const at = x => (x - column.left) / column.width * 100
	const fix = {Words: row.querySelector("th").innerText.replace(/\s+/g, " "), From: at(tape.left), To: at(tape.right), Colour: "", Edge: {}}
	if (torn) {
		const r = torn.getBoundingClientRect()
		fix.Colour = getComputedStyle(torn).stroke
		fix.Edge = {X: r.left - 2 + scrollX, Y: r.top + scrollY, Width: r.width + 4, Height: r.height}
		fix.To = at(r.right)
	}
	return fix
})`

// The strip shows each fix from the day it went on to the day it came off, and one that is
// still on up to the day that is told of, torn and edged in the colour of what is outstanding.
func TestStripIsSeen(t *testing.T) {
	ctx := browser(t)
	for _, c := range []struct {
		asOf measure.Date
		want []seenFix
	}{
		{measure.NewDate(2026, 5, 7), []seenFix{{Words: "Door held with a rope 2 May to now, 5 days", To: 100, Colour: "red"}, {Words: "Silencer hung on wire 2 May to now, 5 days", To: 100, Colour: "red"}}},
		{measure.NewDate(2026, 5, 20), []seenFix{{Words: "Door held with a rope 2 May to 11 May, 9 days", To: 50}, {Words: "Silencer hung on wire 2 May to now, 18 days", To: 100, Colour: "red"}}},
	} {
		for theme, dir := range drawnSites(t, c.asOf) {
			for _, page := range []string{buildFront, snagsFront} {
				for _, width := range []int64{390, 1280} {
					var got []seenFix
					ask(ctx, t, dir+page, width, askStrip, &got, "prefers-color-scheme: light")
					if len(got) != len(c.want) {
						t.Fatalf("%s, %s: %v", theme, page, got)
					}
					for i, want := range c.want {
						g, red := got[i], false
						if g.Colour != "" {
							red = hasColour(seen(ctx, t, g.Edge), g.Colour)
						}
						if g.Words != want.Words || math.Abs(g.From) > 1 || math.Abs(g.To-want.To) > 2 || red != (want.Colour == "red") {
							t.Errorf("%s, %s at %d, %s:\n got %+v, red %v\nwant %+v", theme, page, width, c.asOf, g, red, want)
						}
					}
				}
			}
		}
	}
}

// Of a pair, the greater value stands further to the right and the one limit at one place;
// each budget has a scale of its own, so a small one is as broad as a large one.
func TestScalesAreSeen(t *testing.T) {
	ctx := browser(t)
	for theme, dir := range drawnSites(t, 0) {
		var gauges [][2]float64 // where the newest reading and the limit are, of 5.1 mm and of 5.2 mm
		ask(ctx, t, dir+measuredFront, 390, `[...document.querySelectorAll(".gauge svg")].sort((a, b) => a.textContent < b.textContent ? -1 : 1).map(g => [".newest", ".limit"].map(c => g.querySelector("line" + c).getBoundingClientRect().left - g.getBoundingClientRect().left))`, &gauges)
		if len(gauges) != 2 || !(gauges[0][0] < gauges[1][0]-1) || math.Abs(gauges[0][1]-gauges[1][1]) > 0.5 {
			t.Errorf("%s: 5.1 and 5.2 mm of 6 mm stand at %v", theme, gauges)
		}
		var budgets [][2]float64 // where the net and the budget end, in hundredths of the column
		ask(ctx, t, dir+moneyFront, 1280, `[...document.querySelectorAll(".budget")].map(g => [".net", ".band"].map(c => (g.querySelector(c).getBoundingClientRect().right - g.getBoundingClientRect().left) / g.getBoundingClientRect().width * 100))`, &budgets)
		if len(budgets) != 2 || math.Abs(budgets[0][0]-75) > 1 || math.Abs(budgets[0][1]-100) > 1 || math.Abs(budgets[1][0]-100) > 1 || math.Abs(budgets[1][1]-83.3) > 1 {
			t.Errorf("%s: 4500 of 6000 and 60 of 50 are drawn as %v", theme, budgets)
		}
	}
}

// Where the system's colours are forced, what is told by a ground alone has an edge that
// stands out from the page, and drawings are seen.
func TestForcedColours(t *testing.T) {
	ctx := browser(t)
	for theme, dir := range drawnSites(t, measure.NewDate(2026, 5, 20)) {
		for page, boxes := range map[string]string{
			buildFront:                 ".status, .top nav [aria-current], .plate, .dataplate, .severity",
			snagsFront:                 ".items:not(.cleared) .item, .severity, .tape",
			"sessions/2026-05-02.html": ".snag, .badge",
			partsFront:                 ".state",
		} {
			for _, scheme := range []string{"light", "dark"} {
				var bare []string
				ask(ctx, t, dir+page, 390, `few([...document.querySelectorAll("`+boxes+`")].filter(shown).filter(e => {
					const s = getComputedStyle(e), ground = getComputedStyle(document.body).backgroundColor
					return !["Top", "Left"].some(side => parseFloat(s["border" + side + "Width"]) >= 1 && s["border" + side + "Style"] != "none" && s["border" + side + "Color"] != ground)
				}).map(called))`, &bare, "forced-colors: active", "prefers-color-scheme: "+scheme)
				if len(bare) > 0 {
					t.Errorf("%s, %s, %s: without an edge: %q", theme, page, scheme, bare)
				}
			}
		}
		for page, drawing := range map[string]string{buildFront: ".on-tape rect", measuredFront: ".gauge .band", moneyFront: ".budget .net"} {
			var b seenBox
			ask(ctx, t, dir+page, 1280, `{ const r = document.querySelector("`+drawing+`").getBoundingClientRect(); ({X: r.left + 3 + scrollX, Y: r.top - 6 + scrollY, Width: Math.min(r.width - 6, 40), Height: r.height + 12}) }`, &b, "forced-colors: active")
			if n := colours(seen(ctx, t, b)); n < 2 {
				t.Errorf("%s, %s: %s is not seen", theme, page, drawing)
			}
		}
	}
}

func colours(img image.Image) int {
	all := map[color.Color]bool{}
	for y := range img.Bounds().Dy() {
		for x := range img.Bounds().Dx() {
			all[img.At(x, y)] = true
		}
	}
	return len(all)
}

// Every page leads to the icon, and browsers draw it: tape across a grey panel.
func TestIconIsSeen(t *testing.T) {
	ctx := browser(t)
	files := siteOf(t, drawn, view.ForWorkshop, 0)
	dir := "file://" + writeSite(t, files) + "/"
	leads := regexp.MustCompile(`<link rel="icon" type="image/svg\+xml" href="((?:\.\./)*)icon\.svg">`)
	for _, f := range files {
		if m := leads.FindSubmatch(f.Data); isPage(f) && (m == nil || strings.Count(string(m[1]), "../") != strings.Count(f.Path, "/")) {
			t.Errorf("%s does not lead to the icon", f.Path)
		}
	}
	do(ctx, t, emulation.SetDeviceMetricsOverride(64, 64, 1, false), chromedp.Navigate(dir+iconName))
	img := seen(ctx, t, seenBox{0, 0, 64, 64})
	for at, want := range map[image.Point]color.RGBA{{X: 32, Y: 38}: {0xec, 0xdc, 0xa6, 0xff}, {X: 40, Y: 12}: {0x55, 0x62, 0x6b, 0xff}, {X: 14, Y: 12}: {0x1b, 0x1f, 0x22, 0xff}} {
		if got := color.RGBAModel.Convert(img.At(at.X, at.Y)); got != want {
			t.Errorf("at %v it is %v, want %v", at, got, want)
		}
	}
}
