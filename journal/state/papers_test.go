package state

import (
	"fmt"
	"strings"
	"testing"

	"guidecoat/journal/fact"
	"guidecoat/journal/trial"
)

func TestPapers(t *testing.T) {
	for _, c := range []struct{ name, card, session, today, snags, stops string }{
		{"none", "", "", "2026-07-01", "", ""},
		{"far away", "insurance: until 2026-07-16; road yes", "", "2026-07-01", "", ""},
		{"within the days of warning, from the first on", "insurance: cover note; until 2026-07-16; road yes", "", "2026-07-02", "paper-insurance minor 2026-07-02 due 2026-07-16 |insurance runs out: cover note|", ""},
		{"warned earlier", "insurance: until 2026-07-16; warn 3 weeks", "", "2026-06-25", "paper-insurance minor 2026-06-25 due 2026-07-16 |insurance runs out|", ""},
		{"not warned so early", "insurance: until 2026-07-16; warn 21d", "", "2026-06-24", "", ""},
		{"on its last day it still holds", "insurance: until 2026-07-16; road yes", "", "2026-07-16", "paper-insurance minor 2026-07-02 due 2026-07-16 |insurance runs out|", ""},
		{"a day later it does not", "insurance: until 2026-07-16; road yes", "", "2026-07-17", "paper-insurance minor 2026-07-02 due 2026-07-16 |insurance has run out| overdue", "insurance ran out on 2026-07-16"},
		{"what forbids to drive", "insurance: laid up only; until 2027-01-01; road no", "", "2026-07-01", "", "insurance does not allow driving"},
		{"what says nothing of the road stops nothing", "storage permit: until 2026-06-01", "", "2026-07-01", "paper-storage-permit minor 2026-05-18 due 2026-06-01 |storage permit has run out| overdue", ""},
		{"a session's line takes the place of the card's", "insurance: until 2026-01-01; road no", "Insurance: until 2027-01-01; road yes", "2026-07-01", "", ""},
		{"and not before its day", "insurance: until 2026-06-20; road no", "insurance: until 2027-01-01; road yes", "2026-05-20", "", "insurance does not allow driving"},
		{"two that are wrong", "insurance: until 2027-01-01; road no\n  tax: until 2026-06-01; road yes; warn 0d", "", "2026-07-01", "paper-tax minor 2026-06-01 due 2026-06-01 |tax has run out| overdue", "insurance does not allow driving, tax ran out on 2026-06-01"},
	} {
		card := "vehicle:\n  vin: x\n  category: none\n  odometer: 5 km"
		if c.card != "" {
			card += "\npapers:\n  " + c.card
		}
		front := "stage: all"
		if c.session != "" {
			front += "\npapers:\n  " + c.session
		}
		day := trial.Day(c.today)
		b := trial.Compile(t, trial.Card(card)+trial.Session("2026-04-01.md", "stage: all", "")+trial.Session("2026-06-01.md", front, ""))
		st := At(b, day, 0)
		trial.WantFaults(t, c.name, b)
		var snags, stops []string
		for _, s := range st.Snags {
			line := fmt.Sprintf("%s %s %s due %s |%s|", s.ID, s.Severity, s.Opened, s.Due, s.Words)
			if s.Overdue {
				line += " overdue"
			}
			if s.Source != fact.FromPaper || !s.Open {
				t.Errorf("%s: %s is of %s", c.name, s.ID, s.Source)
			}
			snags = append(snags, line)
		}
		for _, r := range st.ToDrive(nil) {
			for _, s := range r.Stops {
				stops = append(stops, s.Text)
				trial.WantEqual(t, c.name, r.Name, "papers")
			}
		}
		trial.WantEqual(t, c.name+": outstanding", strings.Join(snags, ", "), c.snags)
		trial.WantEqual(t, c.name+": in the way of driving", strings.Join(stops, ", "), c.stops)
		for _, r := range st.ToSell(nil) {
			if !r.Met() {
				t.Errorf("%s stops the sale: %+v", c.name, r)
			}
		}
	}
}

func TestBadPapers(t *testing.T) {
	b := trial.Compile(t, trial.Card("papers:\n  tax: road yes\n  mot: until soon\n  a: until 2026-01-01; warn soon\n  b: until 2026-01-01; road maybe")+
		trial.Session("2026-06-01.md", "papers:\n  permit: for the yard\n  ok: until 2026-09-01", "- [x] paper-ok: renewed"))
	trial.WantFaults(t, "papers without a date", b, "no-until build.md:5:3 |tax|", "bad-date build.md:6:14 |soon|", "bad-number build.md:7:29 |soon|", "bad-yes-no build.md:8:29 |maybe|",
		"no-until 2026-06-01.md:3:3 |permit|", "unknown-snag 2026-06-01.md:6:7 |paper-ok|")
}

// The last day of an inspection is a paper that allows driving until then.
func TestInspectionIsAPaper(t *testing.T) {
	archive := trial.Card("") + trial.Session("2026-06-01.md", "inspection: passed; by Marl Test Station; until 2026-07-10", "") + trial.Session("2026-07-20.md", "inspection: passed; until 2027-07-10", "")
	for day, want := range map[string]string{"2026-06-20": "", "2026-07-10": "paper-inspection |inspection runs out|", "2026-07-11": "paper-inspection |inspection has run out| stops", "2026-07-20": ""} {
		st := At(trial.Compile(t, archive), trial.Day(day), 0)
		got := ""
		for _, s := range st.Snags {
			got = s.ID + " |" + s.Words + "|"
		}
		for _, r := range st.ToDrive(nil) {
			if !r.Met() {
				trial.WantEqual(t, day, r.Name, "papers")
				got += " stops"
			}
		}
		trial.WantEqual(t, day, got, want)
	}
}
