package render

import (
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
)

func publicView(t *testing.T, fsys fs.FS) *view.View {
	t.Helper()
	b, err := journal.ReadBuild(fsys, ".")
	if err != nil {
		t.Fatal(err)
	}
	return view.Of(state.At(b, 0, today), view.ForPublic)
}

// A garage shows a blank for a build without a picture where another has one, and
// gives the words the room where none has.
func TestBlankCards(t *testing.T) {
	without := publicView(t, fstest.MapFS{"build.md": {Data: []byte("---\nbuild: Bare van\ncurrency: GBP\n---\n")}})
	for want, builds := range map[int][]Build{
		1: {{Path: "a", View: publicView(t, example())}, {Path: "b", View: without}},
		0: {{Path: "b", View: without}},
	} {
		files, err := allOf(GarageSite(Garage{Name: "Two", Builds: builds}, Options{Theme: theme(t), Version: "test", Store: pictures,
			Read: func(p string) ([]byte, error) { return fs.ReadFile(example(), p) }}))
		if err != nil {
			t.Fatal(err)
		}
		front := text(t, files, "index.html")
		if got := strings.Count(front, "No picture yet"); got != want {
			t.Errorf("%d blanks, want %d", got, want)
		}
	}
}

// What few readers will know is told where it stands.
func TestDetailsAreExplained(t *testing.T) {
	front := spaced(text(t, siteOf(t, example(), view.ForPublic, 0), "index.html"))
	for _, want := range []string{"<dt>Salvage category</dt><dd>S<br><small>how the damaged vehicle was classed", "<dt>Keepers</dt><dd>3<br><small>how many", "<dt>VIN</dt>"} {
		if !strings.Contains(front, want) {
			t.Errorf("the front page lacks %s", want)
		}
	}
}

// A final cost that is certain is told once, one that is not with what it lies between.
func TestFinalCostIsToldOnce(t *testing.T) {
	for budget, want := range map[string]bool{"": false, "stages:\n  body: budget 40 60 90\n": true, "stages:\n  body: budget 40 40 90\n": true} {
		fsys := fstest.MapFS{"build.md": {Data: []byte("---\nbuild: Bare van\ncurrency: GBP\n" + budget + "---\n")}, "2026-04-11.md": {Data: []byte("---\nstage: body\ncost: 12.00 hose\n---\n")}}
		front := text(t, siteOf(t, fsys, view.ForWorkshop, 0), "index.html")
		if !strings.Contains(front, "Final cost") || strings.Contains(front, "between £") != want {
			t.Errorf("with %q: %s", budget, front)
		}
	}
}

// The front page leads to the checks that were done and to the record for the buyer.
func TestFrontLeadsToChecksAndRecord(t *testing.T) {
	b, err := journal.ReadBuild(example(), ".")
	if err != nil {
		t.Fatal(err)
	}
	now := state.At(b, 0, today)
	pages := map[string]string{}
	for _, f := range siteOfView(t, example(), b, view.ForHandover(now, view.ForBuyer, nil)) {
		pages[f.Path] = spaced(string(f.Data))
	}
	holds(t, pages, "index.html", `<dt>Checks done</dt><dd><a class="figure" href="measured.html#_h-checks" aria-label="Checks done: `, `<dt>Handover record</dt><dd><a class="figure" href="pack.html" aria-label="Handover record: 9 of 9">9 of 9</a>`)
	holds(t, pages, "pack.html", `<figcaption aria-hidden="true">The tail pipe hung up on wire</figcaption>`, `<tr id="beam-choice">`)
	june := state.At(b, measure.NewDate(2026, 6, 1), today)
	for _, f := range siteOfView(t, example(), b, view.ForHandover(june, view.ForBuyer, nil)) {
		pages[f.Path] = spaced(string(f.Data))
	}
	holds(t, pages, "index.html", "no: >9 of 9</a>")
}

// One sum of time is the same wherever it stands.
func TestTimeIsToldOneWay(t *testing.T) {
	pages := map[string]string{}
	for _, f := range siteOf(t, example(), view.ForWorkshop, 0) {
		pages[f.Path] = spaced(strings.ReplaceAll(string(f.Data), nbsp, " "))
	}
	for _, page := range []string{"index.html", "money.html", "sessions/index.html"} {
		holds(t, pages, page, "165 h 35 min")
	}
}

// Scans stand under their control unit, those of one together.
func TestScansByUnit(t *testing.T) {
	page := text(t, siteOf(t, example(), view.ForWorkshop, 0), "measured.html")
	if strings.Count(page, `<details class="unit" id="_scan_`) < 3 {
		t.Error("no scans by unit")
	}
	for block := range strings.SplitSeq(page, `<details class="unit" id="_scan_`) {
		if unit, _, _ := strings.Cut(block, `"`); unit == "brakes" && strings.Count(block, `class="slip"`) != 3 {
			t.Errorf("the scans of the brakes are not together: %s", block)
		}
	}
}

// Scans of one unit are set against each other, not against those of another.
func TestScansAgainstTheirOwnUnit(t *testing.T) {
	scan := func(day, unit, lines string) (string, *fstest.MapFile) {
		return "2026-01-" + day + ".md", &fstest.MapFile{Data: []byte("A scan.\n\n```scan " + unit + "\n" + lines + "\n```\n")}
	}
	fsys := fstest.MapFS{"build.md": {Data: []byte("---\nbuild: x\ncurrency: GBP\n---\n")}}
	for _, s := range [][3]string{{"01", "abs", "C0035 speed\nC0040 other"}, {"02", "engine", "P0562 low"}, {"03", "abs", "C0035 speed"}} {
		name, file := scan(s[0], s[1], s[2])
		fsys[name] = file
	}
	page := spaced(text(t, siteOf(t, fsys, view.ForWorkshop, 0), "measured.html"))
	if n := strings.Count(page, "against the scan of"); n != 1 || !strings.Contains(page, "against the scan of 1 January 2026: 1 code gone and 1 code still there") {
		t.Errorf("%d comparisons:\n%s", n, page)
	}
}

// What pages tell of a small build: parts put back count as fitted, a reading near its
// limit says so, and a snag's history is told once there is more to it than its two ends.
func TestSmallThingsAreTold(t *testing.T) {
	fsys := fstest.MapFS{"build.md": {Data: []byte("---\nbuild: x\ncurrency: GBP\n---\n")},
		"2026-01-01.md": {Data: []byte("---\nparts:\n  hub: refitted own hub\n  seal: fitted seal\n  lamp: needed lamp\nreadings:\n  disc: 8.1 mm; min 8 mm\n---\n- [ ] job a-long: begun\n- [ ] job b-short: begun\n")},
		"2026-01-02.md": {Data: []byte("- [ ] a-long: halfway\n- [x] b-short: ended\n")}, "2026-01-03.md": {Data: []byte("- [x] a-long: done\n")}}
	pages := map[string]string{}
	for _, f := range siteOf(t, fsys, view.ForWorkshop, 0) {
		pages[f.Path] = spaced(string(f.Data))
	}
	holds(t, pages, "index.html", `aria-label="Parts fitted: 2">2</a> <small>of 3</small>`)
	holds(t, pages, "measured.html", "near the minimum of 8 mm")
	holds(t, pages, "snags.html", "halfway")
}
