package check

import "testing"

// What each of these is a slip for has a figure or a snag stand wrong for ever; what
// is close to it and honest is in honest_test.go.

func TestDeniedResult(t *testing.T) {
	for words, denied := range map[string]string{
		"passed no": "no", "passed - no, failed": "no", "passed: not yet": "not yet", "done, not passed": "not passed", "done but not tested": "but not tested", "passed not": "not",
		"done, failed": "failed", "passed, Failed on the left": "Failed on", "done, but it failed": "but it failed", "done, weeps at the union": "weeps at", "passed - still leaks": "still leaks",
		"done tomorrow": "tomorrow", "done, on next Friday": "on next Friday", "done, pending": "pending", "done, result pending": "result pending", "done: results to follow": "results to follow", "done, TBC": "TBC", "done, booked for Friday": "booked", "done later": "later",
		"passed on one side only": "on one side only", "done, front only": "front only", "passed only on the left": "only on", "passed, partly": "partly", "done except the left rear": "except", "done ?": "?",
		"failed, weeps": "", "failed, not done": "", "passed, but pulls left": "", "done, no leaks": "", "passed, nothing weeps": "", "passed, leaks cured": "", "done since it failed": "", "passed, leaks in the boot dealt with": "",
		"passed, dripping wet day": "", "passed, fails nobody": "", "passed, not a drip": "", "passed, not only by day": "", "passed no-load test": "", "done, no-one about": "", "done later in the day": "", "passed, certificate pending": "",
		"passed, will look again in May": "", "passed next to the wall": "", "done on Friday": "", "passed with half a tank": "", "done at the left rear": "", "passed only just": "", "done": "", "passed, new pads not bedded in": "",
	} {
		note := "---\nchecks:\n  horn-test: " + words + "\n---\n"
		got := ""
		for _, p := range proofread(t, folder(note)) {
			if p.Check == "denied-result" {
				got = p.Span.Text()
			}
		}
		if got != denied {
			t.Errorf("%q: %q takes it back, want %q", words, got, denied)
		}
	}
}

func TestDateSlip(t *testing.T) {
	const paid, first = "cost: 9.00 filler; on ", "-- 2026-03-01.md --\n---\nstage: body\n---\n-- 2026-04-10.md --\n---\nstage: body\n"
	for lines, want := range map[string]string{
		paid + "2062-04-10": `"2062-04-10" is more than half a year after the note, 2026-04-10`, paid + "2027-03-10": `half a year after`, paid + "2026-09-10": "",
		paid + "2016-04-10": `"2016-04-10" is more than two years before the first note, 2026-03-01`, paid + "2025-01-10": "", paid + "2025-04-08": `"2025-04-08" is a year before the note, 2026-04-10`, paid + "2025-05-10": "a year before", paid + "2025-05-20": "", paid + "2025-03-01": "",
		"parts:\n  seal: ordered seal; due 2025-11-25":                                           `"2025-11-25" is before the note`,
		"parts:\n  seal: ordered seal; due 2026-04-10":                                           "",
		"parts:\n  seal: fitted seal; free; warranty 2025-04-10":                                 `"2025-04-10" is before the note`,
		"parts:\n  seal: needed seal\ncost: 9.00 seal; for seal; surcharge 3.00; due 2025-11-25": `"2025-11-25" is before the note`,
		"sold: 900; on 2025-04-09":                                                               `"2025-04-09" is more than a month before the work of 2026-03-01`, "sold: 900; on 2026-02-20": "",
	} {
		wantOf(t, "date-slip", first+lines+"\n---\n", want)
	}
	for due, want := range map[string]string{"2025-05-10": `"2025-05-10" is more than half a year before the note`, "2026-03-31": "", "50 mi": ""} {
		wantOf(t, "date-slip", "---\nstage: body\nodometer: 91252 mi\n---\n- [ ] job mot-test: book it; due "+due+"\n", want)
	}
}

func TestLoneSession(t *testing.T) {
	const others = "-- 2026-04-10.md --\n---\nstage: body\n---\n-- 2026-04-12.md --\n---\nstage: body\n---\n"
	wantOf(t, "year-slip", others+"-- 2016-04-11.md --\n---\nstage: body\n---\n", `"2016-04-11" is more than two years from all other sessions`)
	wantOf(t, "year-slip", others+"-- 2024-06-11.md --\n---\nstage: body\n---\n", "")
	wantOf(t, "year-slip", others+"-- 2062-06-11.md --\n---\nstage: body\n---\n", "") // far-future-note tells
}

func TestSecondState(t *testing.T) {
	for words, want := range map[string]string{
		"arrived and fitted": "is arrived, and not fitted", "arrived, fitted": "not fitted", "ordered & arrived.": "not arrived",
		"arrived and fitted well": "", "fitted, needed two men": "", "arrived": "",
	} {
		wantOf(t, "second-state", "---\nparts:\n  - seal: needed seal\n  - seal: "+words+"\n---\n", want)
	}
}

func TestUsedInWords(t *testing.T) {
	for words, want := range map[string]string{
		"fitted used caliper": "a used part", "fitted second-hand caliper": "a used part", "fitted used caliper; new": "",
		"fitted unused caliper": "", "fitted caliper, as used on the estate": "",
	} {
		wantOf(t, "used-safety-part", "---\nstage: body\nparts:\n  caliper: "+words+"; system brakes; free\n---\n", want)
	}
}

// Each of the systems in which bushes, joints and belts wear, and no other.
func TestUsedSafetyPartSystems(t *testing.T) {
	for system, want := range map[string]string{"steering": "a used part", "suspension": "a used part", "brakes": "a used part", "restraints": "a used part", "body": "", "lighting": ""} {
		wantOf(t, "used-safety-part", "---\nstage: body\nparts:\n  thing: needed thing; used; system "+system+"\n---\n", want)
	}
}

func TestNearReading(t *testing.T) {
	const before = "-- 2026-04-10.md --\n---\nreadings:\n  gas-pressure: 30 mbar\n---\n~~~scan engine\nno faults\n~~~\n-- 2026-04-12.md --\n"
	for reading, want := range map[string]string{"gas-presure": "close to \"gas-pressure\"", "gas-pressure-2": "", "gas-pressure-after": "", "gas-pressure": ""} {
		wantOf(t, "near-reading", before+"---\nreadings:\n  "+reading+": 31 mbar\n---\n", want)
	}
	for unit, want := range map[string]string{"engin": "the control unit \"engin\" is new, and close to \"engine\"", "engine-2": "", "abs": ""} {
		wantOf(t, "near-reading", before+"~~~scan "+unit+"\nno faults\n~~~\n", want)
	}
}

func TestSameNote(t *testing.T) {
	wantOf(t, "same-note", "-- 2026-04-10.md --\n---\nstage: body\n---\n-- 2026-04-10 b.md --\n---\nstage: body\n---\n", "") // nothing counts in it
	wantOf(t, "same-note", "-- 2026-04-10.md --\n- [ ] sweep\n-- 2026-04-10 (1).md --\n- [ ] sweep\n", "2026-04-10 (1).md:1:1: warning")
	wantOf(t, "near-id", "- [ ] lamp-in: fit the lamp\n- [ ] lamp-fit: and its bulb\n", "")                                                  // not the check lamp-aim
	wantOf(t, "date-slip", "-- 2025-03-01.md --\n# Begun\n-- 2026-04-10.md --\n---\nstage: body\ncost: 5.00 tape; on 2025-04-08\n---\n", "") // there was work then
	wantOf(t, "same-note", "-- 2026-04-10.md --\n- [ ] sweep\n-- 2026-04-12.md --\n- [ ] sweep\n", "")
}

func TestOdometerJump(t *testing.T) {
	for now, want := range map[string]string{"100100 mi": "further than 10010 mi", "60010 mi": "", "60011 mi": "further", "10100 mi": "", "160000 km; new cluster": ""} {
		wantOf(t, "odometer-jump", "-- 2026-04-10.md --\n---\nodometer: 10010 mi\n---\n-- 2026-04-12.md --\n---\nodometer: "+now+"\n---\n", want)
	}
}

func TestNearScan(t *testing.T) {
	for info, want := range map[string]string{
		"Scan bcm": `Write "scan bcm"`, "SCAN bcm": `Write "scan bcm"`, "scan: bcm": `Write "scan bcm"`, "scan-bcm": `Write "scan bcm"`, "scans bcm": `Write "scan bcm"`,
		"bcm scan": `Write "scan bcm"`, "fault scan bcm": `Write "scan bcm"`, "scna Body Control": `Write "scan body-control"`, "SCAN": `Write "scan engine"`,
		"scan bcm": "", "text": "", "scala": "",
	} {
		wantOf(t, "near-scan", "~~~"+info+"\nB1000 airbag\n~~~\n", want)
	}
	wantOf(t, "near-scan", "~~~ Scan log\nreading the memory\n~~~\n", "") // no codes
	for lines, want := range map[string]string{
		"B1000 airbag": "in no scan", "B1000: airbag\n\nU0100": "in no scan", "no faults": "in no scan",
		"B1000 airbag\nand the rest": "", "b 1000": "", "echo P0420": "", "": "",
	} {
		wantOf(t, "stray-codes", "~~~\n"+lines+"\n~~~\n", want)
	}
	for words, want := range map[string]string{
		"Trouble codes: P0143, with the engine cold.": "P0143", "Two Error code U0100 again": "U0100",
		"Paint code B1049, code P0143.": "", "Fault code C035.": "", "- [ ] read-again: fault code B1049": "", "Fault code B1049.\n\n~~~scan bcm\nB1049-1F open\n~~~": "", "<!-- fault code B1049 -->": "",
	} {
		wantOf(t, "code-in-words", words+"\n", want)
	}
}

func TestStagesOfTheCard(t *testing.T) {
	const card = "-- build.md --\n---\nbuild: Halden\ncurrency: GBP\nstages:\n  wiring: the loom\n  paint: all of it\n  "
	for stage, want := range map[string]string{
		"Wiring": `the stage "Wiring" is close to "wiring"`, "wirings": `close to "wiring"`, "wi-ring": `close to "wiring"`,
		"wiring 2": "", "plain": "", "front axle": "", "wing": "",
	} {
		wantOf(t, "similar-stage", card+stage+": x\n---\n", want)
	}
}

func TestKeysInTheBody(t *testing.T) {
	for line, want := range map[string]string{
		"cost: 50.00 hose": "front matter stands here", "time: 2h": "front matter stands here", "odometer: 91252 mi": "front matter stands here",
		"Cost: 50.00 hose": "", "cost: a lot": "", "time: ages": "", "stage: body": "", "The hose has a\ncost: 50.00 and more": "", "costs: 50.00": "",
	} {
		wantOf(t, "misplaced-front-matter", "---\nstage: body\n---\nWords.\n\n"+line+"\n", want)
	}
	// Each line is told.
	if got := names(proofread(t, folder("---\nstage: body\n---\n# Day\ncost: 50.00 hose\ntime: 2h\n"))); len(got) != 2 {
		t.Errorf("%q", got)
	}
}

func TestUndatedItems(t *testing.T) {
	for words, want := range map[string]string{
		"# To do\n- [ ] temporary roof-tarp: tarp\n": "todo.md:2:1: warning", "* [x] roof-tarp: off\n": "todo.md:1:1: warning",
		"- buy grease\n": "", "---\npage: To do\n---\n- buy grease\n": "", "an [ ] in words\n": "",
	} {
		wantOf(t, "undated-items", "-- todo.md --\n"+words, want)
	}
}
