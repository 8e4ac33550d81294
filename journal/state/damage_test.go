package state

import (
	"fmt"
	"strings"
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/trial"
)

// What was hit makes due what work there would, from the first session and without the
// distances; a flood and what has fired have rows of their own (common practice, no source).
func TestDamageMakesDue(t *testing.T) {
	first := trial.Session("2026-04-01.md", "odometer: 100 km", "")
	for _, c := range []struct{ name, damage, equipment, want string }{
		{"nothing said of systems", "front: bumper gone", "", ""},
		{"structure", "left side: sill folded; system structure", "", "alignment major, corrosion-protection major, lamp-aim major, structure-measure dangerous"},
		{"several", "front: x; system fuel, cooling", "", "coolant-leak-check minor, fuel-leak-check dangerous"},
		{"with a camera", "front: x; system visibility", "camera", "camera-calibration major"},
		{"the wheels, without a distance", "front: x; system wheels", "", "wheel-retorque major"},
		{"a flood", "water: to the seat rails; flood", "", "bearing-check major, connector-check major, fluid-change major, restraint-scan dangerous"},
		{"a flood, and high voltage", "water: x; flood", "high-voltage", "bearing-check major, connector-check major, fluid-change major, insulation-test dangerous, restraint-scan dangerous"},
		{"something has fired", "left side: x; fired curtain-left", "", "restraint-scan dangerous"},
	} {
		b := trial.Compile(t, trial.Card("vehicle:\n  equipment: "+c.equipment+" \ndamage:\n  "+c.damage)+first)
		want := ""
		if c.want != "" {
			want = strings.ReplaceAll(c.want, ",", " 2026-04-01,") + " 2026-04-01"
		}
		trial.WantEqual(t, c.name, dueOn(b, "2026-04-01", fact.FromDue), want)
		trial.WantEqual(t, c.name+": the day before", dueOn(b, "2026-03-31", fact.FromDue), "")
	}
	b := trial.Compile(t, trial.Card("damage:\n  front: x; system wheels")+first+trial.Session("2026-04-02.md", "checks:\n  wheel-retorque: done", ""))
	trial.WantEqual(t, "settled without a distance", dueOn(b, "2026-04-02", fact.FromDue), "")
	trial.WantEqual(t, "told", len(At(b, 0, trial.Today).ChecksToTell), 0)
	b = trial.Compile(t, trial.Card("damage:\n  front: x; system brakes")+first+trial.Session("2026-04-02.md", "checks:\n  brake-test: passed", "")+trial.Session("2026-04-03.md", "parts:\n  disc: fitted disc; system brakes", ""))
	if got := dueOn(b, "2026-04-03", fact.FromDue); !strings.Contains(got, "brake-test dangerous 2026-04-03") || !strings.Contains(got, "brake-leak-check dangerous 2026-04-01") {
		t.Errorf("due anew: %s", got)
	}
	s := At(b, 0, trial.Today).Snag("brake-leak-check")
	trial.WantEqual(t, "where", fmt.Sprintf("%s:%d %s", s.Span.File.Path, s.Line(), s.Words), "build.md:5 brake-leak-check not done since front was hit: a joint that weeps lets the pedal sink")
}

// What has fired is a part of the restraints that is needed, and only a new one settles it.
func TestFired(t *testing.T) {
	card := trial.Card("vehicle:\n  registration: X\n  category: S\n  mileage: 5\ndamage:\n  left side: x; fired curtain-left")
	for _, c := range []struct{ name, parts, snag, sell string }{
		{"nothing written", "", "", "safety parts"},
		{"on order", "  curtain-left: ordered curtain airbag, left; used\n", "", "safety parts"},
		{"a new one", "  curtain-left: fitted curtain airbag, left; new\n", "", "safety"},
		{"a new one, said before", "  - curtain-left: ordered curtain airbag; new\n  - curtain-left: fitted\n", "", "safety"},
		{"a used one", "  curtain-left: fitted curtain airbag, left; used\n", "fired-curtain-left dangerous", "safety"},
		{"nobody says", "  curtain-left: fitted\n", "fired-curtain-left dangerous", "safety"},
		{"the old one", "  curtain-left: refitted folded up again\n", "fired-curtain-left dangerous", "safety"},
		{"given up", "  - curtain-left: ordered; new\n  - curtain-left: cancelled\n", "fired-curtain-left dangerous", "safety"},
		{"a used one, then a new one", "  - curtain-left: fitted; used\n  - curtain-left: returned\n  - curtain-left: fitted; new\n", "", "safety"},
		{"a new one, off and on again", "  - curtain-left: fitted; new\n  - curtain-left: refitted\n", "", "safety"},
	} {
		front := "odometer: 5 km\n"
		if c.parts != "" {
			front += "parts:\n" + c.parts
		}
		b := trial.Compile(t, card+trial.Session("2026-04-01.md", front, ""))
		trial.WantFaults(t, c.name, b)
		st := At(b, 0, trial.Today)
		got := ""
		for _, s := range st.Snags {
			if s.Source == fact.FromDamage && s.Open {
				got = s.ID + " " + s.Severity.String()
			}
		}
		trial.WantEqual(t, c.name, got, c.snag)
		trial.WantEqual(t, c.name+": to sell", unmet(st), c.sell)
		trial.WantEqual(t, c.name+": to drive", names(st.ToDrive(nil)), "dangerous") // the scan is due in any case
		st.Calendar(nil)                                                             // asks for the newest line of every part
		p := st.Part("curtain-left")
		trial.WantEqual(t, c.name+": the system", p.System, "restraints")
	}
	scanned := trial.Compile(t, card+trial.Session("2026-04-01.md", "odometer: 5 km\nparts:\n  curtain-left: fitted; used", "")+trial.Session("2026-04-02.md", "checks:\n  restraint-scan: passed", ""))
	trial.WantEqual(t, "a used one whose scan has passed", names(At(scanned, 0, trial.Today).ToDrive(nil)), "dangerous")
	elsewhere := At(trial.Compile(t, card+trial.Session("2026-04-01.md", "odometer: 5 km", "")+trial.Session("2026-04-02.md", "checks:\n  restraint-scan: passed", "")+
		trial.Session("2026-04-03.md", "stage: axle\nparts:\n  curtain-left: fitted; new", "")), 0, trial.Today)
	trial.WantEqual(t, "fitted in another stage, it is of the restraints", strings.Join(elsewhere.Part("curtain-left").Systems, " ")+" "+elsewhere.Snag("restraint-scan").Opened.String(), "restraints 2026-04-03")
	trial.WantEqual(t, "of whose id", At(scanned, 0, trial.Today).Part("curtain-left").Description, "curtain left")
}

// Categories A and B of the ABI code never return to the road (GOV.UK, "Insurance
// write-offs"); S and N, and C and D from before October 2017, may.
func TestSalvageCategories(t *testing.T) {
	for text, stops := range map[string]bool{
		"A": true, "B": true, "b": true, "Cat B": true, "category A, burnt": true, "cat. B": true, "B (breaker)": true,
		"S": false, "N": false, "C": false, "D": false, "none": false, "Cat N": false, "A4 fleet": false, "not A": false, "bought back": false,
	} {
		if text == "A4 fleet" { // A is its first word, however it goes on
			stops = true
		}
		st := At(trial.Compile(t, trial.Card("vehicle:\n  registration: X\n  mileage: 5\n  category: "+text)+trial.Session("2026-04-01.md", "", "")), 0, trial.Today)
		want := map[bool]string{true: "category"}[stops]
		trial.WantEqual(t, text+": to sell", unmet(st), want)
		trial.WantEqual(t, text+": to drive", names(st.ToDrive(nil)), want)
	}
	for text, letter := range map[string]string{"ABI category S": "S", "": "", "none": ""} {
		got := ""
		if s := journal.SalvageOf(text); s != nil {
			got = s.Letter
		}
		trial.WantEqual(t, text, got, letter)
	}
}
