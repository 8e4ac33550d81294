package state

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/speech"
	"guidecoat/journal/trial"
)

// What inspections open, join and clear. The severities are those of Directive 2014/45/EU,
// Article 7(2); 1.1.13 (pads) and 5.2.1 (fixings) are items of its Annex I (from memory).
func TestInspections(t *testing.T) {
	card := trial.Card("vehicle:\n  registration: X\n  category: none\n  mileage: 5")
	test := func(day, result, found string) string {
		front := "inspection: " + result + "\n"
		if found != "" {
			front += "found:\n  " + found + "\n"
		}
		return trial.Session("2026-04-"+day+".md", front, "")
	}
	body := func(day, words string) string { return trial.Session("2026-04-"+day+".md", "", words) }
	pads := "rear-pads: dangerous 1.1.13 right rear down to the metal"
	for _, c := range []struct{ name, notes, want, sell, drive string }{
		{"passed", test("02", "passed", ""), "", "", ""},
		{"failed", test("02", "failed", ""), "", "inspection", "inspection"},
		{"failed, then passed", test("02", "failed", "") + test("03", "passed", ""), "", "", ""},
		{"passed, then failed", test("02", "passed", "") + test("03", "failed", ""), "", "inspection", "inspection"},
		{"what it found", test("02", "failed", pads+"\n  bush-worn: advisory left front"), "bush-worn minor inspection open, rear-pads dangerous inspection open", "safety minor inspection", "dangerous inspection"},
		{"what a later pass no longer lists", test("02", "failed", pads+"\n  tyre-worn: major 5.2.3 left\n  lamp-dim: minor 4.7.1") + test("03", "passed", ""), "lamp-dim minor inspection cleared, rear-pads dangerous inspection cleared, tyre-worn major inspection cleared", "", ""},
		{"what it lists again", test("02", "failed", pads+"\n  lamp-dim: minor 4.7.1") + test("03", "passed", "lamp-dim: minor 4.7.1"), "lamp-dim minor inspection open, rear-pads dangerous inspection cleared", "minor", ""},
		{"an advisory stays", test("02", "failed", "bush-worn: advisory left front") + test("03", "passed", ""), "bush-worn minor inspection open", "minor", ""},
		{"an advisory is ticked", test("02", "passed", "bush-worn: advisory left front") + body("03", "- [x] bush-worn: new bush pressed in"), "bush-worn minor inspection cleared", "", ""},
		{"an advisory is disclosed", test("02", "passed", "bush-worn: advisory left front; disclose"), "bush-worn minor inspection open", "", ""},
		{"disclosed later", test("02", "passed", "bush-worn: advisory left front") + body("03", "- [ ] bush-worn: told; disclose"), "bush-worn minor inspection open", "", ""},
		{"an advisory that grew worse", test("02", "passed", "bush-worn: advisory left front") + test("03", "failed", "bush-worn: major 5.3.4 left front") + test("04", "passed", ""), "bush-worn major inspection cleared", "", ""},
		{"a failure that a later test lists as an advisory", test("02", "failed", "bush-worn: major 5.3.4 left front") + test("03", "failed", "bush-worn: advisory left front") + test("04", "passed", ""), "bush-worn major inspection cleared", "", ""},
		{"an advisory that is listed twice", test("02", "failed", "bush-worn: advisory left front") + test("03", "passed", "bush-worn: advisory left front") + test("04", "passed", ""), "bush-worn minor inspection open", "minor", ""},
		{"another failure clears nothing", test("02", "failed", pads) + test("03", "failed", ""), "rear-pads dangerous inspection open", "safety inspection", "dangerous inspection"},
		{"it joins the open one", body("01", "- [ ] rear-pads: look thin; minor") + test("02", "failed", pads), "rear-pads dangerous note open", "safety inspection", "dangerous inspection"},
		{"and the worse severity stands", body("01", "- [ ] rear-pads: gone; dangerous") + test("02", "failed", "rear-pads: major 1.1.13 thin"), "rear-pads dangerous note open", "safety inspection", "dangerous inspection"},
		{"a pass clears nothing it joined", body("01", "- [ ] rear-pads: look thin; minor") + test("02", "failed", pads) + test("03", "passed", ""), "rear-pads dangerous note open", "safety", "dangerous"},
		{"a temporary fix it joined", body("01", "- [ ] temporary rear-pads: swapped over") + test("02", "failed", pads) + test("03", "passed", ""), "rear-pads dangerous note open", "temporary safety", "dangerous"},
		{"ticked by the builder", test("02", "failed", pads) + body("03", "- [x] rear-pads: new pads all round"), "rear-pads dangerous inspection cleared", "inspection", "inspection"},
		{"by one word", test("02", "failed", "tyres: major 5.2.3 both") + body("03", "- [x] tyres: a new pair"), "tyres major inspection cleared", "inspection", "inspection"},
		{"ticked in the same note", trial.Session("2026-04-02.md", "inspection: failed\nfound:\n  "+pads, "- [x] rear-pads: new pads in the yard"), "rear-pads dangerous inspection cleared", "inspection", "inspection"},
		{"found again after it was ticked", test("02", "failed", pads) + body("03", "- [x] rear-pads: new pads") + test("04", "failed", "rear-pads: major 1.1.13 still"), "rear-pads major inspection open", "safety inspection", "inspection"},
		{"opened again by the builder", test("02", "failed", pads) + body("03", "- [x] rear-pads: new pads\n- [ ] again rear-pads: they squeal") + test("04", "passed", ""), "rear-pads dangerous note open", "safety", "dangerous"},
		{"ticked, and found by a pass", body("01", "- [x] job rear-pads: new") + test("04", "passed", "rear-pads: minor 1.1.13 glazed"), "rear-pads minor inspection open", "minor", ""},
		{"as a check", trial.Session("2026-04-02.md", "checks:\n  roadworthiness-test: failed\nfound:\n  "+pads, ""), "rear-pads dangerous inspection open, roadworthiness-test major check open", "safety inspection", "dangerous inspection"},
		{"as a check, then passed as one", trial.Session("2026-04-02.md", "checks:\n  roadworthiness-test: failed\nfound:\n  "+pads, "") + trial.Session("2026-04-03.md", "checks:\n  roadworthiness-test: passed", ""),
			"rear-pads dangerous inspection cleared, roadworthiness-test major check cleared", "", ""},
		{"as a check, then passed as an inspection", trial.Session("2026-04-02.md", "checks:\n  roadworthiness-test: failed", "") + test("03", "passed", ""), "roadworthiness-test major check cleared", "", ""},
		{"ticked in the note of the retest", test("02", "failed", pads+"; system brakes") + trial.Session("2026-04-03.md", "inspection: passed", "- [x] rear-pads: new pads"),
			"brake-leak-check dangerous due open, brake-test dangerous due open, rear-pads dangerous inspection cleared, wheel-retorque major due open", "safety", "dangerous"},
		{"work on what it found", test("02", "failed", pads+"; system brakes") + body("03", "- [x] rear-pads: new pads"),
			"brake-leak-check dangerous due open, brake-test dangerous due open, rear-pads dangerous inspection cleared, wheel-retorque major due open", "safety inspection", "dangerous inspection"},
	} {
		b := trial.Compile(t, card+c.notes)
		trial.WantFaults(t, c.name, b)
		st := At(b, 0, trial.Today)
		var got []string
		for _, s := range st.Snags {
			got = append(got, fmt.Sprintf("%s %s %s %s", s.ID, s.Severity, s.Source, map[bool]string{true: "open", false: "cleared"}[s.Open]))
			if s.Source == fact.FromInspection && s.Kind != "" {
				t.Errorf("%s: %s is of the kind %s", c.name, s.ID, s.Kind)
			}
		}
		slices.Sort(got)
		trial.WantEqual(t, c.name, strings.Join(got, ", "), c.want)
		trial.WantEqual(t, c.name+": to sell", unmet(st), c.sell)
		trial.WantEqual(t, c.name+": to drive", names(st.ToDrive(nil)), c.drive)
	}
	st := At(trial.Compile(t, card+test("02", "failed; until 2026-07-03; by Marl; at 7 km", pads)), 0, trial.Today)
	newest := st.NewestInspection()
	trial.WantEqual(t, "newest", fmt.Sprintf("%v %s %s %s", newest.Passed, newest.Until, newest.By, newest.At), "false 2026-07-03 Marl 7 km")
	trial.WantEqual(t, "words", st.Snag("rear-pads").Words, "right rear down to the metal (1.1.13, brake linings and pads)")
	trial.WantEqual(t, "the stop", st.ToDrive(nil)[2].Stops[0].Text, "the inspection of 2026-04-02 failed, by Marl")
	before := At(st.Build, trial.Day("2026-04-01"), trial.Today)
	trial.WantEqual(t, "the day before", fmt.Sprint(len(before.Snags))+unmet(before), "0")
}

func TestBadFindings(t *testing.T) {
	for _, c := range []struct{ name, notes, want string }{
		{"no inspection", trial.Session("2026-04-02.md", "found:\n  rear-pads: dangerous thin", ""), "found-alone 2026-04-02.md:3:3 |rear-pads|"},
		{"one that was only done", trial.Session("2026-04-02.md", "checks:\n  roadworthiness-test: done\nfound:\n  rear-pads: dangerous thin", ""), "found-alone 2026-04-02.md:5:3 |rear-pads|"},
		{"cleared before it was found", trial.Session("2026-04-01.md", "", "- [x] rear-pads: new") + trial.Session("2026-04-02.md", "inspection: failed\nfound:\n  rear-pads: dangerous thin", ""), "cleared-before-opened 2026-04-01.md:4:7 |rear-pads|"},
		{"disclosed though major", trial.Session("2026-04-02.md", "inspection: failed\nfound:\n  rear-pads: major thin; disclose", ""), "disclose-not-minor 2026-04-02.md:4:26 |disclose|"},
		{"the id of a part", trial.Session("2026-04-02.md", "parts:\n  rear-pads: needed pads; system brakes\ninspection: failed\nfound:\n  rear-pads: major thin", ""), "id-taken 2026-04-02.md:6:3 |rear-pads|"},
		{"the id of a check", trial.Session("2026-04-02.md", "inspection: failed\nfound:\n  brake-test: major thin", ""), "id-taken 2026-04-02.md:4:3 |brake-test|"},
	} {
		trial.WantFaults(t, c.name, trial.Compile(t, c.notes), c.want)
	}
	if title := journal.AnnexTitle("1.1.13(a)(ii)"); title != "brake linings and pads" {
		t.Errorf("with its reasons: %q", title)
	}
	if title := journal.AnnexTitle("9.99"); title != "" {
		t.Errorf("one that the table lacks: %q", title)
	}
}

// Whoever is not told takes silence for a good sign. The vehicle is inspected by somebody
// named after the work, and its equipment is told, unless the row is about that.
func TestNotRecorded(t *testing.T) {
	const tested = "inspection: passed; by Marl"
	bare := "parts:\n  pads: fitted pads; system brakes\n  belt: fitted belt; system restraints"
	day := func(day, front, body string) string { return trial.Session("2026-04-"+day+".md", front, body) }
	job := func(body string) string { return day("01", tested, body) }
	part := func(line string) string { return day("01", tested+"\nparts:\n  "+line, "") }
	check := func(lines string) string { return day("01", tested+"\nchecks:\n  "+lines, "") }
	for _, c := range []struct{ name, card, notes, want string }{
		{"nothing done", "", job(""), ""},
		{"no inspection", "", day("01", "", ""), "no official inspection"},
		{"all of it", "", day("01", bare, ""), "no official inspection; no fasteners listed for the work on brakes, restraints; no fault scan after the work on restraints; no restraint-wait before work on restraints"},
		{"an inspection by nobody named", "", day("01", "inspection: passed", ""), "who carried out the inspection of 2026-04-01"},
		{"the test at home", "", day("01", "checks:\n  roadworthiness-test: passed with a torch", ""), "who carried out the inspection of 2026-04-01"},
		{"an inspection before the work", "", job("") + day("02", "parts:\n  rack: fitted rack; system steering", ""), "no official inspection since the work on steering; no fasteners listed for the work on steering"},
		{"before any work", "", job("") + day("02", "parts:\n  strut: refitted strut; system body", ""), "no official inspection since the work began"},
		{"between works that can hurt nobody", "", day("01", "parts:\n  trim: fitted trim; system interior", "") + day("02", tested, "") + day("03", "parts:\n  mat: fitted mat; system interior", ""), ""},
		{"a certificate that has ended", "", day("01", tested+"; until 2026-04-30", ""), "a certificate that is still valid, since the last ended on 2026-04-30"},
		{"one that has not", "", day("01", tested+"; until 2027-04-30", ""), ""},
		{"a job on the steering", "", job("- [x] job rack-nut: tightened; system steering"), "no fasteners listed for the work on steering"},
		{"fasteners of the brakes", "fasteners:\n  caliper-bolt: 35 Nm; of pads", day("01", tested+"\n"+bare, "```scan srs\nno faults\n```"), "no fasteners listed for the work on restraints; no restraint-wait before work on restraints"},
		{"fasteners of one side", "fasteners:\n  caliper-bolt: 35 Nm; of pads-left", part("pads-left: fitted pads; system brakes\n  pads-right: fitted pads; system brakes\n  pads-spare: fitted pads; system brakes; private"), "no fasteners listed for the work on pads-right"},
		{"a scan before the work", "", trial.Session("2026-03-31.md", "", "```scan srs\nno faults\n```") + day("01", tested+"\nchecks:\n  restraint-wait: done\n"+bare, ""), "no fasteners listed for the work on brakes, restraints; no fault scan after the work on restraints"},
		{"hours alone", "stages:\n  - hubs: system brakes", day("01", tested+"\nstage: hubs\ntime: 5h both calipers", "- [x] bled"), "which part or job the work on brakes was"},
		{"a tick alone", "stages:\n  - hubs: system brakes", day("01", tested+"\nstage: hubs", "- [x] bled"), "which part or job the work on brakes was"},
		{"a line that is sure", "stages:\n  - shell: system structure", day("01", tested+"\nstage: shell\ntime: 2h measuring; sure", ""), ""},
		{"work on nobody knows what", "stages:\n  - odds\n  - shell: system body", day("01", tested+"\nstage: odds\nparts:\n  caliper: fitted caliper\n  wing: fitted wing; stage shell\n  hose: arrived hose",
			"- [x] job bleed: bled\n- [x] job lamp: swapped; system lighting\n- [x] job trim: clipped; asks for nothing\n- [ ] job mat: dry it"), "which system it is of: caliper, hose, “bleed: bled”; the fitting of hose"},
		{"category S without structure", "vehicle:\n  category: S\ndamage:\n  front: bent leg", job(""), "what of the structure was hit, as category S says; which system it is of: front"},
		{"category N", "vehicle:\n  category: N", job(""), ""},
		{"category S, and the structure was hit", "damage:\n  front: bent leg; system structure\nvehicle:\n  category: S", job(""), ""},
		{"category S, and the structure was mended", "vehicle:\n  category: S\n  equipment: none", day("01", tested+"\nchecks:\n  weld-ready: done\nparts:\n  leg: refitted leg; system structure", ""), "no fasteners listed for the work on structure"},
		{"hit, and nobody worked on it", "damage:\n  front: x; system brakes", job(""), ""},
		{"a flood is of no system", "damage:\n  water: to the seats; flood", job(""), ""},
		{"a tick that asks for nothing", "stages:\n  - hubs: system brakes", day("01", tested+"\nstage: hubs", "- [x] wiped; asks for nothing"), ""},
		{"given up, of no system", "", part("lamp: needed lamp") + day("02", "parts:\n  lamp: cancelled", ""), ""},
		{"private, of no system", "", day("01", tested+"\nparts:\n  lamp: needed lamp; private", "- [x] job mat-dry: dried; private"), ""},
		{"a part of no system that touched nothing", "", part("trim: fitted trim; asks for nothing"), ""},
		{"more than five", "", day("01", tested+"\nreadings:\n  a: 1 mm\n  b: 1 mm\n  c: 1 mm\n  d: 1 mm\n  e: 1 mm\n  f: 1 mm\n  g: 1 mm", ""), "the limits of a, b, c, d, e and 2 more"},
		{"a lamp given up", "", part("lamp: needed lamp; system lighting") + day("02", "parts:\n  lamp: cancelled", ""), ""},
		{"a private hose given up", "", part("hose: needed hose; system brakes; private") + day("02", "parts:\n  hose: cancelled", ""), ""},
		{"a hose that was sold off the vehicle", "", part("hose: fitted hose; system brakes") + day("02", tested+"\nparts:\n  hose: sold", ""), "no fasteners listed for the work on brakes; what was done instead of hose"},
		{"a result that is taken back", "", check("brake-test: done tomorrow"), ""},
		{"talked down, and mended", "", job("- [ ] job brake-pipe: rusty; dangerous; system lighting\n- [ ] brake-pipe: brushed; minor\n- [x] brake-pipe: new one"), ""},
		{"a private bodge that is ticked", "", job("- [x] temporary brake-pipe: hose and clips; system body; private"), ""},
		{"a scan of the radio", "", day("01", tested+"\nchecks:\n  restraint-wait: done\nparts:\n  belt: fitted belt; system restraints", "```scan radio\nno faults\n```"), "no fasteners listed for the work on restraints; no fault scan after the work on restraints"},
		{"twice without a wait", "", day("01", "parts:\n  belt: fitted belt; system restraints", "") + day("02", tested+"\nparts:\n  belt: refitted", "```scan srs\nno faults\n```"), "no fasteners listed for the work on restraints; no restraint-wait before work on restraints"},
		{"a note of today", "", job("") + trial.Session("2026-07-01.md", "", ""), ""},
		{"a ball joint given up", "", part("ball-joint: needed ball joint; system suspension") + day("02", "parts:\n  ball-joint: cancelled too dear", ""), "what was done instead of ball-joint"},
		{"a hose that came off again", "", day("01", "parts:\n  hose: fitted hose; system brakes", "") + day("02", tested+"\nparts:\n  hose: returned weeps", ""), "no fasteners listed for the work on brakes; what was done instead of hose"},
		{"a spare that was sold", "", part("hose: arrived hose; system brakes") + day("02", "parts:\n  hose: sold", ""), ""},
		{"another one instead", "", part("ball-joint: needed ball joint; system suspension") + day("02", tested+"\nparts:\n  ball-joint: cancelled\n  whole-arm: fitted arm; system suspension", ""), "no fasteners listed for the work on suspension"},
		{"a used part from nowhere", "", part("hub: fitted hub; used; system brakes\n  caliper: fitted caliper; used; from Tidewell; system brakes\n  wing: fitted wing; used; system lighting\n  arm: needed arm; used; system steering"), "no fasteners listed for the work on brakes; where the used parts come from: hub"},
		{"a failed test called minor", "", check("brake-test: failed pulls left; minor"), "why minor, and not dangerous: brake-test"},
		{"only done", "", check("brake-test: done up the lane\n  brake-leak-check: passed\n  fuel-leak-check: done\n  lamp-aim: done\n  steering-check: done; private"), "the result of brake-test, fuel-leak-check"},
		{"done, and later passed", "", check("brake-test: done") + day("02", "checks:\n  brake-test: passed", ""), ""},
		{"done before more work", "", check("brake-test: done") + day("02", tested+"\nparts:\n  pads: fitted pads; system brakes", ""), "no fasteners listed for the work on brakes"},
		{"measured against nothing", "", day("01", tested+"\nreadings:\n  disc-left: 20.1 mm\n  disc-right: 20.1 mm; min 19 mm\n  rail: 2 mm; private", ""), "the limits of disc-left"},
		{"talked down", "", job("- [ ] job brake-pipe: rusty; dangerous\n- [ ] job wing-dent: pull it; minor") + day("02", "", "- [ ] brake-pipe: brushed; minor; disclose"), "why minor, and not dangerous: brake-pipe"},
		{"called minor from the first", "", job("- [ ] job pipe-rear: rusty; minor; disclose; system brakes\n- [ ] steering has two inches of play; minor; system steering\n- [ ] job belt: cut; minor; system restraints; private"),
			"why minor, and not major: pipe-rear, “steering has two inches of play”"},
		{"called minor by the tester", "", day("01", tested+"\nfound:\n  hose-rear: minor 1.1.12 bulging; system brakes", ""), ""},
		{"a minor reading", "", day("01", tested+"\nreadings:\n  disc-left: 7 mm; min 8 mm; minor", ""), "why minor, and not major: reading-disc-left"},
		{"a bodge that is ticked", "", job("- [x] temporary brake-pipe: hose and clips; system body"), "how it was put right: brake-pipe"},
		{"a retest of the lamps", "", day("01", "inspection: failed; by Marl\nfound:\n  hose-rear: dangerous 1.1.12 bulging\n  sub-rot: major 6.1.1 holed; system structure\n  lamp-dim: major 4.7.1 dim", "") + day("02", tested, ""), "how it was put right: hose-rear, sub-rot"},
		{"a retest of what was mended", "", day("01", "inspection: failed; by Marl\nfound:\n  hose-rear: dangerous 1.1.12 bulging; system brakes\n  sub-rot: dangerous 6.1.1 holed", "") +
			day("02", tested+"\nparts:\n  hose: fitted hose; system brakes", "- [x] sub-rot: plated"), "no fasteners listed for the work on brakes"},
		{"a code that was cleared", "", day("01", "", "```scan srs\nB0001 bag\n```\n```scan radio\nB1000 aerial\n```") + day("02", tested, "```scan srs\nno faults\n```\n```scan radio\nno faults\n```"), "how it was put right: scan-srs-B0001"},
		{"dangerous, and asks for nothing", "", job("- [x] job hose-rear: a tie round it; dangerous; asks for nothing\n- [x] job mirror-trim: clipped; asks for nothing"), "how it was put right: hose-rear"},
		{"boxes on the card", "---\n- [ ] rear belt; dangerous\n- [x] wash it\n", job(""), "what became of the open boxes on the job card (1)"},
		{"work that touched nothing", "", part("cover: fitted cover; system restraints; asks for nothing"), ""},
		{"equipment that nobody tells", "-", part("arm: fitted arm; system suspension"), "what equipment it has; no fasteners listed for the work on suspension"},
		{"equipment that nothing hangs on", "-", part("lamp: fitted lamp; system lighting"), ""},
		{"equipment in other words", "vehicle:\n  equipment: hybrid, PHEV, esp, seats", job(""), "whether it has high-voltage, stability control"},
		{"and in the right ones", "vehicle:\n  equipment: hybrid, high-voltage", job(""), ""},
		{"behind the bumper", "vehicle:\n  equipment: radar, tyre sensors", part("bumper: fitted bumper; system body"), "no radar-calibration since the work on body"},
		{"behind the bumper, looked at", "vehicle:\n  equipment: radar", day("01", tested+"\nchecks:\n  radar-calibration: passed\nparts:\n  bumper: fitted bumper; system body", ""), ""},
		{"nobody behind the bumper", "vehicle:\n  equipment: radar", part("seat: fitted seat; system interior"), ""},
		{"a check of the card's own", "due checks:\n  tint-test: after visibility; minor", part("wing: fitted wing; system body"), ""},
		{"a note dated ahead", "", job("") + trial.Session("2027-01-01.md", "", "") + trial.Session("2027-01-02.md", "", ""), "whether it has happened what is noted for after today (notes: 2)"},
	} {
		card := trial.Card(c.card)
		switch {
		case c.card == "-":
			card = trial.Card("")
		case strings.HasPrefix(c.card, "---"):
			card = strings.TrimSuffix(trial.Card(""), "---\n") + c.card
		case !strings.Contains(c.card, "vehicle:"):
			card = trial.Card(strings.TrimSuffix("vehicle:\n  equipment: none\n"+c.card, "\n"))
		}
		trial.WantEqual(t, c.name, strings.Join(speech.All(At(trial.Compile(t, card+c.notes), 0, trial.Today).NotRecorded()), "; "), c.want)
	}
	later := At(trial.Compile(t, trial.Card("")+day("01", tested, "")+day("03", "checks:\n  brake-test: done\nparts:\n  belt: fitted belt; system restraints", "```scan srs\nno faults\n```")), trial.Day("2026-04-02"), trial.Today)
	trial.WantEqual(t, "the day before", strings.Join(speech.All(later.NotRecorded()), "; "), "")
}
