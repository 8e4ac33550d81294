package render

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	devtools "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"guidecoat/render/place"
)

// eachKind calls do with a page of each kind in each theme, of the sites with the most on
// their pages, and with the folder of the site.
func eachKind(t *testing.T, do func(name, dir string, f place.File)) {
	t.Helper()
	seen := map[string]bool{}
	for name, files := range exampleSites(t) {
		garage := strings.Contains(name, "garage")
		if !strings.Contains(name, "in June") && !garage {
			continue
		}
		dir := writeSite(t, files)
		for kind, f := range kinds(files) {
			if strings.HasPrefix(name, "buyer") && kind != "pack" || garage && kind != "garage" || !toured(name, kind) {
				continue
			}
			seen[kind] = true
			do(name+", "+kind, dir, f)
		}
	}
	for _, p := range pageTable {
		if !seen[p.name] {
			t.Errorf("no page of the kind %s", p.name)
		}
	}
}

// whatTheyShare are functions for the scripts below. A script yields what is wrong, each
// once a line.
const whatTheyShare = `
const shown = e => e.checkVisibility({opacityProperty: true, visibilityProperty: true, contentVisibilityAuto: true}) && e.getBoundingClientRect().bottom > 0
const called = e => e.tagName + "." + (e.getAttribute("class") || "") + " in ." + (e.parentElement.closest("[class]").getAttribute("class")) + " " + JSON.stringify(e.textContent.trim().slice(0, 30))
const target = "a[href], summary, button, input"
const textsIn = root => {
	const list = [], walk = document.createTreeWalker(root, NodeFilter.SHOW_TEXT)
	for (let n; n = walk.nextNode();) if (n.data.trim() && shown(n.parentElement) && n.parentElement.tagName != "TITLE") list.push(n)
	return list
}
const few = list => [...new Set(list)].slice(0, 6)
;`

// Targets are 24 pixels high and wide, but for those in the line of other words (WCAG 2.2,
// 2.5.8, "Inline"). That those which are small may stand far apart, it allows; we do not.
const smallTargets = `
const block = e => { while (getComputedStyle(e).display.startsWith("inline")) e = e.parentElement; return e }
const amongWords = e => getComputedStyle(e).display == "inline" && textsIn(block(e)).some(n => !n.parentElement.closest(target) && /[\p{L}]{2}/u.test(n.data))
few([...document.querySelectorAll(target)].filter(e => shown(e) && !amongWords(e)).flatMap(e => {
	const r = e.getBoundingClientRect()
	return r.width < 23.9 || r.height < 23.9 ? [Math.round(r.width) + " by " + Math.round(r.height) + ": " + called(e)] : []
}))`

// No text is below 14 pixels, as it is seen: drawings are scaled.
const smallText = `
few(textsIn(document.body).flatMap(n => {
	const e = n.parentElement
	const size = parseFloat(getComputedStyle(e).fontSize) * (e.ownerSVGElement ? e.getScreenCTM().a : 1)
	return size < 13.99 ? [size.toFixed(1) + ": " + called(e)] : []
}))`

// lostText finds text that is cut off, lies on other text, or makes the page wider.
const lostText = `
const boxes = textsIn(document.body).flatMap(n => {
	const range = document.createRange()
	range.selectNodeContents(n)
	if (document.adoptedStyleSheets.length && n.parentElement.closest("figure.chart")) return [] // of which the table below says the same
	return [...range.getClientRects()].filter(r => r.width > 2 && r.height > 2).map(r => ({n, l: r.left + 1, r: r.right - 1, t: r.top + r.height * .25, b: r.bottom - r.height * .25}))
}).sort((a, b) => a.t - b.t)
const wrong = []
boxes.forEach((a, i) => {
	for (let e = a.n.parentElement; e; e = e.parentElement) {
		const s = getComputedStyle(e), r = e.getBoundingClientRect()
		if (!e.ownerSVGElement && (/hidden|clip/.test(s.overflowX + s.overflowY) && !e.matches("html, body") || s.clipPath != "none") && (a.l < r.left - 1 || a.r > r.right + 1 || a.t < r.top - 1 || a.b > r.bottom + 1)) wrong.push("cut off: " + called(a.n.parentElement))
	}
	for (let k = i + 1; k < boxes.length && boxes[k].t < a.b; k++) {
		const b = boxes[k]
		if (b.n != a.n && a.l < b.r && b.l < a.r && a.t < b.b) wrong.push(called(a.n.parentElement) + " lies on " + called(b.n.parentElement))
	}
})
const inPage = boxes.filter(a => !a.n.parentElement.closest(".scroll, .table-scroll, pre, .dial"))
for (let y = 0; y < document.documentElement.scrollHeight; y += innerHeight / 2) {
	scrollTo(0, y)
	for (const a of inPage) if (a.t > scrollY && a.b < scrollY + innerHeight / 2 + 10) {
		const e = a.n.parentElement, top = document.elementFromPoint((a.l + a.r) / 2, (a.t + a.b) / 2 - scrollY)
		if (top && !e.contains(top) && !top.contains(e)) wrong.push("hidden behind " + called(top) + ": " + called(e))
	}
}
if (document.documentElement.scrollWidth > innerWidth) wrong.push("it scrolls sideways by " + (document.documentElement.scrollWidth - innerWidth) + ": " +
	[...document.querySelectorAll("body *")].filter(e => e.getBoundingClientRect().right > innerWidth + 1 && !e.closest(".scroll, .table-scroll, pre")).slice(0, 3).map(called).join("; "))
few(wrong)`

// spacedOut sets text as far apart as WCAG 2.2, 1.4.12, asks for.
const spacedOut = `
const sheet = new CSSStyleSheet()
sheet.replaceSync("* { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important } p { margin-bottom: 2em !important }")
document.adoptedStyleSheets = [sheet]
;`

// moved adds up how far the page has moved while it came (Layout Instability, which
// browsers call CLS), once somebody has scrolled through it.
const moved = `(async () => {
	let sum = 0, where = []
	new PerformanceObserver(list => list.getEntries().forEach(e => { sum += e.value; where.push(...e.sources.map(s => s.node && called(s.node.nodeType == 1 ? s.node : s.node.parentElement))) })).observe({type: "layout-shift", buffered: true})
	for (let y = 0; y < document.documentElement.scrollHeight; y += innerHeight) { scrollTo(0, y); await new Promise(r => requestAnimationFrame(() => requestAnimationFrame(r))) }
	await Promise.all([...document.images].filter(i => i.checkVisibility()).map(i => Promise.race([i.decode().catch(() => 0), new Promise(r => setTimeout(r, 2000))]))) // one that is never in sight never comes
	await new Promise(r => setTimeout(r, 50))
	return sum > 0 ? ["it moves by " + sum.toFixed(4) + ": " + few(where).join("; ")] : []
})()`

// measures are what is measured, by how wide the page is. What changes the page comes last.
var measures = map[int64][]struct{ name, script string }{
	320:  {{"lost text", lostText}, {"lost text when spaced", spacedOut + lostText}},
	390:  {{"targets", smallTargets}, {"size of text", smallText}, {"lost text", lostText}},
	1280: {{"size of text", smallText}, {"lost text", lostText}, {"lost text when spaced", spacedOut + lostText}},
}

// opened opens a page that wide.
func opened(ctx context.Context, t *testing.T, url string, width int64) {
	t.Helper()
	do(ctx, t,
		devtools.SetBypassCSP(true), // for the scripts, which are no part of the page
		emulation.SetEmulatedMedia().WithMedia("screen"),
		emulation.SetDeviceMetricsOverride(width, 800, 1, false),
		chromedp.Navigate(url))
}

// measured is what a script finds wrong on the page that is open, seen from its top.
func measured(ctx context.Context, t *testing.T, script string) (wrong []string) {
	t.Helper()
	do(ctx, t, chromedp.Evaluate(`{ scrollTo({top: 0, behavior: "instant"}); `+whatTheyShare+script+"}", &wrong, awaited))
	return wrong
}

// hasMoved is how a page has moved while it came. A browser that is starved of time draws
// once before all of a page has come, so what moves must do so each time.
func hasMoved(ctx context.Context, t *testing.T, url string) (wrong []string) {
	t.Helper()
	for range 3 {
		opened(ctx, t, url, 390)
		if wrong = measured(ctx, t, moved); len(wrong) == 0 {
			break
		}
	}
	return wrong
}

// slowly serves a site whose pictures come later than its words.
func slowly(dir string) http.Handler {
	files := http.FileServer(http.Dir(dir))
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasPrefix(r.URL.Path, "/"+picturesFolder) {
			time.Sleep(100 * time.Millisecond)
		}
		files.ServeHTTP(w, r)
	})
}

// Every kind of page in every theme can be hit, read, spaced out and made narrow, and stays
// where it is while it comes.
func TestMeasuredInTheBrowser(t *testing.T) {
	ctx := browser(t)
	eachKind(t, func(name, dir string, f place.File) {
		for width, list := range measures {
			opened(ctx, t, "file://"+dir+"/"+f.Path, width)
			for _, m := range list {
				for _, wrong := range measured(ctx, t, m.script) {
					t.Errorf("%s: %s at %d: %s", name, m.name, width, wrong)
				}
			}
		}
		host := httptest.NewServer(slowly(dir))
		defer host.Close()
		for _, wrong := range hasMoved(ctx, t, host.URL+"/"+f.Path) {
			t.Errorf("%s: %s", name, wrong)
		}
	})
}

// The measures themselves must find what is wrong, or their silence means nothing.
func TestMeasuresFindSomething(t *testing.T) {
	ctx := browser(t)
	bad := `<!doctype html><meta name="viewport" content="width=device-width"><title>x</title><style>body { font: 16px/1.2 sans-serif }</style><body class="bad">%s`
	for what, c := range map[string]struct{ script, body, want string }{
		"a small target":    {smallTargets, `<p class="p"><a href="#x">x</a> · <a href="#y">y</a></p>`, "A. in .p"},
		"small text":        {smallText, `<p style="font-size: 13px">word</p>`, "13.0"},
		"small drawn text":  {smallText, `<svg viewBox="0 0 200 20" width="100"><text y="18" font-size="16">word</text></svg>`, "8.0"},
		"text on text":      {lostText, `<p>one</p><p style="margin-top: -1.9em">two</p>`, "lies on"},
		"text cut off":      {lostText, `<p style="overflow: hidden; width: 4em; white-space: nowrap">one two three four five</p>`, "cut off"},
		"text out of a box": {spacedOut + lostText, `<p style="overflow: hidden; height: 1.25em">one</p><p style="overflow: hidden; width: 7.4em; height: 1.3em">one two three</p>`, "cut off"},
		"text behind":       {lostText, `<p>one</p><div style="position: relative; height: 2em; margin-top: -2em; background: #fff"></div>`, "hidden behind"},
		"a page too wide":   {lostText, `<p style="width: 500px">one</p>`, "sideways"},
		"a page that moves": {moved, `<div id="d" style="height: 0"></div><p>one</p><script>let h = 0; setInterval(() => d.style.height = (h = 200 - h) + "px", 30)</script>`, "it moves by"},
	} {
		dir := writeSite(t, []place.File{{Path: "bad.html", Data: fmt.Appendf(nil, bad, c.body)}})
		opened(ctx, t, "file://"+dir+"/bad.html", 390)
		if got := measured(ctx, t, c.script); !strings.Contains(strings.Join(got, "\n"), c.want) {
			t.Errorf("%s: %q, want %s", what, got, c.want)
		}
	}
	dir := writeSite(t, []place.File{{Path: "good.html", Data: fmt.Appendf(nil, bad, `<p>See <a href="#x">x</a> for more.</p><p>two</p>`)}})
	for width, list := range measures {
		opened(ctx, t, "file://"+dir+"/good.html", width)
		for _, m := range list {
			if got := measured(ctx, t, m.script); len(got) > 0 {
				t.Errorf("%s at %d finds %q on a good page", m.name, width, got)
			}
		}
	}
}
