package render

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
)

// packNotes tell of a hit, of work by others and of a fix that came back.
var packNotes = map[string]string{
	"build.md": `---
build: Kite van
currency: GBP
stages:
  finding: what is broken
  brakes: front axle; system brakes
---
# Kite

A van that met a gate post.
`,
	"2026-05-02.md": "---\nstage: finding\n---\nAs it came:\n\n![The door pushed in](door.png)\n\n```scan abs\nC0035 speed\n```\n\n- [ ] job door-seal: door lets water in\n- [ ] dent-roof: roof dented; disclose\n",
	"2026-05-03.md": `---
stage: brakes
cost:
  - 34.00 disc skimmed; as labour; from Vennick Jigs; receipt V-316
  - 90.00 discs; for front-discs; from Tidewell; receipt T-7
parts:
  front-discs: fitted front discs, pair; new
checks:
  roadworthiness-test: failed hose chafed; by Mundle Station
---
![The axle bare](axle.png)

- [x] door-seal: new seal
`,
	"2026-05-04.md": "---\nstage: brakes\nchecks:\n  - roadworthiness-test: passed no advice; by Mundle Station\n  - brake-test: done even; by Mundle Station\nparts:\n  door-skin: needed door skin; system structure\n---\n- [ ] again door-seal: water again\n",
	"2026-05-05.md": "---\nstage: brakes\nchecks:\n  brake-leak-check: passed dry\n---\n- [x] door-seal: seat ground flat\n\n```scan abs\nno faults\n```\n",
}

func packSite(t *testing.T, asOf measure.Date, change map[string]string) map[string]string {
	t.Helper()
	fsys := fstest.MapFS{"door.png": {Data: tellingPicture(false, 7)}, "axle.png": {Data: tellingPicture(false, 8)}}
	for name, words := range packNotes {
		if c, ok := change[name]; ok {
			words = c
		}
		if words != "" {
			fsys[name] = &fstest.MapFile{Data: []byte(words)}
		}
	}
	b, err := journal.ReadBuild(fsys, ".")
	if err != nil {
		t.Fatal(err)
	}
	st := state.At(b, asOf, today)
	pages := map[string]string{}
	files := siteOfView(t, fsys, b, view.ForHandover(st, view.ForBuyer, nil))
	for _, f := range files {
		pages[f.Path] = spaced(strings.ReplaceAll(string(f.Data), nbsp, " "))
	}
	for _, complaint := range brokenLinks(t, files) {
		t.Error(complaint)
	}
	return pages
}

// section is what stands under a heading of the pack.
func section(t *testing.T, page, id string) string {
	t.Helper()
	_, rest, ok := strings.Cut(page, `<h2 id="`+id+`">`)
	if !ok {
		t.Errorf("there is no %s", id)
	}
	text, _, _ := strings.Cut(rest, "</section>")
	return text
}

func sectionHolds(t *testing.T, page, id string, words ...string) {
	t.Helper()
	holds(t, map[string]string{id: section(t, page, id)}, id, words...)
}

var tag = regexp.MustCompile(`<[^>]*>`)

// What stands in the way is a list that leads to each thing, and says each word once.
func TestPackStopsLeadToTheirItems(t *testing.T) {
	page := packSite(t, measure.NewDate(2026, 5, 4), nil)["pack.html"]
	sectionHolds(t, page, "_h-requirements",
		`<li><a href="#door-seal">Door seal: water again</a> <code>door-seal</code></li>`,
		`<li><a href="parts.html#door-skin">Door skin: needed</a> <code>door-skin</code></li>`,
		`<li><a href="#scan-abs-C0035">ABS C0035 speed</a></li>`,
		`<li><a href="#brake-leak-check">Brake leak check not done since “front discs, pair” was fitted`,
		"no: disclose", "no: category: none", "<li>The salvage category, or that there is none, is not stated</li>", "Something minor is still to be mended")
	for _, id := range []string{"door-seal", "scan-abs-C0035", "brake-leak-check"} {
		if strings.Count(page, `<li class="item`) == 0 || strings.Count(page, ` id="`+id+`">`) != 1 {
			t.Errorf("%s stands in the pack %d times", id, strings.Count(page, ` id="`+id+`">`))
		}
	}
}

// In the frame stands what is dangerous and what is not recorded, with the newest official
// inspection and what shows that it was held.
func TestFrameTellsWhatIsDangerous(t *testing.T) {
	may := packSite(t, 0, nil)["pack.html"]
	sectionHolds(t, may, "_h-frame", "Nothing dangerous is recorded.", "licensed practice decide", `checked against the builder’s own notes, not against the vehicle`,
		`<dt>Newest official inspection</dt><dd><a href="#_h-certificates"><b>passed</b></a>, no advice, `, "4 May 2026", "by Mundle Station", `<span class="grade paper">somebody else’s paper</span>`, "no: <b>failed</b>",
		"<li>No fasteners listed for the work on brakes</li>")
	not := packSite(t, measure.NewDate(2026, 5, 3), nil)["pack.html"]
	sectionHolds(t, not, "_h-frame", "Not cleared for sale", "Something recorded stands in the way of driving: something dangerous is open; the newest inspection has failed.", `<a href="#brake-test">Brake test not done since`, "<b>failed</b>", "no: Nothing dangerous")
	sectionHolds(t, not, "_h-requirements", "What stands in the way of driving")
	sectionHolds(t, packSite(t, measure.NewDate(2026, 5, 2), nil)["pack.html"], "_h-frame", "none in this record", "<li>No official inspection</li>")
	if at, other := strings.Index(may, `id="_h-frame"`), strings.Index(may, `<h2`); at < 0 || at > other+10 {
		t.Error("it does not stand first")
	}
}

// The frame names what is open, the worst first, and no more than it has room for.
func TestFrameHasRoom(t *testing.T) {
	var snags, damage strings.Builder
	for i := range 9 {
		fmt.Fprintf(&snags, "- [ ] job hole-a%d: hole %d; minor; disclose\n", i, i)
		fmt.Fprintf(&damage, "  side %d: bent %d; system body\n", i, i)
	}
	page := packSite(t, 0, map[string]string{"build.md": strings.Replace(packNotes["build.md"], "stages:", "vehicle:\n  contact: ring-me\n  make: Orro\ndamage:\n"+damage.String()+"stages:", 1),
		"2026-05-02.md": "", "2026-05-03.md": snags.String() + "- [ ] job worst-one: worst one; dangerous; system body\n- [ ] job hidden-a: hidden-words; major; private\n", "2026-05-04.md": "", "2026-05-05.md": ""})["pack.html"]
	sectionHolds(t, page, "_h-frame", "<li><b>Side 3</b>: bent 3</li>\n<li>and 5 more</li>", "no: bent 4", "<dt>Whom to ask</dt><dd>ring-me</dd>", "<dt>Make</dt><dd>Orro</dd>", "no: <dt>Contact</dt>",
		`<li><span class="severity dangerous">dangerous</span> <a href="#worst-one">Worst one</a></li>`+"\n"+`<li><span class="severity">told to you</span> <a href="#hole-a0">Hole 0</a></li>`, "<li>and 5 more</li>",
		"1 major item not described here", "no: hidden-words", "no: Hole 4")
}

// The record says what was damaged, in the card's own words and the pictures of it as it
// came, and who worked on it, with receipts.
func TestPackTellsWhatHappenedAndWhoWorked(t *testing.T) {
	page := packSite(t, 0, nil)["pack.html"]
	sectionHolds(t, page, "_h-happened", "A van that met a gate post.", "no: The axle bare")
	sectionHolds(t, page, "_h-frame", `alt="The door pushed in"`, `alt="The axle bare"`)
	for _, alt := range []string{"The door pushed in", "The axle bare"} {
		if n := strings.Count(page, `alt="`+alt+`"`); n != 1 {
			t.Errorf("%s: it is shown %d times", alt, n)
		}
	}
	var lines []string
	for l := range strings.SplitSeq(section(t, page, "_h-workers"), "</li>") {
		if _, l, ok := strings.Cut(l, "<li>"); ok {
			lines = append(lines, tag.ReplaceAllString(l, ""))
		}
	}
	if want := []string{"Vennick Jigs: disc skimmed", "Mundle Station: roadworthiness test; brake test"}; !slices.Equal(lines, want) {
		t.Errorf("who worked: %q", lines)
	}
	sectionHolds(t, page, "_h-workers", `<a href="money.html">the money</a>`)
	sectionHolds(t, page, "_h-work", "receipt T-7", "no: V-316")
	alone := packSite(t, measure.NewDate(2026, 5, 2), nil)["pack.html"]
	sectionHolds(t, alone, "_h-workers", "it names nobody else", "no: money.html")
}

// Each thing is told once: what follows from work, readings and scans in their tables, not
// as fixes. Systems that nothing is told of are named.
func TestPackTellsEachThingOnce(t *testing.T) {
	page := packSite(t, 0, nil)["pack.html"]
	sectionHolds(t, page, "_h-work", "door lets water in", "Front discs, pair", "no: C0035", "no: leak check", "no: door-skin")
	sectionHolds(t, page, "_h-checks", "<b>Brake leak check</b>: dry", "<b>Brake test</b>: even", `<td><span class="result">passed</span></td>`)
	sectionHolds(t, page, "_h-scans", "C0035", "no faults", `<span class="grade measured">`)
	sectionHolds(t, page, "_h-fasteners", "Of these parts none was listed: front discs, pair.")
	sectionHolds(t, page, "_h-unopened", "fuel", "no: brakes", "no: high voltage")
}

// A place that was hit tells what is on the vehicle for it, with a picture of then and one
// of now. A part of another system is no repair of it, nor is a picture from before.
func TestPackSetsTheCureBesideTheDamage(t *testing.T) {
	card := strings.Replace(packNotes["build.md"], "stages:", "damage:\n  front axle: beam bent; system brakes; photo door.png\n  roof: dented; system body\n  disc: bent; system brakes\nstages:", 1)
	page := packSite(t, 0, map[string]string{"build.md": card})["pack.html"]
	sectionHolds(t, page, "_h-damage", "<h3>Front axle</h3>\n<p>Beam bent</p>", `alt="The door pushed in"`, `alt="The axle bare"`, "<b>Put right with:</b> front discs, pair.", "<h3>Roof</h3>", "<b>No part and no fix is recorded for it.</b>", "no: door-skin")
	if n := strings.Count(section(t, page, "_h-damage"), `alt="The axle bare"`); n != 1 {
		t.Errorf("the axle stands beside %d damages", n)
	}
	before := packSite(t, measure.NewDate(2026, 5, 2), map[string]string{"build.md": card})["pack.html"]
	sectionHolds(t, before, "_h-damage", "no: Put right with", "no: The axle bare")
	stripped := packSite(t, 0, map[string]string{"build.md": card, "2026-05-02.md": "---\nstage: brakes\n---\n![The axle bare](axle.png)\n", "2026-05-03.md": "---\nstage: brakes\nparts:\n  front-discs: fitted front discs, pair\n---\n"})
	sectionHolds(t, stripped["pack.html"], "_h-damage", "Put right with", "no: The axle bare")
}

// What came back tells so, what did not says no more than before.
func TestPackTellsWhatCameBack(t *testing.T) {
	page := packSite(t, 0, nil)["pack.html"]
	_, item, _ := strings.Cut(page, `id="door-seal">`)
	item, _, _ = strings.Cut(item, "</ol>")
	var told []string
	for _, m := range regexp.MustCompile(`<li><b>([^<]*)</b>`).FindAllStringSubmatch(item, -1) {
		told = append(told, m[1])
	}
	if want := []string{"Opened", "Cleared", "Opened again", "Cleared"}; !slices.Equal(told, want) {
		t.Errorf("the story is %q", told)
	}
	if n := strings.Count(page, `<ol class="events">`); n != 1 {
		t.Errorf("%d stories", n)
	}
}

// What there is nothing of has no heading.
func TestPackLeavesOutWhatIsEmpty(t *testing.T) {
	bare := map[string]string{"build.md": "---\nbuild: Kite van\ncurrency: GBP\nstages:\n  finding: x\n  brakes: x\n---\n# Kite\n\n<!-- more later -->\n\n## Later\n", "2026-05-02.md": ""}
	pages := packSite(t, 0, bare)
	holds(t, pages, "pack.html", "no: _h-damage", "no: _h-happened", "no: _h-sale", "Nothing dangerous is recorded")
	holds(t, pages, "index.html", "no: About this build")
	holds(t, packSite(t, 0, nil), "index.html", "About this build")
}

// What is still to be looked at or decided are the buyer's questions; an own part that
// was put back ends the pictures of how it came.
func TestPackQuestionsAndFirstPictures(t *testing.T) {
	pages := packSite(t, 0, map[string]string{
		"2026-05-02.md": packNotes["2026-05-02.md"] + "- [ ] inspect sill-end: look behind the trim\n- [ ] decide door-trim: renew or dye\n- [ ] job door-stay: bent\n",
		"2026-05-03.md": "---\nstage: finding\nparts:\n  door-skin: refitted door skin\n---\n![The axle bare](axle.png)\n",
		"2026-05-04.md": "", "2026-05-05.md": "",
	})
	left := section(t, pages["pack.html"], "_h-left")
	told, rest, _ := strings.Cut(left, "<h3>Open questions</h3>")
	questions, rest, _ := strings.Cut(rest, "<h3>Still outstanding</h3>")
	for part, words := range map[string][]string{told: {"<h3>Told to you instead of mended</h3>", "roof dented", "no: bent"}, questions: {"look behind the trim", "renew or dye", "no: bent"}, rest: {"bent", "no: roof dented"}} {
		holds(t, map[string]string{"left": part}, "left", words...)
	}
}

// The first page lists fifty of what stops a requirement, and counts the rest.
func TestPackListsFifty(t *testing.T) {
	for n, want := range map[int]string{50: "no:  more</li>", 52: "<li>and 2 more</li>"} {
		var snags strings.Builder
		for i := range n {
			fmt.Fprintf(&snags, "- [ ] job hole-a%d: hole\n", i)
		}
		pages := packSite(t, 0, map[string]string{"2026-05-02.md": "", "2026-05-03.md": snags.String(), "2026-05-04.md": "", "2026-05-05.md": ""})
		sectionHolds(t, pages["pack.html"], "_h-requirements", want)
	}
}
