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

// Whoever is not told takes silence for a good sign.
func TestNotRecorded(t *testing.T) {
	bare := "parts:\n  pads: fitted pads; system brakes\n  belt: fitted belt; system restraints"
	for _, c := range []struct{ name, archive, want string }{
		{"nothing done", trial.Session("2026-04-01.md", "inspection: passed", ""), ""},
		{"no inspection", trial.Session("2026-04-01.md", "", ""), "no official inspection"},
		{"all of it", trial.Session("2026-04-01.md", bare, ""), "no official inspection; no fasteners for the work on brakes, restraints; no fault scan after the work on restraints; no restraint-wait before work on restraints"},
		{"a job on the steering", trial.Session("2026-04-01.md", "inspection: passed", "- [x] job rack-nut: tightened; system steering"), "no fasteners for the work on steering"},
		{"fasteners of the brakes", trial.Card("fasteners:\n  caliper-bolt: 35 Nm; of pads") + trial.Session("2026-04-01.md", "inspection: passed\n"+bare, "```scan srs\nno faults\n```"), "no fasteners for the work on restraints; no restraint-wait before work on restraints"},
		{"a scan before the work", trial.Session("2026-03-31.md", "", "```scan srs\nno faults\n```") + trial.Session("2026-04-01.md", "inspection: passed\nchecks:\n  restraint-wait: done\n"+bare, ""), "no fasteners for the work on brakes, restraints; no fault scan after the work on restraints"},
		{"a line that is sure", trial.Card("stages:\n  - shell: system structure") + trial.Session("2026-04-01.md", "inspection: passed\nstage: shell\ntime: 2h measuring; sure", ""), ""},
		{"work on nobody knows what", trial.Card("stages:\n  - odds\n  - shell: system body") + trial.Session("2026-04-01.md", "inspection: passed\nstage: odds\nparts:\n  caliper: fitted caliper\n  wing: fitted wing; stage shell\n  hose: arrived hose",
			"- [x] job bleed: bled\n- [x] job lamp: swapped; system lighting\n- [x] job trim: clipped; asks for nothing\n- [ ] job mat: dry it"), "which system it is of: caliper, hose, “bleed: bled”; the fitting of hose"},
		{"an inspection before the work", trial.Session("2026-03-31.md", "inspection: passed", "") + trial.Session("2026-04-01.md", "parts:\n  rack: fitted rack; system steering", ""), "no official inspection since the work on steering; no fasteners for the work on steering"},
		{"category S without structure", trial.Card("vehicle:\n  category: S\ndamage:\n  front: bent leg") + trial.Session("2026-04-01.md", "inspection: passed", ""), "what of the structure was hit, as category S says; which system it is of: front"},
		{"a ball joint given up", trial.Session("2026-04-01.md", "inspection: passed\nparts:\n  ball-joint: needed ball joint; system suspension", "") + trial.Session("2026-04-02.md", "parts:\n  ball-joint: cancelled too dear", ""), "what was done instead of ball-joint"},
		{"another one instead", trial.Session("2026-04-01.md", "inspection: passed\nparts:\n  ball-joint: needed ball joint; system suspension", "") + trial.Session("2026-04-02.md", "inspection: passed\nparts:\n  ball-joint: cancelled\n  whole-arm: fitted arm; system suspension", ""), "no fasteners for the work on suspension"},
		{"a failed test called minor", trial.Session("2026-04-01.md", "inspection: passed\nchecks:\n  brake-test: failed pulls left; minor", ""), "why brake-test is minor, and not dangerous"},
		{"talked down", trial.Session("2026-04-01.md", "inspection: passed", "- [ ] job brake-pipe: rusty; dangerous\n- [ ] job wing-dent: pull it; minor") + trial.Session("2026-04-02.md", "", "- [ ] brake-pipe: brushed; minor; disclose"), "why brake-pipe is minor, and not dangerous"},
		{"a bodge that is ticked", trial.Session("2026-04-01.md", "inspection: passed", "- [x] temporary brake-pipe: hose and clips; system body"), "how it was put right: “brake-pipe: hose and clips”"},
		{"boxes on the card", "-- build.md --\n---\nbuild: Halden\ncurrency: GBP\n---\n- [ ] rear belt; dangerous\n- [x] wash it\n" + trial.Session("2026-04-01.md", "inspection: passed", ""), "what became of the open boxes on the job card (1)"},
		{"work that touched nothing", trial.Session("2026-04-01.md", "inspection: passed\nparts:\n  cover: fitted cover; system restraints; asks for nothing", ""), ""},
	} {
		trial.WantEqual(t, c.name, strings.Join(speech.All(At(trial.Compile(t, c.archive), 0, trial.Today).NotRecorded()), "; "), c.want)
	}
}
