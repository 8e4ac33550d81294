package state

import (
	"fmt"
	"strings"
	"testing"

	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/trial"
)

// The built-in 40 to 80 km, to the metre; 25 to 50 miles where the odometer at the work
// reads miles. The figures are those of BS AU 50-2.7a:1995, which is of commercial vehicles.
func TestRetorqueToTheMetre(t *testing.T) {
	for _, c := range []struct{ work, at, want string }{
		{"50000 km", "50039.9 km", "open"}, {"50000 km", "50040 km", "cleared"}, {"50000 km", "50080 km", "cleared"}, {"50000 km", "50080.1 km", "late"},
		{"50000 km", "31093.4 mi", "open"}, {"50000 km", "31093.5 mi", "cleared"}, // 50040 km are 31093.41 mi
		{"50000 mi", "50024.9 mi", "open"}, {"50000 mi", "50025 mi", "cleared"}, {"50000 mi", "50050 mi", "cleared"}, {"50000 mi", "50050.1 mi", "late"},
		{"50000 mi", "80507.4 km", "open"}, {"50000 mi", "80507.5 km", "cleared"}, // 50025 mi are 80507.43 km
	} {
		b := trial.Compile(t, trial.Session("2026-04-01.md", "odometer: "+c.work+"\nparts:\n  tyre: fitted tyre; system wheels", "")+trial.Session("2026-04-02.md", "checks:\n  wheel-retorque: done; at "+c.at, ""))
		s, told := At(b, 0, trial.Today).Snags[0], At(b, 0, trial.Today).ChecksToTell
		got := "cleared"
		switch {
		case s.Open:
			got = "open"
		case strings.Contains(s.ClearedBy().Words, "(later than "):
			got = "late"
		}
		trial.WantEqual(t, c.work+", "+c.at, got, c.want)
		trial.WantEqual(t, c.at+" is told", len(told) > 0, c.want != "cleared")
		trial.WantEqual(t, c.at+" is late", len(told) > 0 && told[0].Late, c.want == "late")
	}
}

// Every item says which line caused it and which settled it.
func TestDueItemsNameTheirLines(t *testing.T) {
	b := trial.Compile(t, trial.Session("2026-04-01.md", "odometer: 100 km\nparts:\n  pad: fitted pads; system brakes", "")+
		trial.Session("2026-04-05.md", "checks:\n  brake-test: failed left pulls\n  - brake-test: passed", "")+
		trial.Session("2026-04-06.md", "checks:\n  brake-test: passed on the rollers", ""))
	for _, s := range At(b, 0, trial.Today).Snags {
		if s.ID != "brake-test" {
			continue
		}
		var said []string
		for _, e := range s.Events {
			said = append(said, fmt.Sprintf("%s %s:%d %s", e.What, e.Span.File.Path, e.Span.Begin().Line, e.Words))
		}
		trial.WantEqual(t, "events", strings.Join(said, ", "), "opened 2026-04-01.md:4 brake-test not done since pad was fitted, remarked 2026-04-05.md:3 failed: left pulls, cleared 2026-04-06.md:3 passed: on the rollers")
	}
}

// An odometer that is missing or went back is said plainly, and the check stays due.
func TestDistanceThatCannotBeTold(t *testing.T) {
	for _, c := range []struct{ name, work, check, why string }{
		{"none at the work", "", "; at 200 km", "no odometer is noted for the work on tyre"},
		{"none at the check", "odometer: 100 km\n", "", ""}, // the work's own reading carries no distance
		{"went back", "odometer: 100 km\n", "; at 40 km", "it was done at 40 km, which is less than the 100 km of the work on tyre"},
		{"too soon", "odometer: 100 km\n", "; at 139 km", "it was done before 40 km were driven since the work on tyre at 100 km"},
	} {
		b := trial.Compile(t, trial.Session("2026-04-01.md", c.work+"parts:\n  tyre: fitted tyre; system wheels", "")+trial.Session("2026-04-02.md", "checks:\n  wheel-retorque: done"+c.check, ""))
		s := At(b, 0, trial.Today).Snags[0]
		if !s.Open {
			t.Errorf("%s: settled", c.name)
		}
		trial.WantEqual(t, c.name+" says that no odometer is noted", strings.Contains(s.Words, "no odometer reading is noted"), c.work == "")
		for _, f := range At(b, 0, trial.Today).ChecksToTell {
			if c.why != "" {
				trial.WantEqual(t, c.name, f.Why, c.why)
			}
		}
		trial.WantEqual(t, c.name+" warns", len(At(b, 0, trial.Today).ChecksToTell) > 0, true)
	}
}

// Before driving only danger counts, and a distance that must be driven may be.
func TestToDrive(t *testing.T) {
	rule := "due checks:\n  hub-check: after wheels; dangerous; distance 50 km\n"
	for _, c := range []struct{ name, odometer, check, want string }{
		{"the distance is still to be driven", "odometer: 100 km\n", "", ""},
		{"it has been driven", "odometer: 100 km\n", "odometer: 151 km\n", "dangerous"},
		{"nobody knows", "", "", "dangerous"},
		{"it has failed", "odometer: 100 km\n", "checks:\n  hub-check: failed; at 120 km\n", "dangerous"},
		{"it was done", "odometer: 100 km\n", "checks:\n  hub-check: done; at 160 km\n", ""},
	} {
		b := trial.Compile(t, trial.Card(rule)+trial.Session("2026-04-01.md", c.odometer+"parts:\n  tyre: fitted tyre; system wheels", "")+trial.Session("2026-04-02.md", c.check, ""))
		st := At(b, 0, trial.Today)
		trial.WantEqual(t, c.name, names(st.ToDrive(nil)), c.want)
		if c.name != "it was done" && !strings.Contains(unmet(st), "safety") {
			t.Errorf("%s: may be sold", c.name)
		}
	}
	for _, c := range []struct{ what, want string }{
		{"- [ ] job a-b: x; dangerous", "dangerous"}, {"- [ ] temporary a-b: x; dangerous", "dangerous"}, {"- [ ] temporary a-b: x", ""},
		{"```scan abs\nC0035\n```", ""},
	} {
		trial.WantEqual(t, c.what, names(At(trial.Compile(t, trial.Session("2026-04-01.md", "", c.what)), 0, trial.Today).ToDrive(nil)), c.want)
	}
	outside := trial.Compile(t, trial.Session("2026-04-01.md", "readings:\n  pad-left: 1.4 mm; min 1.5 mm; dangerous", ""))
	trial.WantEqual(t, "a reading", names(At(outside, 0, trial.Today).ToDrive(nil)), "dangerous")
}

// The severity words of Directive 2014/45/EU, Article 7(2), from memory. What is said
// with a snag or a reading counts; a limit itself is still within.
func TestSeverities(t *testing.T) {
	trial.WantEqual(t, "words", strings.Join(note.Severities, " "), "minor major dangerous")
	b := trial.Compile(t, trial.Session("2026-04-01.md", "readings:\n  pad-left: 1.5 mm; min 1.5 mm; dangerous\n  pad-right: 1.4 mm; min 1.5 mm; dangerous",
		"- [ ] nut-one: one wheel nut missing; system wheels\n- [ ] nuts-two: two wheel nuts missing; dangerous; system wheels\n"))
	got := map[string]string{}
	for _, s := range At(b, 0, trial.Today).Snags {
		got[s.ID] = s.Severity.String()
	}
	for id, want := range map[string]string{"nut-one": "major", "nuts-two": "dangerous", "reading-pad-left": "", "reading-pad-right": "dangerous"} {
		trial.WantEqual(t, id, got[id], want)
	}
}

// A reading and its limit may be in different units. 2/32 in (49 CFR 570.9, United
// States) are 1.5875 mm, less than the 1.6 mm of Great Britain: 1.59 mm of tread
// passes the one and fails the other.
func TestReadingsAcrossUnits(t *testing.T) {
	for line, open := range map[string]bool{
		"1.59 mm; min 0.0625 in": false, "1.59 mm; min 1.6 mm": true, "1.5875 mm; min 0.0625 in": false, "1.587 mm; min 0.0625 in": true,
		"80 lb-ft; min 108.465 Nm": false, "80 lb-ft; min 108.466 Nm": true, "32 psi; max 2.20633 bar": false, "32 psi; max 2.2063 bar": true,
	} {
		list := At(trial.Compile(t, trial.Session("2026-04-01.md", "readings:\n  thing: "+line, "")), 0, trial.Today).Snags
		trial.WantEqual(t, line, len(list) == 1, open)
	}
}

// Near a limit is within a tenth of it, or of the band between two.
func TestNearLimit(t *testing.T) {
	for line, want := range map[string]string{
		"8.8 mm; min 8 mm": "near the minimum of 8 mm", "8.81 mm; min 8 mm": "", "8 mm; min 8 mm": "near the minimum of 8 mm", "7.9 mm; min 8 mm": "",
		"27 %; max 30 %": "near the limit of 30 %", "26.9 %; max 30 %": "", "0.34 in; min 8 mm": "near the minimum of 8 mm",
		"110 Nm; spec 110 Nm ±5%": "", "105.6 Nm; spec 110 Nm ±5%": "near the minimum of 104.50 N·m", "105.7 Nm; spec 110 Nm ±5%": "",
		"1 mm": "", "0 mm; max 0 mm": "near the limit of 0 mm", "5 mm; within 5..5 mm": "", "-1.1 deg; within -2..-1 deg": "near the limit of -1°",
	} {
		b := trial.Compile(t, trial.Session("2026-04-01.md", "readings:\n  thing: "+line, ""))
		trial.WantFaults(t, line, b)
		for _, r := range At(b, 0, trial.Today).Newest() {
			trial.WantEqual(t, line, r.Limits.Near(r.Value).String(), want)
		}
	}
}

// Limits carry forward, and a later one may not contradict what still holds.
func TestLimitsThatContradict(t *testing.T) {
	b := trial.Compile(t, trial.Session("2026-04-01.md", "readings:\n  disc: 9 mm; max 10 mm", "")+trial.Session("2026-04-02.md", "readings:\n  disc: 9 mm; min 11 mm", "")+
		trial.Session("2026-04-03.md", "readings:\n  disc: 10.1 mm", "")+trial.Session("2026-04-04.md", "readings:\n  disc: 10.1 mm; within 8..12 mm", ""))
	trial.WantFaults(t, "contradiction", b, "limits-clash 2026-04-02.md:3:15 |min 11 mm|")
	for date, open := range map[string]bool{"2026-04-02": false, "2026-04-03": true, "2026-04-04": false} {
		list := At(b, trial.Day(date), trial.Today).Snags
		trial.WantEqual(t, date, len(list) == 1 && list[0].Open, open)
	}
}

// Of two parts that were fitted on one day, which the check due comes from does not
// hang on the names of files.
func TestDueOfOneDay(t *testing.T) {
	said := func(one, other string) string {
		b := trial.Compile(t, trial.Card("stages:\n  - front: system brakes\n  - rear: system suspension")+
			trial.Session(one, "stage: rear\nparts:\n  spring: fitted spring", "")+trial.Session(other, "stage: front\nparts:\n  caliper: fitted caliper\n  bracket: fitted bracket", ""))
		var all []string
		for _, s := range At(b, 0, trial.Today).Snags {
			all = append(all, s.ID+": "+s.Words+", "+s.System+", "+s.Stage+", "+s.Severity.String()+", "+strings.TrimPrefix(s.Span.Text(), "fitted"))
		}
		return strings.Join(all, "\n")
	}
	got := said("2026-04-01 a.md", "2026-04-01 b.md")
	trial.WantEqual(t, "the other way round", said("2026-04-01 b.md", "2026-04-01 a.md"), got)
	if !strings.Contains(got, "wheel-retorque not done since bracket was fitted") {
		t.Errorf("not of the first id:\n%s", got)
	}
}

// What two works ask for can be done once the later of both distances is driven.
func TestNotBeforeTheLater(t *testing.T) {
	fitted := func(date, at, part string) string {
		return trial.Session(date, "odometer: "+at+"\nparts:\n  "+part+": fitted x; system wheels; free", "")
	}
	for at, want := range map[string]string{"1139 km": "not before 1140 km, doable false", "1140 km": "not before 1140 km, doable true"} {
		b := trial.Compile(t, fitted("2026-04-01.md", "1000 km", "tyre")+fitted("2026-04-02.md", "1100 km", "hub")+trial.Session("2026-04-03.md", "odometer: "+at, ""))
		s := At(b, 0, trial.Today).Snags[0]
		trial.WantEqual(t, at, fmt.Sprintf("not before %s, doable %v", s.NotBefore, s.Doable), want)
	}
}

// A check at an odometer that the work is beyond says so; at that of the work nothing was driven.
func TestChecksTooEarly(t *testing.T) {
	for at, want := range map[string]string{"999 km": "less than the 1000 km", "1000 km": "before 40 km were driven", "1039 km": "before 40 km were driven", "1040 km": ""} {
		b := trial.Compile(t, trial.Session("2026-04-01.md", "odometer: 1000 km\nparts:\n  tyre: fitted x; system wheels; free", "")+trial.Session("2026-04-02.md", "checks:\n  wheel-retorque: done; at "+at, ""))
		said := ""
		for _, f := range At(b, 0, trial.Today).ChecksToTell {
			said += f.Why
		}
		if want == "" && said != "" || !strings.Contains(said, want) {
			t.Errorf("at %s: %q", at, said)
		}
	}
}

// A check that failed and then passed is due anew after later work, and not as one that failed.
func TestDueAnewAfterItFailed(t *testing.T) {
	fitted := "parts:\n  %s: fitted x; system brakes; free"
	b := trial.Compile(t, trial.Session("2026-04-01.md", fmt.Sprintf(fitted, "hose"), "")+trial.Session("2026-04-02.md", "checks:\n  brake-test: failed pulls left", "")+
		trial.Session("2026-04-03.md", "checks:\n  brake-test: passed even", "")+trial.Session("2026-04-04.md", fmt.Sprintf(fitted, "pads"), ""))
	for _, s := range At(b, 0, trial.Today).Snags {
		if s.ID == "brake-test" && (!s.Open || s.Source != fact.FromDue || s.Failed != 0 || !strings.Contains(s.Words, "not done since pads")) {
			t.Errorf("open %v, failed %v, %s", s.Open, s.Failed, s.Words)
		}
	}
}

// What a reading outside its limits is worth holds until another is said; a code that a
// scan lists twice is told once.
func TestSaidOnceHolds(t *testing.T) {
	b := trial.Compile(t, trial.Session("2026-04-01.md", "readings:\n  pad: 1.4 mm; min 1.5 mm; dangerous", "```scan abs\nC0035 left\nC0035 left, stored\n```\n")+trial.Session("2026-04-02.md", "readings:\n  pad: 1.3 mm", ""))
	told := map[string]string{}
	for _, s := range At(b, 0, trial.Today).Snags {
		told[s.ID] = fmt.Sprint(s.Severity, " ", len(s.Events))
	}
	trial.WantEqual(t, "reading", told["reading-pad"], "dangerous 2")
	trial.WantEqual(t, "code", told["scan-abs-C0035"], "major 1")
}
