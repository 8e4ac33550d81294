package render

import (
	"context"
	"fmt"
	"os"
	"regexp"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"guidecoat/render/place"
)

// The accessibility checker axe-core, of the npm package of that name, stands in
// testdata with its licence. It is put into the page by the browser's own tools,
// which the page's policy does not hold back.
const axeFile = "testdata/axe-core/axe.min.js"

// runAxe asks for every rule there is, and for the colours that only show in use.
const runAxe = `axe.run(document, {%sresultTypes: ["violations"]}).then(r => r.violations.map(v =>
	v.id + ": " + v.help + ": " + v.nodes.slice(0, 3).map(n => n.target.join(" ") + " " + n.failureSummary.split("\n").slice(1).join(" ").trim()).join(" | ")))`

var bodyKind = regexp.MustCompile(`<body class="on-([a-z]+)"`)

// kinds are one page of each kind, the longest of its kind.
func kinds(files []place.File) map[string]place.File {
	longest := map[string]place.File{}
	for _, f := range files {
		if m := bodyKind.FindSubmatch(f.Data); isPage(f) && m != nil && len(f.Data) > len(longest[string(m[1])].Data) {
			longest[string(m[1])] = f
		}
	}
	return longest
}

// Every kind of page in every theme, in light and in dark: axe finds nothing. The
// sites are those with the most on their pages.
func TestAxeFindsNothing(t *testing.T) {
	ctx := browser(t)
	axe, err := os.ReadFile(axeFile)
	if err != nil {
		t.Skipf("skipped: %v; put axe.min.js of the npm package axe-core there to run it", err)
	}
	eachKind(t, func(name, dir string, f place.File) {
		dark := wholeTour() || isDrawn(string(bodyKind.FindSubmatch(f.Data)[1]))
		for _, v := range violations(ctx, t, "file://"+dir+"/"+f.Path, string(axe), dark) {
			t.Errorf("%s: %s: %s", name, f.Path, v)
		}
	})
}

// violations are what axe finds in a page in the light, and of its colours in the dark, on
// which no other rule depends.
func violations(ctx context.Context, t *testing.T, url, axe string, dark bool) (list []string) {
	t.Helper()
	do(ctx, t, chromedp.Navigate(url), chromedp.Evaluate(axe+"\n;0", nil))
	for scheme, rules := range map[string]string{"light": "", "dark": `runOnly: ["color-contrast", "link-in-text-block"], `} {
		if scheme == "dark" && !dark {
			continue
		}
		var found []string
		do(ctx, t, emulation.SetEmulatedMedia().WithFeatures([]*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}),
			chromedp.Evaluate(fmt.Sprintf(runAxe, rules), &found, awaited))
		for _, v := range found {
			list = append(list, scheme+": "+v)
		}
	}
	return list
}

// The checker itself must find what is wrong, or its silence means nothing.
func TestAxeFindsSomething(t *testing.T) {
	ctx := browser(t)
	axe, err := os.ReadFile(axeFile)
	if err != nil {
		t.Skipf("skipped: %v", err)
	}
	dir := writeSite(t, []place.File{{Path: "bad.html", Data: []byte(`<!doctype html><title>x</title><p style="color:#999;background:#fff">faint</p><img src="x.png">`)}})
	if found := violations(ctx, t, "file://"+dir+"/bad.html", string(axe), true); len(found) < 4 {
		t.Errorf("it finds only %q", found)
	}
}
