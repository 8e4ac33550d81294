package render

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal/measure"
	"guidecoat/journal/view"
)

// toldPages are those of a build for the workshop by path, with plain spaces.
func toldPages(t *testing.T, notes map[string]string) map[string]string {
	t.Helper()
	fsys := fstest.MapFS{"build.md": {Data: []byte("---\nbuild: Orro\ncurrency: GBP\n---\n")}}
	for name, text := range notes {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	pages := map[string]string{}
	for _, f := range siteOf(t, fsys, view.ForWorkshop, 0) {
		pages[f.Path] = spaced(string(f.Data))
	}
	return pages
}

// The years stand beside short dates and on the axes of charts where a build has more
// than one, and only there.
func TestYearsOfLongBuilds(t *testing.T) {
	pages := func(last string) map[string]string {
		return toldPages(t, map[string]string{
			"2024-05-07.md": "---\ncost:\n  - 10.00 tape; as sundries\nparts:\n  lamp: needed left lamp\n---\n",
			last + ".md":    "---\ncost:\n  - 11.00 glue; as sundries\nparts:\n  lamp: fitted\n---\n",
		})
	}
	long, short := pages("2026-01-05"), pages("2024-11-05")
	holds(t, long, "money.html", ">7 May 2024</time>", ">5 Jan 2026</time>", ">Sep 2024</text>", "no: >7 May</time>")
	holds(t, long, "parts.html", ">7 May 2024</time></a> <b>needed</b>")
	holds(t, short, "money.html", ">7 May</time>", ">5 Nov</time>", ">Aug</text>", "no: >7 May 2024</time>")
	holds(t, short, "parts.html", ">7 May</time></a> <b>needed</b>")
}

// A session tells of each snag once: in its story, or in the lists beside it.
func TestSessionTellsEachSnagOnce(t *testing.T) {
	pages := toldPages(t, map[string]string{
		"2024-05-07.md": "---\nreadings:\n  disc: 7 mm; min 8 mm\nchecks:\n  brake-test: failed pulls\n---\n- [ ] door-seal: squeaks\n- [ ] old-rope: old\n- [x] old-rope: new rope\n",
		"2024-05-08.md": "---\nchecks:\n  brake-test: passed even\n---\n- [x] door-seal: greased\n",
	})
	for page, want := range map[string]map[string]int{
		"sessions/2024-05-07.html": {"#door-seal\"": 1, "#old-rope\"": 2, "#reading-disc\"": 1, "#brake-test\"": 1}, // the story tells of the rope twice
		"sessions/2024-05-08.html": {"#door-seal\"": 1, "#old-rope\"": 0, "#reading-disc\"": 0, "#brake-test\"": 1},
	} {
		for link, n := range want {
			if got := strings.Count(pages[page], "../snags.html"+link); got != n {
				t.Errorf("%s leads to %s %d times, want %d", page, link, got, n)
			}
		}
	}
}

// A check that was due before it failed is not said to have failed since it was due.
func TestDayOfFailure(t *testing.T) {
	files := siteOf(t, example(), view.ForPublic, 0)
	page := spaced(text(t, files, "snags.html"))
	_, item, _ := strings.Cut(page, `id="tow-test"`)
	item, _, _ = strings.Cut(item, "<details>")
	if !strings.Contains(item, "check due since then, failed on 28 June 2026") {
		t.Error(item)
	}
	_, opened, _ := strings.Cut(text(t, files, "sessions/2026-06-27.html"), "<h2>Opened</h2>")
	if opened, _, _ = strings.Cut(opened, "</ul>"); !strings.Contains(opened, ">tow test not done since “parking sensor, left outer” was fitted<") || strings.Contains(opened, "failed") {
		t.Error(opened)
	}
}

// What it waits for is said to be here where it is.
func TestWaitsForWhatIsHere(t *testing.T) {
	note := func(state string) string {
		return "---\nparts:\n  rear-lamp: " + state + " left lamp\n---\n- [ ] job put-back: put the lamp in; waits for rear-lamp\n"
	}
	holds(t, toldPages(t, map[string]string{"2024-05-07.md": note("arrived")}), "snags.html", `what it waits for is here: <a href="parts.html#rear-lamp">left lamp</a>; can be done now`, "no: · waits for")
	holds(t, toldPages(t, map[string]string{"2024-05-07.md": note("needed")}), "snags.html", `· waits for <a href="parts.html#rear-lamp">left lamp</a>`, "no: is here", "no: can be done now")
}

// Many parts in one place are listed by system, and a list of them leads there.
func TestManyPartsBySystem(t *testing.T) {
	parts := "---\nparts:\n"
	for i := range manyParts + 1 {
		parts += "  part-" + strconv.Itoa(i) + ": fitted thing " + strconv.Itoa(i) + "; system " + []string{"brakes", "cooling"}[i%2] + "\n"
	}
	pages := toldPages(t, map[string]string{"2024-05-07.md": parts + "---\n"})
	holds(t, pages, "parts.html", "<span>On the vehicle:</span>", `<a href="#_fitted_brakes">brakes</a>`, `<h3 id="_fitted_cooling">Cooling</h3>`)
	if n := strings.Count(pages["parts.html"], `<table`); n != 2 {
		t.Errorf("%d tables", n)
	}
}

// Pages of a long list of snags count what is theirs, and lead to their parts where
// they have several.
func TestPagesOfLongSnags(t *testing.T) {
	fsys := longBuild(1302)
	files := siteOf(t, fsys, view.ForPublic, 0)
	lead := regexp.MustCompile(`<p class="lead">([^<]*)`)
	year := 0
	for _, f := range files {
		m := regexp.MustCompile(`^snags/(\d{4})[-0-9]*\.html$`).FindStringSubmatch(f.Path)
		if m == nil {
			continue
		}
		year++
		page := string(f.Data)
		n := strings.Count(page, `<li class="item"`)
		if said := strings.ReplaceAll(lead.FindStringSubmatch(page)[1], "\u00a0", " "); !strings.HasPrefix(said, english.Grouped(n)+" ") || !strings.HasSuffix(strings.TrimSpace(said), "cleared in "+m[1]+".") {
			t.Errorf("%s: %d items, %q", f.Path, n, said)
		}
		if strings.Contains(page, `class="jump"`) {
			t.Errorf("%s: it leads to its only part", f.Path)
		}
	}
	if year == 0 {
		t.Error("no page of a year")
	}
	holds(t, map[string]string{"snags.html": text(t, files, "snags.html")}, "snags.html", `<a href="#_temporary">Temporary fixes</a>`, `<a href="#_h-time">Over time</a>`)
}

// The words at the end of a curve lie neither on it nor on a rule.
func TestEndOfCurveIsFree(t *testing.T) {
	on := func(day int) measure.Date { return measure.NewDate(2026, 1, 1).AddDays(day) }
	for name, values := range map[string][]float64{
		"falls": {10, 90, 80, 60, 40, 20}, "falls at last": {10, 90, 92, 95, 96, 19}, "rises": {10, 20, 30, 40, 50, 95},
		"to nothing": {50, 90, 40, 30, 10, 0}, "level": {50, 50, 50, 50, 50, 50}, "dips": {90, 90, 90, 60, 60, 88},
	} {
		for _, at := range []float64{0, 55, 70, 93} {
			for _, room := range canvases {
				var points []point
				for i, v := range values {
					points = append(points, point{on(60 + 8*i), v})
				}
				points[0].on = on(0)
				p, words := room.plane(english.voice, on(0), on(100), scale{100, 1, wholes}), "19 open"
				var rules []rule
				if at > 0 {
					rules = []rule{{at, "a rule"}}
				}
				p.stairs(points, words, rules...)
				base, err := strconv.ParseFloat(p.End.At, 64)
				if err != nil {
					t.Fatal(err)
				}
				top, bottom := base-endRise, base+endFall
				right := p.x(points[len(points)-1].on)
				left := right - endLetter*float64(len(words))
				for x := left; x <= right; x++ {
					y := math.NaN() // of the curve there
					for _, pt := range points {
						if p.x(pt.on) <= x {
							y = p.y(pt.value)
						}
					}
					if top < y && y < bottom {
						t.Errorf("%s, %s, rule %v: the curve at %.0f,%.0f lies in the words from %.0f to %.0f", name, room.class, at, x, y, top, bottom)
						break
					}
				}
				if y := p.y(at); at > 0 && top < y && y < bottom {
					t.Errorf("%s, %s: the rule %v lies in the words", name, room.class, at)
				}
			}
		}
	}
}

// Each note of the workshop's copy is described by its name.
func TestNotesAreNamed(t *testing.T) {
	pages := toldPages(t, map[string]string{"2024-05-07.md": "Swept.\n"})
	holds(t, pages, "notes/2024-05-07.html", `content="The note 2024-05-07.md as it was typed."`)
}

// The column of what is still needed is there where something is.
func TestBudgetsSayWhatIsNeeded(t *testing.T) {
	june, now := measure.NewDate(2026, 6, 1), measure.Date(0)
	for on, there := range map[measure.Date]bool{june: true, now: false} {
		if page := text(t, siteOf(t, example(), view.ForWorkshop, on), "money.html"); strings.Contains(page, ">Still needs<") != there || !strings.Contains(page, ">Over worst case<") {
			t.Errorf("on %s: still needs %v", on, !there)
		}
	}
}

// Of what was ticked where it stands nobody wrote the day, and no page makes one up.
func TestDayNobodyWrote(t *testing.T) {
	fsys := fstest.MapFS{
		"build.md":      {Data: []byte("---\nbuild: b\ncurrency: GBP\npublic:\n  snags: yes\n---\n")},
		"2026-04-11.md": {Data: []byte("---\nodometer: 91252 mi\n---\n- [x] rope off the door\n- [ ] buy tape\n")},
		"2026-04-12.md": {Data: []byte("---\nodometer: 91252 mi\n---\n- [x] buy tape\n")},
	}
	files := siteOf(t, fsys, view.ForWorkshop, 0)
	for page, times := range map[string]int{"snags.html": 1, "sessions/2026-04-11.html": 1, "sessions/2026-04-12.html": 0} {
		if got := strings.Count(text(t, files, page), "day not recorded"); got != times {
			t.Errorf("%s says it %d times", page, got)
		}
	}
}
