package state

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/trial"
)

// dueOn shows the open items of some sources on a day as "id severity since", by id.
func dueOn(b *journal.Build, date string, from ...fact.Source) string {
	var list []string
	for _, s := range At(b, trial.Day(date), trial.Today).Snags {
		for _, f := range from {
			if s.Source == f && s.Open {
				list = append(list, fmt.Sprintf("%s %s %s", s.ID, s.Severity, s.Opened))
			}
		}
	}
	slices.Sort(list)
	return strings.Join(slices.Compact(list), ", ")
}

func TestChecksSettle(t *testing.T) {
	fit := trial.Session("2026-04-01.md", "odometer: 91252 mi\nparts:\n  disc: fitted disc; system brakes", "")
	for _, c := range []struct {
		name, more string
		on, want   string
		inVain     string
	}{
		{name: "passed later", more: trial.Session("2026-04-02.md", "checks:\n  brake-test: passed\n  brake-leak-check: done", ""), on: "2026-04-02", want: "wheel-retorque major 2026-04-01"},
		{name: "not before it is", more: trial.Session("2026-04-02.md", "checks:\n  brake-test: passed", ""), on: "2026-04-01",
			want: "brake-leak-check dangerous 2026-04-01, brake-test dangerous 2026-04-01, wheel-retorque major 2026-04-01"},
		{name: "in the same session", more: trial.Session("2026-04-01 a.md", "parts:\n  lamp: fitted lamp; system lighting\nchecks:\n  lamp-aim: passed\n  brake-test: done", ""), on: "2026-04-01",
			want: "brake-leak-check dangerous 2026-04-01, wheel-retorque major 2026-04-01"},
		{name: "before the work", more: trial.Session("2026-03-31.md", "checks:\n  brake-test: passed\n  brake-leak-check: passed", ""), on: "2026-04-01",
			want: "brake-leak-check dangerous 2026-04-01, brake-test dangerous 2026-04-01, wheel-retorque major 2026-04-01"},
		{name: "later work makes it due anew", more: trial.Session("2026-04-02.md", "checks:\n  brake-test: passed\n  brake-leak-check: passed", "") + trial.Session("2026-04-03.md", "parts:\n  disc: refitted", ""), on: "2026-04-03",
			want: "brake-leak-check dangerous 2026-04-03, brake-test dangerous 2026-04-03, wheel-retorque major 2026-04-01"},
		{name: "one item a check, the earliest date", more: trial.Session("2026-04-03.md", "parts:\n  pads: fitted pads; system brakes", ""), on: "2026-04-03",
			want: "brake-leak-check dangerous 2026-04-01, brake-test dangerous 2026-04-01, wheel-retorque major 2026-04-01"},
		{name: "failed", more: trial.Session("2026-04-02.md", "checks:\n  brake-test: failed pulls left\n  brake-leak-check: passed", ""), on: "2026-04-02", want: "brake-test dangerous 2026-04-01, wheel-retorque major 2026-04-01"},
		{name: "failed, then passed", more: trial.Session("2026-04-02.md", "checks:\n  brake-test: failed\n  brake-leak-check: passed", "") + trial.Session("2026-04-03.md", "checks:\n  brake-test: passed", ""), on: "2026-04-03", want: "wheel-retorque major 2026-04-01"},
		{name: "failed, never due", more: trial.Session("2026-04-02.md", "checks:\n  own-thing: failed x\n  brake-leak-check: passed\n  brake-test: passed", ""), on: "2026-04-02", want: "own-thing major 2026-04-02, wheel-retorque major 2026-04-01"},
		{name: "failed, never due, then done", more: trial.Session("2026-04-02.md", "checks:\n  own-thing: failed x\n  brake-leak-check: passed\n  brake-test: passed", "") + trial.Session("2026-04-03.md", "checks:\n  own-thing: done", ""),
			on: "2026-04-03", want: "own-thing major 2026-04-02, wheel-retorque major 2026-04-01", inVain: "own-thing 2026-04-03.md:3"},
		{name: "failed, how bad its line says", more: trial.Session("2026-04-02.md", "checks:\n  own-thing: failed x; minor\n  brake-leak-check: passed\n  brake-test: failed; minor", ""), on: "2026-04-02",
			want: "brake-test dangerous 2026-04-01, own-thing minor 2026-04-02, wheel-retorque major 2026-04-01"},
		{name: "failed, its rule's severity", more: trial.Session("2026-04-02.md", "checks:\n  restraint-scan: failed x\n  brake-leak-check: passed\n  brake-test: passed", ""), on: "2026-04-02", want: "restraint-scan dangerous 2026-04-02, wheel-retorque major 2026-04-01"},

		// Where a distance is asked for it counts from the work's odometer; where it reads miles from 25 to 50 of them.
		{name: "far enough, by the check's own odometer", more: trial.Session("2026-04-02.md", "odometer: 91252 mi\nchecks:\n  wheel-retorque: done; at 91284 mi\n  brake-leak-check: done\n  brake-test: done", ""), on: "2026-04-02", want: ""},
		{name: "far enough, by its session's", more: trial.Session("2026-04-02.md", "odometer: 91284 mi\nchecks:\n  wheel-retorque: done\n  brake-leak-check: done\n  brake-test: done", ""), on: "2026-04-02", want: ""},
		{name: "too early", more: trial.Session("2026-04-02.md", "odometer: 91260 mi\nchecks:\n  wheel-retorque: done\n  brake-leak-check: done\n  brake-test: done", ""), on: "2026-04-02", want: "wheel-retorque major 2026-04-01",
			inVain: "wheel-retorque 2026-04-02.md:4"},
		{name: "no odometer", more: trial.Session("2026-04-02.md", "checks:\n  wheel-retorque: done\n  brake-leak-check: done\n  brake-test: done", ""), on: "2026-04-02", want: "wheel-retorque major 2026-04-01",
			inVain: "wheel-retorque 2026-04-02.md:3"},
		{name: "from the newest earlier odometer", more: trial.Session("2026-04-02.md", "parts:\n  tyre: fitted tyre; system wheels", "") +
			trial.Session("2026-04-03.md", "checks:\n  wheel-retorque: done; at 91290 mi\n  brake-leak-check: done\n  brake-test: done", ""), on: "2026-04-03", want: ""},
	} {
		b := trial.Compile(t, fit+c.more)
		trial.WantFaults(t, c.name, b)
		var inVain []string
		for _, v := range At(b, 0, trial.Today).ChecksToTell {
			if !v.Late {
				inVain = append(inVain, fmt.Sprintf("%s %s:%d", v.Name, v.At.File.Path, v.At.Begin().Line))
			}
		}
		trial.WantEqual(t, c.name+": checks in vain", strings.Join(inVain, ", "), c.inVain)
		trial.WantEqual(t, c.name, dueOn(b, c.on, fact.FromDue, fact.FromCheck), c.want)
	}
	// A part without a system takes its stage's, and the card's rules join in.
	b := trial.Compile(t, trial.Card("stages:\n  axle: system suspension\n  loom: system electrical\ndue checks:\n  tow-test: after electrical; minor; because lamps\n  alignment: after electrical; dangerous")+
		trial.Session("2026-04-01.md", "stage: axle\nparts:\n  beam: fitted beam\n  wire: fitted wire; stage loom", ""))
	trial.WantEqual(t, "the card's", dueOn(b, "2026-04-01", fact.FromDue), "alignment dangerous 2026-04-01, tow-test minor 2026-04-01, wheel-retorque major 2026-04-01")
}

func TestReadingsOutside(t *testing.T) {
	for _, c := range []struct {
		name     string
		readings []string // of 1, 2, … April
		want     string
	}{
		{name: "inside", readings: []string{"8.7 mm; min 8 mm"}, want: ""},
		{name: "on the limit", readings: []string{"8.0 mm; min 8 mm; max 8"}, want: ""},
		{name: "below", readings: []string{"7.99 mm; min 8 mm"}, want: "reading-disc major 2026-04-01"},
		{name: "above", readings: []string{"8.01 mm; max 8 mm; minor"}, want: "reading-disc minor 2026-04-01"},
		{name: "within", readings: []string{"3 °; within -1..2; dangerous"}, want: "reading-disc dangerous 2026-04-01"},
		{name: "spec", readings: []string{"104.9 N·m; spec 110 ±5 N·m"}, want: "reading-disc major 2026-04-01"},
		{name: "spec, inside", readings: []string{"105 N·m; spec 110 ±5 N·m"}, want: ""},
		{name: "spec of percent", readings: []string{"12.2 V; spec 12.6 ±2%"}, want: "reading-disc major 2026-04-01"}, // 12.348 at least
		{name: "across units", readings: []string{"80 lbf·ft; min 110 N·m"}, want: "reading-disc major 2026-04-01"},   // 108.47 N·m
		{name: "put right", readings: []string{"7 mm; min 8 mm", "8.2 mm"}, want: ""},
		{name: "limits carry forward", readings: []string{"8.7 mm; min 8 mm", "7.9 mm"}, want: "reading-disc major 2026-04-02"},
		{name: "one side carries forward", readings: []string{"8.7 mm; min 8 mm; max 9", "9.1 mm; min 7"}, want: "reading-disc major 2026-04-02"},
		{name: "new limits", readings: []string{"7.9 mm; min 8 mm", "7.9 mm; min 7.5"}, want: ""},
		{name: "out again", readings: []string{"7.9 mm; min 8 mm", "8.5 mm", "7.5 mm"}, want: "reading-disc major 2026-04-03"},
		{name: "no limits", readings: []string{"7.9 mm"}, want: ""},
		{name: "still out", readings: []string{"7.9 mm; min 8 mm", "7.5 mm"}, want: "reading-disc major 2026-04-01"},
	} {
		archive := ""
		for i, r := range c.readings {
			archive += trial.Session(fmt.Sprintf("2026-04-%02d.md", i+1), "readings:\n  disc: "+r, "")
		}
		b := trial.Compile(t, archive)
		trial.WantFaults(t, c.name, b)
		trial.WantEqual(t, c.name, dueOn(b, "2026-05-01", fact.FromReading), c.want)
	}
	b := trial.Compile(t, trial.Session("2026-04-01.md", "readings:\n  - disc: 8 mm; min 9; max 8\n  - disc: 8 mm; min 7; within 5..9\n  - disc: 8 mm; spec 8 ±1; max 9", ""))
	trial.WantFaults(t, "limits that clash", b, "limits-clash 2026-04-01.md:3:24 |max 8|", "limits-clash 2026-04-01.md:4:24 |within 5..9|", "limits-clash 2026-04-01.md:5:28 |max 9|")
}

func TestFaultCodes(t *testing.T) {
	scan := func(date, unit, codes string) string {
		return trial.Session(date+".md", "stage: x", "```scan "+unit+"\n"+codes+"\n```")
	}
	b := trial.Compile(t, scan("2026-04-01", "abs", "C0035 left front\nC0040-1F")+scan("2026-04-02", "engine", "P0143\nC0035")+scan("2026-04-03", "abs", "C0035")+scan("2026-04-04", "engine", "no faults")+scan("2026-04-05", "abs", "C0040-1F again\nC0041"))
	trial.WantFaults(t, "scans", b)
	for date, want := range map[string]string{
		"2026-04-01": "scan-abs-C0035 major 2026-04-01, scan-abs-C0040-1F major 2026-04-01",
		"2026-04-02": "scan-abs-C0035 major 2026-04-01, scan-abs-C0040-1F major 2026-04-01, scan-engine-C0035 major 2026-04-02, scan-engine-P0143 major 2026-04-02",
		"2026-04-03": "scan-abs-C0035 major 2026-04-01, scan-engine-C0035 major 2026-04-02, scan-engine-P0143 major 2026-04-02",
		"2026-04-04": "scan-abs-C0035 major 2026-04-01",
		"2026-04-05": "scan-abs-C0040-1F major 2026-04-05, scan-abs-C0041 major 2026-04-05",
	} {
		trial.WantEqual(t, "on "+date, dueOn(b, date, fact.FromScan), want)
	}
}

func TestRequirements(t *testing.T) {
	stopped := func(list []Requirement) string {
		var out []string
		for _, r := range list {
			if !r.Met() {
				out = append(out, fmt.Sprintf("%s %d", r.Name, len(r.Stops)))
			}
		}
		return strings.Join(out, ", ")
	}
	good := "vehicle:\n  vin: 0H8GDM9A8KP042788\n  category: none"
	for _, c := range []struct{ name, card, front, body, sell, drive string }{
		{name: "all met", card: good, front: "odometer: 5 km"},
		{name: "record", card: "", sell: "record 3"},
		{name: "a registration will do", card: "vehicle:\n  registration: x\n  category: S\n  mileage: 5 miles"},
		{name: "temporary", card: good, front: "odometer: 5 km", body: "- [ ] temporary a-fix: x; minor\n", sell: "temporary 1, minor 1"},
		{name: "major", card: good, front: "odometer: 5 km", body: "- [ ] job a-fix: x; major\n", sell: "safety 1"},
		{name: "dangerous", card: good, front: "odometer: 5 km", body: "- [ ] job a-fix: x; dangerous\n", sell: "safety 1", drive: "dangerous 1"},
		{name: "minor", card: good, front: "odometer: 5 km", body: "- [ ] job a-fix: x\n- [ ] job b-fix: x; disclose\n- [x] job c-fix: x\n", sell: "minor 1"},
		{name: "a check due", card: good, front: "odometer: 5 km\nparts:\n  disc: fitted disc; system restraints", sell: "safety 1", drive: "dangerous 1"},
		{name: "parts", card: good, front: "odometer: 5 km\nparts:\n  disc: arrived disc; system wheels\n  pad: needed pad; system fuel\n  lamp: needed lamp; system lighting\n  hub: cancelled hub; system wheels", sell: "parts 2"},
		{name: "surcharge", card: good, front: "odometer: 5 km\nstage: x\nparts:\n  lamp: needed lamp\ncost: 50; for lamp; surcharge 20", sell: "money 1"},
		{name: "a reading", card: good, front: "odometer: 5 km\nreadings:\n  disc: 7 mm; min 8", sell: "safety 1"},
		{name: "a reading, dangerous", card: good, front: "odometer: 5 km\nreadings:\n  disc: 7 mm; min 8; dangerous", sell: "safety 1", drive: "dangerous 1"},
		{name: "a scan", card: good, front: "odometer: 5 km", body: "```scan abs\nC0035\n```\n", sell: "safety 1"},
	} {
		st := At(trial.Compile(t, trial.Card(c.card)+trial.Session("2026-04-01.md", c.front, c.body)), 0, trial.Today)
		trial.WantEqual(t, c.name+": to sell", stopped(st.ToSell(nil)), c.sell)
		trial.WantEqual(t, c.name+": to drive", stopped(st.ToDrive(nil)), c.drive)
	}
	st := At(trial.Compile(t, trial.Card(good)), 0, trial.Today)
	errors := []Stop{{Text: "x"}}
	trial.WantEqual(t, "errors", stopped(st.ToSell(errors))+"; "+stopped(st.ToDrive(errors)), "notes 1, record 1; notes 1")
	var names []string
	for _, r := range st.ToSell(nil) {
		names = append(names, r.Name)
	}
	trial.WantEqual(t, "order", strings.Join(names, " "), "notes temporary safety minor parts money record inspection category")
}

// A check whose next words take its result back settles nothing; where the builder is
// sure, it does.
func TestDeniedResultSettlesNothing(t *testing.T) {
	for words, open := range map[string]bool{
		"passed - no, failed": true, "done, result pending": true, "passed on one side only": true, "passed": false, "done, leaks in the boot dealt with": false, "passed - no, none at all; sure": false,
	} {
		b := trial.Compile(t, trial.Session("2026-04-01.md", "stage: axle\nparts:\n  hose: refitted hose; system restraints\nchecks:\n  restraint-scan: "+words, ""))
		if s := At(b, 0, trial.Today).Snag("restraint-scan"); s == nil || s.Open != open {
			t.Errorf("%q: %+v, want open %v", words, s, open)
		}
	}
}
