package render

import (
	"context"
	"fmt"
	"maps"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/chromedp/cdproto/emulation"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"guidecoat/journal"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
	"guidecoat/render/place"
	"guidecoat/themes"
)

// A sheet of A4 less two margins of 15 mm each, in CSS pixels of 1/96 inch.
const paperWidth, paperHeight = 680, 1009

// spilt names what is cut off, hidden or lies over its neighbour: boxes that hide a part of
// what they hold, cells that are narrower than that, and sections that stay folded.
const spilt = `[...document.querySelectorAll("main, main *")].filter(e => {
	const s = getComputedStyle(e), box = e.getBoundingClientRect()
	if (e.closest("svg, thead") || !e.getClientRects().length) return false
	if (s.overflow != "visible" && (e.scrollWidth > e.clientWidth + 1 || e.scrollHeight > e.clientHeight + 1) && e.tagName != "IMG") return true
	return e.matches("td, dd, li") && [...e.querySelectorAll("*")].some(c => c.getBoundingClientRect().right > box.right + 1)
}).concat([...document.querySelectorAll("details.fold")].filter(d => !d.lastElementChild.getClientRects().length)).map(e => e.tagName + "." + e.className + ": " + e.textContent.trim().slice(0, 40)).slice(0, 5)`

// small names text that is set smaller than so many pixels.
const small = `[...document.querySelectorAll("body *")].filter(e => [...e.childNodes].some(n => n.nodeType == 3 && n.data.trim()) && e.getClientRects().length &&
	!e.closest("svg, .skip") && parseFloat(getComputedStyle(e).fontSize) < %v).map(e => e.tagName + "." + e.className + ": " + e.textContent.trim().slice(0, 40)).slice(0, 5)`

// broken are how many plates stand in each row of key figures, where the last is short by
// more than one.
const broken = `[...document.querySelectorAll("main > .plates")].map(l => {
	const rows = new Map()
	for (const p of l.children) { const y = Math.round(p.getBoundingClientRect().top); rows.set(y, (rows.get(y) || 0) + 1) }
	return [...rows.values()]
}).filter(r => Math.max(...r) - r[r.length - 1] > 1).map(r => r.join("+"))`

// recordIn is the record of a build in a theme, as files in a folder.
func recordIn(t *testing.T, name string, fsys fstest.MapFS) string {
	t.Helper()
	th, err := themes.Load(name, nil)
	if err != nil {
		t.Fatal(err)
	}
	var files []place.File
	if fsys == nil {
		b, err := journal.ReadBuild(example(), ".")
		if err != nil {
			t.Fatal(err)
		}
		files = siteIn(t, th, example(), b, view.ForHandover(state.At(b, 0, today), view.ForBuyer, nil))
	} else {
		b, err := journal.ReadBuild(fsys, ".")
		if err != nil {
			t.Fatal(err)
		}
		files = siteIn(t, th, fsys, b, view.ForHandover(state.At(b, 0, today), view.ForBuyer, nil))
	}
	return "file://" + writeSite(t, files) + "/"
}

func asked[T any](ctx context.Context, t *testing.T, url, media string, width, height int64, script string) (answer T) {
	t.Helper()
	do(ctx, t, emulation.SetEmulatedMedia().WithMedia(media), emulation.SetDeviceMetricsOverride(width, height, 1, false),
		chromedp.Navigate(url), chromedp.Evaluate(script, &answer))
	return answer
}

var pdfPage = regexp.MustCompile(`/Type\s*/Page[^s]`)

// The record prints on about ten sheets, begins with one that stands alone, cuts nothing
// off and leaves nothing folded. Unfolded by nobody it is short on a phone.
func TestPrintedRecord(t *testing.T) {
	ctx := browser(t)
	for _, name := range []string{"surfacer", "lacquer"} {
		url := recordIn(t, name, nil)
		var pdf []byte
		do(ctx, t, emulation.SetEmulatedMedia(), chromedp.Navigate(url+packFront), chromedp.ActionFunc(func(ctx context.Context) (err error) {
			pdf, _, err = cdppage.PrintToPDF().WithPaperWidth(8.27).WithPaperHeight(11.69).WithMarginTop(0.59).WithMarginBottom(0.59).WithMarginLeft(0.59).WithMarginRight(0.59).Do(ctx)
			return err
		}))
		if n := len(pdfPage.FindAll(pdf, -1)); n < 5 || n > 10 {
			t.Errorf("%s: it prints on %d pages", name, n)
		}
		for _, at := range []string{packFront, buildFront, snagsFront} {
			found := asked[[3][]string](ctx, t, url+at, "print", paperWidth, 844, fmt.Sprintf("["+small+","+spilt+","+broken+"]", 8*96/72.0-0.01))
			for i, what := range []string{"too small", "cut off", "plates in rows of"} {
				if len(found[i]) > 0 && (i > 0 || at == packFront) {
					t.Errorf("%s, %s: %s in print: %q", name, at, what, found[i])
				}
			}
		}
		if list := asked[[]string](ctx, t, url+packFront, "screen", 390, 844, fmt.Sprintf(small, 13.99)); len(list) > 0 {
			t.Errorf("%s: too small on the screen: %q", name, list)
		}
		if screens := asked[float64](ctx, t, url+packFront, "screen", 390, 844, `document.documentElement.scrollHeight / 844`); screens < 2 || screens > 11.9 {
			t.Errorf("%s: it has %.1f screens on a phone", name, screens)
		}
	}
}

// However much there is to tell, the frame fits one sheet of paper.
func TestFrameFitsOneSheet(t *testing.T) {
	ctx := browser(t)
	long := strings.Repeat("as long as anybody would write it on a card ", 5)
	card, snags := "---\nbuild: "+long[:90]+"\ncurrency: GBP\nvehicle:\n  contact: "+long[:80]+"\n", ""
	for i := range 20 {
		card += fmt.Sprintf("  thing %d: %s\n", i, long)
	}
	card += "damage:\n"
	for i, system := range []string{"brakes", "steering", "suspension", "wheels", "restraints", "structure", "fuel", "body", "paint"} {
		card += fmt.Sprintf("  side %d: %s; system %s\n", i, long, system)
		snags += fmt.Sprintf("- [x] job mend-%d: mended; system %s\n- [ ] job hole-%d: %s; dangerous; system %s\n- [ ] job hidden-%d: x; dangerous; private\n", i, system, i, long, system, i)
	}
	parts, readings := "parts:\n", "readings:\n"
	for i := range 9 {
		id := strings.ReplaceAll(long[:60], " ", "-") + fmt.Sprint(i)
		parts += fmt.Sprintf("  p-%s: fitted x; used; system brakes\n  q-%s: needed y\n  r-%s: cancelled z; system steering\n", id, id, id)
		readings += fmt.Sprintf("  m-%s: 1 mm\n  n-%s: 1 mm; min 2 mm; minor\n", id, id)
	}
	silent := parts + readings + "checks:\n  fuel-leak-check: done\n"
	fsys := fstest.MapFS{"build.md": {Data: []byte(card + "---\n- [ ] an open box\n")}, "2026-05-01.md": {Data: []byte("---\nstage: all\n" + silent + "---\n![Hit](hit.png)\n\n" + snags)}, "2026-05-02.md": {Data: []byte("---\nstage: all\ninspection: failed " + long + "; by " + long[:60] + "; at 91279 mi; until 2027-07-03\n---\n![Done](done.png)\n")},
		"hit.png": {Data: tellingPicture(false, 7)}, "done.png": {Data: tellingPicture(false, 8)}}
	less := maps.Clone(fsys) // less damage, told at greater length
	less["build.md"] = &fstest.MapFile{Data: []byte(regexp.MustCompile("  side [3-9].*\n").ReplaceAllString(card, "") + "---\n")}
	for _, name := range []string{"surfacer", "lacquer"} {
		for _, files := range []fstest.MapFS{nil, fsys, less} {
			bottom := asked[float64](ctx, t, recordIn(t, name, files)+packFront, "print", paperWidth, 844, `document.querySelector(".frame").getBoundingClientRect().bottom + scrollY`)
			if bottom < 300 || bottom > paperHeight {
				t.Errorf("%s: the frame ends at %.0f of %d pixels (full: %v)", name, bottom, paperHeight, files != nil)
			}
		}
	}
}
