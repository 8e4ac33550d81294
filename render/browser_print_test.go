package render

import (
	"context"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"guidecoat/journal/measure"
	"guidecoat/journal/view"
	"guidecoat/render/place"
)

// wide names what reaches beyond the right edge of the page.
const wide = `document.documentElement.scrollWidth <= innerWidth ? [] : [...document.querySelectorAll("body *")].filter(e =>
	e.getBoundingClientRect().right > innerWidth + 1 && !e.closest("pre")).map(e => e.tagName + "." + e.getAttribute("class")).slice(0, 5).concat("")`

// roomless are the pictures that keep no room of their shape until they are there, and
// so would move what is read.
const roomless = `Promise.all([...document.images].map(async i => {
	i.loading = "eager"
	await i.decode().catch(() => 0)
	const room = getComputedStyle(i).aspectRatio.match(/([\d.]+) \/ ([\d.]+)/)
	if (!room) return i.src
	const cropped = getComputedStyle(i).objectFit == "cover"
	return cropped || Math.abs(room[1] / room[2] - i.naturalWidth / i.naturalHeight) < 0.02 ? "" : i.src
})).then(l => l.filter(s => s))`

// One page of each kind, as it is printed on A4 (210 mm less two margins of 15 mm are
// 680 CSS pixels), and in the dark on a small screen: nothing is cut off, and no
// picture that arrives moves what is read.
func TestPrintedDarkAndStill(t *testing.T) {
	ctx := browser(t)
	for name, files := range map[string][]place.File{
		"surfacer": siteOf(t, example(), view.ForWorkshop, measure.NewDate(2026, 6, 1)),
		"lacquer":  lacquered(t, view.ForWorkshop, measure.NewDate(2026, 6, 1)),
	} {
		dir := writeSite(t, files)
		for kind, f := range kinds(files) {
			if !toured(name, kind) {
				continue
			}
			url := "file://" + dir + "/" + f.Path
			if beyond := beyondEdge(ctx, t, url, "print", "light", 680); len(beyond) > 0 {
				t.Errorf("%s, %s: printed it is too wide: %v", name, kind, beyond)
			}
			if beyond := beyondEdge(ctx, t, url, "screen", "dark", 320); len(beyond) > 0 {
				t.Errorf("%s, %s: in the dark it scrolls sideways: %v", name, kind, beyond)
			}
			var moving []string
			do(ctx, t, chromedp.Evaluate(roomless, &moving, awaited))
			if len(moving) > 0 {
				t.Errorf("%s, %s: pictures that would move what is read: %v", name, kind, moving)
			}
		}
	}
}

func beyondEdge(ctx context.Context, t *testing.T, url, media, scheme string, width int64) []string {
	t.Helper()
	var list []string
	do(ctx, t,
		emulation.SetEmulatedMedia().WithMedia(media).WithFeatures([]*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}),
		emulation.SetDeviceMetricsOverride(width, 800, 1, false),
		chromedp.Navigate(url), chromedp.Evaluate(wide, &list))
	return list
}

// In a folder of a static host, at any depth, pages ask for nothing outside it.
func TestInASubFolder(t *testing.T) {
	ctx := browser(t)
	top := t.TempDir()
	for _, f := range siteOf(t, example(), view.ForPublic, 0) {
		at := filepath.Join(top, "cars", "my halden", filepath.FromSlash(f.Path))
		if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(at, f.Data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	mux := http.NewServeMux()
	mux.HandleFunc("/favicon.ico", func(http.ResponseWriter, *http.Request) {}) // browsers ask every host for one
	mux.Handle("/", http.FileServer(http.Dir(top)))
	host := httptest.NewServer(mux)
	defer host.Close()
	home := host.URL + "/cars/my%20halden/"
	w := &watch{home: home}
	chromedp.ListenTarget(ctx, w.event)
	do(ctx, t, network.Enable(), log.Enable(), runtime.Enable())
	for _, page := range []string{"", "sessions/2026-05-04.html", "snags.html"} {
		for _, complaint := range look(ctx, t, home+page, w) {
			// What was still loading when the page was left, and what browsers ask of every host.
			if !strings.Contains(complaint, "ERR_ABORTED") && !strings.Contains(complaint, "/favicon.ico") {
				t.Errorf("%s: %s", page, complaint)
			}
		}
	}
}
