package render

import (
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
	"guidecoat/render/place"
)

// shownBuild has a snag that is private, a session that shows nothing and a picture
// in a session alone.
var shownBuild = map[string]string{
	"build.md": `---
build: Kite van
vehicle:
  make: Orro
  mileage: 81200 mi
currency: GBP
stages:
  buying: the van; purchase
  brakes: front axle; system brakes
---
A van with a bent door.
`,
	"2026-05-02.md": `---
stage: brakes
odometer: 81240 mi
time: 3h40 front discs
cost:
  - 900.00 the van; as vehicle; stage buying
  - 90.00 fetched on a trailer; as transport; stage buying
parts:
  front-discs: fitted front discs, pair; free
---
![The old disc](disc.png)

- [ ] door-rattle: sliding door rattles; minor
- [ ] key-lost: not for everybody; private
`,
	"2026-05-03.md": "---\nstage: brakes\n---\n# Nothing to tell\n\n<!-- but to me -->\n",
}

func shownSite(t *testing.T, to view.Audience, asOf measure.Date) map[string]string {
	fsys := fstest.MapFS{"disc.png": {Data: tellingPicture(false, 7)}}
	for name, words := range shownBuild {
		fsys[name] = &fstest.MapFile{Data: []byte(words)}
	}
	pages := map[string]string{}
	for _, f := range siteOf(t, fsys, to, asOf) {
		pages[f.Path] = spaced(string(f.Data))
	}
	return pages
}

// holds tells which words a page misses, or holds although they begin with "no: ".
func holds(t *testing.T, pages map[string]string, page string, words ...string) {
	t.Helper()
	for _, w := range words {
		if unwanted, none := strings.CutPrefix(w, "no: "); none == strings.Contains(pages[page], unwanted) {
			t.Errorf("%s: %s", page, w)
		}
	}
}

// What is private counts in the headline, the key figures and the page of snags, which say
// that it is not shown. Three checks follow from the discs.
func TestPrivateSnagsCount(t *testing.T) {
	for _, to := range []view.Audience{view.ForPublic, view.ForBuyer} {
		pages := shownSite(t, to, 0)
		holds(t, pages, "index.html", ">5 outstanding<", "1 of them not shown", "0 cleared, 1 not shown", "no: key-lost", "no: not for everybody")
		holds(t, pages, "snags.html", "5 outstanding, 1 of them not shown here; 0 cleared.", "0 of 5 snags cleared", "1 snag not shown here", "no: key-lost")
	}
	holds(t, shownSite(t, view.ForWorkshop, 0), "index.html", ">5 outstanding<", "no: not shown", "key-lost")
}

func TestFrontPage(t *testing.T) {
	pages := shownSite(t, view.ForPublic, measure.NewDate(2026, 6, 1))
	holds(t, pages, "index.html", `as on <time datetime="2026-06-01">1 June 2026</time>`, `alt="The old disc"`, "81,240 mi; on the job card: 81,200 mi", "<code>door-rattle</code>",
		">3 h 40 min<", "no: Buying", "not done since “front discs, pair” was fitted", "no: since front-discs")
	if n := strings.Count(pages["index.html"], "81,240"); n != 1 {
		t.Errorf("the odometer stands there %d times", n)
	}
	holds(t, shownSite(t, view.ForWorkshop, 0), "index.html", "no: without vehicle", "no: as on")
}

// A session of which nothing is shown stands in the list, and leads nowhere.
func TestEmptySession(t *testing.T) {
	pages := shownSite(t, view.ForPublic, 0)
	if _, ok := pages["sessions/2026-05-03.html"]; ok {
		t.Error("an empty page is published")
	}
	holds(t, pages, "sessions/index.html", `<h3 dir="auto">Nothing to tell</h3>`)
	holds(t, pages, "feed.xml", "no: Nothing to tell")
	holds(t, pages, "build.json", `"page":null`)
	if _, ok := shownSite(t, view.ForWorkshop, 0)["sessions/2026-05-03.html"]; !ok {
		t.Error("the workshop has no page that leads to the note")
	}
}

// What is told as damage is damage: no check that is due, no surcharge.
func TestDamagesAreDamage(t *testing.T) {
	damages := regexp.MustCompile(`"knownVehicleDamages":"([^"]*)"`)
	if m := damages.FindStringSubmatch(shownSite(t, view.ForPublic, 0)["index.html"]); m != nil {
		t.Errorf("due checks are told as damage: %s", m[1])
	}
	m := damages.FindStringSubmatch(text(t, siteOf(t, example(), view.ForBuyer, measure.NewDate(2026, 6, 1)), "index.html"))
	if m == nil || !strings.Contains(m[1], "tailgate held down") || !strings.Contains(m[1], "As it came: rear: left rail end folded") || strings.Contains(m[1], "not done since") || strings.Contains(m[1], "surcharge") {
		t.Errorf("in June: %v", m)
	}
}

// The front page is light: its HTML and its style are under 60 kB, and it runs nothing.
func TestFrontPageIsLight(t *testing.T) {
	for name, files := range exampleSites(t) {
		page, style := text(t, files, "index.html"), text(t, files, "style.css")
		if n := len(page) + len(style); n >= 60_000 {
			t.Errorf("%s: %d bytes", name, n)
		}
		if strings.Count(page, "<script") != strings.Count(page, `<script type="application/ld+json">`) {
			t.Errorf("%s: it runs a script", name)
		}
	}
}

// What stands behind the frame of the record is folded, but for what is not met; the strip of
// tape stands in one of the folds. Each section has a heading of its own.
func TestPackIsFolded(t *testing.T) {
	b, err := journal.ReadBuild(example(), ".")
	if err != nil {
		t.Fatal(err)
	}
	st := state.At(b, measure.NewDate(2026, 6, 1), today)
	page := text(t, siteIn(t, theme(t), example(), b, view.ForHandover(st, view.ForBuyer, nil)), "pack.html")
	headings, folded := regexp.MustCompile(`<h2 id="[^"]+">`).FindAllString(page, -1), strings.Count(page, `<details class="fold"><summary><h2 id="`)
	if len(headings) < 14 || folded != len(headings)-3 || strings.Contains(page, "<details open") {
		t.Errorf("%d of %d sections are folded", folded, len(headings))
	}
	if !strings.Contains(page, "<b>Open</b> A temporary fix is still in place") || !strings.Contains(page, "<b>Met</b> The notes hold no errors") {
		t.Error("the requirements are not told as they stand")
	}
}

var chartFigure = regexp.MustCompile(`(?s)<figure class="chart ([a-z]+)">.*?</figure>\n<details>.*?</details>`)

// Every chart has words, a table, and as many bars as its table has rows.
func TestCharts(t *testing.T) {
	for page, kind := range map[string]string{"sessions/index.html": "hours", "snags.html": "open", "money.html": "running"} {
		all := chartFigure.FindAllStringSubmatch(text(t, siteOf(t, example(), view.ForWorkshop, 0), page), -1)
		at := slices.IndexFunc(all, func(m []string) bool { return m[1] == kind })
		if at < 0 {
			t.Errorf("%s: no chart of %s", page, kind)
			continue
		}
		chart := all[at][0]
		rows, drawings := strings.Count(chart, `<th scope="row">`), strings.Count(chart, "<svg")
		if rows < 3 || drawings != 2 || strings.Count(chart, `role="img" aria-label="`) != drawings || strings.Contains(chart, "NaN") {
			t.Errorf("%s: %d rows, %d drawings", page, rows, drawings)
		}
		if bars := strings.Count(chart, "<rect"); kind == "hours" && bars != rows*drawings {
			t.Errorf("%d bars for %d weeks in %d drawings", bars, rows, drawings)
		}
		if lines := strings.Count(chart, `class="line"`); kind != "hours" && lines != drawings {
			t.Errorf("%s: %d curves", page, lines)
		}
	}
}

// Bars and steps stand where their figures say, on a canvas of a hundred days and
// units with nothing around it.
func TestPlane(t *testing.T) {
	on := func(day int) measure.Date { return measure.NewDate(2026, 1, 1).AddDays(day) }
	bare := canvas{class: "bare", width: 100, height: 100, marks: 5, months: 4}
	p := bare.plane(english.voice, on(0), on(100), scale{100, 1, wholes})
	p.stairs([]point{{on(0), 10}, {on(50), 40}, {on(100), 25}}, "the end")
	if want := "M0 100V90H50V60H100V75"; p.Line != want || p.Area != want+"V100Z" || *p.End != (Label{"100", "75", "46", "the end"}) {
		t.Errorf("stairs: %s, %s, %v", p.Line, p.Area, p.End)
	}
	p.weeks([]point{{on(14), 50}})
	if want := (Box{"14.98", "50", "5.04", "50"}); p.Bars[0] != want {
		t.Errorf("a week: %v, want %v", p.Bars[0], want)
	}
	if marks := bare.plane(english.voice, on(0), on(9), scale{2, 1, wholes}).Y; len(marks) != 3 {
		t.Errorf("marks between whole numbers: %v", marks)
	}
}

// text is a file of a site.
func text(t testing.TB, files []place.File, path string) string {
	t.Helper()
	for _, f := range files {
		if f.Path == path {
			return string(f.Data)
		}
	}
	t.Fatalf("no %s", path)
	return ""
}

// A page whose note or card has no words is described by its name.
func TestPagesWithoutWords(t *testing.T) {
	pages := map[string]string{}
	for _, f := range siteOf(t, fstest.MapFS{
		"build.md":      {Data: []byte("---\nbuild: Orro\ncurrency: GBP\n---\n")},
		"2026-05-03.md": {Data: []byte("---\ntitle: Paint\nstage: paint\ntime: 1h flatting\n---\n")},
	}, view.ForPublic, 0) {
		pages[f.Path] = string(f.Data)
	}
	holds(t, pages, "index.html", `<meta name="description" content="Orro">`, `<meta property="og:description" content="Orro">`)
	holds(t, pages, "sessions/2026-05-03.html", `<meta name="description" content="Paint · Orro">`)
}

var loading = regexp.MustCompile(`<img [^>]*loading="([a-z]+)"`)

// The first picture of a page is fetched at once, and the others when somebody comes to them.
func TestFirstPictureComesFirst(t *testing.T) {
	pictured := map[string]bool{}
	for name, files := range exampleSites(t) {
		for _, f := range files {
			all := loading.FindAllSubmatch(f.Data, -1)
			if !isPage(f) || len(all) == 0 {
				continue
			}
			pictured[string(bodyKind.FindSubmatch(f.Data)[1])] = true
			for i, m := range all {
				if want := []string{"eager", "lazy"}[min(i, 1)]; string(m[1]) != want {
					t.Errorf("%s: %s: picture %d of %d is %s", name, f.Path, i+1, len(all), m[1])
				}
			}
		}
	}
	for _, kind := range []string{"album", "build", "garage", "pack", "parts", "session", "sessions", "shot", "snags"} {
		if !pictured[kind] {
			t.Errorf("no page of the kind %s has a picture", kind)
		}
	}
}
