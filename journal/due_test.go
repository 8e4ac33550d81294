package journal

import (
	"fmt"
	"strings"
	"testing"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"
)

// The retorque rule lies within what is published: 40 to 80 km (25 to 50 miles) in
// BS AU 50 Part 2 Section 7a:1995, and 50 km (30 miles) in tyre makers' advice.
func TestPublishedRetorqueDistance(t *testing.T) {
	for _, r := range BuiltInDueRules() {
		if r.Name != "wheel-retorque" {
			continue
		}
		for _, bound := range []struct {
			text string
			sign int
		}{{"40 km", 1}, {"25 mi", 1}, {"80 km", -1}, {"50 mi", -1}} {
			q, _ := measure.ParseDistance(bound.text)
			wantEqual(t, "retorque against "+bound.text, r.Distance.Compare(q), bound.sign)
			wantEqual(t, "retorque in miles against "+bound.text, r.Miles.Compare(q), bound.sign)
		}
	}
}

// The built-in 50 km, to the metre; 30 miles where the odometer at the work reads miles.
func TestRetorqueToTheMetre(t *testing.T) {
	for _, c := range []struct{ work, at, want string }{
		{"50000 km", "50049.9 km", "open"}, {"50000 km", "50050 km", "cleared"}, {"50000 km", "50050.1 km", "cleared"},
		{"50000 km", "31099.6 mi", "open"}, {"50000 km", "31099.7 mi", "cleared"}, // 50050 km are 31099.63 mi
		{"50000 mi", "50029.9 mi", "open"}, {"50000 mi", "50030 mi", "cleared"},
		{"50000 mi", "80515.4 km", "open"}, {"50000 mi", "80515.5 km", "cleared"}, // 50030 mi are 80515.48 km
	} {
		b := compile(t, session("2026-04-01.md", "odometer: "+c.work+"\nparts:\n  tyre: fitted tyre; system wheels", "")+session("2026-04-02.md", "checks:\n  wheel-retorque: done; at "+c.at, ""))
		s := b.At(0, today).Snags[0]
		wantEqual(t, c.at, map[bool]string{true: "open", false: "cleared"}[s.Open], c.want)
		wantEqual(t, c.at+" warns", hasFault(b, SettlesNothing), c.want == "open")
	}
}

// Every item says which line caused it and which settled it.
func TestDueItemsNameTheirLines(t *testing.T) {
	b := compile(t, session("2026-04-01.md", "odometer: 100 km\nparts:\n  pad: fitted pads; system brakes", "")+
		session("2026-04-05.md", "checks:\n  brake-test: failed left pulls\n  - brake-test: passed", "")+
		session("2026-04-06.md", "checks:\n  brake-test: passed on the rollers", ""))
	for _, s := range b.At(0, today).Snags {
		if s.ID != "brake-test" {
			continue
		}
		var said []string
		for _, e := range s.Events {
			said = append(said, fmt.Sprintf("%s %s:%d %s", e.What, e.Span.File.Path, e.Span.Begin().Line, e.Words))
		}
		wantEqual(t, "events", strings.Join(said, ", "), "opened 2026-04-01.md:4 due since pad was fitted, remarked 2026-04-05.md:3 failed: left pulls, cleared 2026-04-06.md:3 passed: on the rollers")
	}
}

// An odometer that is missing or went back is said plainly, and the check stays due.
func TestDistanceThatCannotBeTold(t *testing.T) {
	for _, c := range []struct{ name, work, check, why string }{
		{"none at the work", "", "; at 200 km", "no odometer is noted for the work on tyre"},
		{"none at the check", "odometer: 100 km\n", "", ""}, // the work's own reading carries no distance
		{"went back", "odometer: 100 km\n", "; at 40 km", "it was done at 40 km, which is less than the 100 km of the work on tyre"},
		{"too soon", "odometer: 100 km\n", "; at 149 km", "it was done before 50 km were driven since the work on tyre at 100 km"},
	} {
		b := compile(t, session("2026-04-01.md", c.work+"parts:\n  tyre: fitted tyre; system wheels", "")+session("2026-04-02.md", "checks:\n  wheel-retorque: done"+c.check, ""))
		s := b.At(0, today).Snags[0]
		if !s.Open {
			t.Errorf("%s: settled", c.name)
		}
		wantEqual(t, c.name+" says that no odometer is noted", strings.Contains(s.Words, "no odometer is noted"), c.work == "")
		for _, f := range b.Faults {
			if f.Flaw == SettlesNothing && c.why != "" {
				wantEqual(t, c.name, f.Why, c.why)
			}
		}
		wantEqual(t, c.name+" warns", hasFault(b, SettlesNothing), true)
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
		b := compile(t, card(rule)+session("2026-04-01.md", c.odometer+"parts:\n  tyre: fitted tyre; system wheels", "")+session("2026-04-02.md", c.check, ""))
		st := b.At(0, today)
		wantEqual(t, c.name, names(st.ToDrive(nil)), c.want)
		if c.name != "it was done" && !strings.Contains(unmet(st), "safety") {
			t.Errorf("%s: may be sold", c.name)
		}
	}
	for _, c := range []struct{ what, want string }{
		{"- [ ] job a-b: x; dangerous", "dangerous"}, {"- [ ] temporary a-b: x; dangerous", "dangerous"}, {"- [ ] temporary a-b: x", ""},
		{"```scan abs\nC0035\n```", ""},
	} {
		wantEqual(t, c.what, names(compile(t, session("2026-04-01.md", "", c.what)).At(0, today).ToDrive(nil)), c.want)
	}
	outside := compile(t, session("2026-04-01.md", "readings:\n  pad-left: 1.4 mm; min 1.5 mm; dangerous", ""))
	wantEqual(t, "a reading", names(outside.At(0, today).ToDrive(nil)), "dangerous")
}

// The severity words of Directive 2014/45/EU, Article 7(2), and wheel fixings as the
// GB inspection manual grades them (5.2.1): one loose or missing is major, more than
// one dangerous. A pad under 1.5 mm is dangerous there (1.1.13).
func TestPublishedSeverities(t *testing.T) {
	wantEqual(t, "words", strings.Join(note.Severities, " "), "minor major dangerous")
	b := compile(t, session("2026-04-01.md", "readings:\n  pad-left: 1.5 mm; min 1.5 mm; dangerous\n  pad-right: 1.4 mm; min 1.5 mm; dangerous",
		"- [ ] nut-one: one wheel nut missing; system wheels\n- [ ] nuts-two: two wheel nuts missing; dangerous; system wheels\n"))
	got := map[string]string{}
	for _, s := range b.At(0, today).Snags {
		got[s.ID] = s.Severity.String()
	}
	for id, want := range map[string]string{"nut-one": "major", "nuts-two": "dangerous", "reading-pad-left": "", "reading-pad-right": "dangerous"} {
		wantEqual(t, id, got[id], want)
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
		list := compile(t, session("2026-04-01.md", "readings:\n  thing: "+line, "")).At(0, today).Snags
		wantEqual(t, line, len(list) == 1, open)
	}
}

// Near a limit is within a tenth of it, or of the band between two.
func TestNearLimit(t *testing.T) {
	for line, want := range map[string]string{
		"8.8 mm; min 8 mm": "near the least of 8 mm", "8.81 mm; min 8 mm": "", "8 mm; min 8 mm": "near the least of 8 mm", "7.9 mm; min 8 mm": "",
		"27 %; max 30 %": "near the most of 30 %", "26.9 %; max 30 %": "", "0.34 in; min 8 mm": "near the least of 8 mm",
		"110 Nm; spec 110 Nm ±5%": "", "105.6 Nm; spec 110 Nm ±5%": "near the least of 104.50 N·m", "105.7 Nm; spec 110 Nm ±5%": "",
		"1 mm": "", "0 mm; max 0 mm": "near the most of 0 mm", "5 mm; within 5..5 mm": "", "-1.1 deg; within -2..-1 deg": "near the most of -1°",
	} {
		b := compile(t, session("2026-04-01.md", "readings:\n  thing: "+line, ""))
		wantFaults(t, line, b)
		for _, r := range b.At(0, today).Newest() {
			wantEqual(t, line, Near(r.Value, r.Limits), want)
		}
	}
}

// Limits carry forward, and a later one may not contradict what still holds.
func TestLimitsThatContradict(t *testing.T) {
	b := compile(t, session("2026-04-01.md", "readings:\n  disc: 9 mm; max 10 mm", "")+session("2026-04-02.md", "readings:\n  disc: 9 mm; min 11 mm", "")+
		session("2026-04-03.md", "readings:\n  disc: 10.1 mm", "")+session("2026-04-04.md", "readings:\n  disc: 10.1 mm; within 8..12 mm", ""))
	wantFaults(t, "contradiction", b, "limits-clash 2026-04-02.md:3:15 |min 11 mm|")
	for date, open := range map[string]bool{"2026-04-02": false, "2026-04-03": true, "2026-04-04": false} {
		list := b.At(day(date), today).Snags
		wantEqual(t, date, len(list) == 1 && list[0].Open, open)
	}
}

// Of two parts that were fitted on one day, which the check due comes from does not
// hang on the names of files.
func TestDueOfOneDay(t *testing.T) {
	said := func(one, other string) string {
		b := compile(t, card("stages:\n  - front: system brakes\n  - rear: system suspension")+
			session(one, "stage: rear\nparts:\n  spring: fitted spring", "")+session(other, "stage: front\nparts:\n  caliper: fitted caliper\n  bracket: fitted bracket", ""))
		var all []string
		for _, s := range b.At(0, today).Snags {
			all = append(all, s.ID+": "+s.Words+", "+s.System+", "+s.Stage+", "+s.Severity.String()+", "+strings.TrimPrefix(s.Span.Text(), "fitted"))
		}
		return strings.Join(all, "\n")
	}
	got := said("2026-04-01 a.md", "2026-04-01 b.md")
	wantEqual(t, "the other way round", said("2026-04-01 b.md", "2026-04-01 a.md"), got)
	if !strings.Contains(got, "wheel-retorque, due since bracket was fitted") {
		t.Errorf("not of the first id:\n%s", got)
	}
}
