package render

import (
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
	"guidecoat/themes"
)

// pale are the words that are hard to read on white paper: their contrast with it is
// below the 4.5 of WCAG 2.2, success criterion 1.4.3.
const pale = `[...document.querySelectorAll("body *")].filter(e => {
	if (![...e.childNodes].some(n => n.nodeType == 3 && n.data.trim()) || !e.getClientRects().length || e.closest("svg")) return false
	const [r, g, b] = getComputedStyle(e).color.match(/[\d.]+/g).map(c => c / 255).map(c => c <= .04045 ? c / 12.92 : ((c + .055) / 1.055) ** 2.4)
	return 1.05 / (.2126 * r + .7152 * g + .0722 * b + .05) < 4.5
}).map(e => e.className + ": " + e.textContent.slice(0, 40)).slice(0, 8)`

// frames are how heavy the frames are, from minor to dangerous: of items, then of labels.
const frames = `[".item.minor", ".item.major", ".item.dangerous", ".severity.minor", ".severity.major", ".severity.dangerous"].map(s => {
	const c = getComputedStyle(document.querySelector(s))
	return ["Top", "Right", "Bottom", "Left"].reduce((n, side) => n + parseFloat(c["border" + side + "Width"]), 0)
})`

// A browser prints no grounds: what is printed is dark on white all the same, and what
// is dangerous has the heaviest frame.
func TestPrintedByInkAlone(t *testing.T) {
	ctx := browser(t)
	b, err := journal.ReadBuild(example(), ".")
	if err != nil {
		t.Fatal(err)
	}
	st := state.At(b, measure.NewDate(2026, 5, 10), today)
	for _, name := range []string{"surfacer", "lacquer"} {
		th, err := themes.Load(name, nil)
		if err != nil {
			t.Fatal(err)
		}
		files := siteIn(t, th, example(), b, view.ForHandover(st, view.ForBuyer, nil))
		url := "file://" + writeSite(t, files) + "/"
		for _, scheme := range []string{"light", "dark"} {
			var words []string
			var heavy []float64
			for _, page := range []string{"index.html", "snags.html", "pack.html"} {
				do(ctx, t,
					emulation.SetEmulatedMedia().WithMedia("print").WithFeatures([]*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}),
					chromedp.Navigate(url+page), chromedp.Evaluate(pale, &words))
				if len(words) > 0 {
					t.Errorf("%s, %s, %s: too pale to print: %q", name, scheme, page, words)
				}
			}
			do(ctx, t, chromedp.Evaluate(frames, &heavy))
			if !(heavy[0] < heavy[1] && heavy[1] < heavy[2] && heavy[3] < heavy[4] && heavy[4] < heavy[5]) {
				t.Errorf("%s: the frames of minor, major and dangerous are %v", name, heavy)
			}
		}
	}
}
