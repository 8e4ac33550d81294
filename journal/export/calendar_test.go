package export

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os/exec"
	"regexp"
	"slices"
	"strings"
	"testing"

	"guidecoat/journal/state"
	"guidecoat/journal/trial"
	"guidecoat/journal/view"
)

const datedBuild = `-- build.md --
---
build: Halden, "Fjord"; estate
currency: GBP
papers:
  insurance: laid up only; until 2026-07-16; warn 21d; road no
  road tax: until 2026-12-31
---
-- 2026-06-01.md --
---
stage: body
papers:
  insurance: until 2027-06-01; road yes
  secret permit: until 2026-08-01; private
parts:
  wing: ordered wing, "left"; from Tidewell; due 2026-06-20
  lamp: fitted lamp; warranty 2028-05-30
  seal: ordered seal; due 2026-06-21
  horn: needed horn; warranty 2027-01-01
cost: 120 caliper; for lamp; surcharge 40; due 2026-06-30
---
- [ ] job wing-fit: fit the wing, then tell Dag: yes; due 2026-07-01
- [ ] job done-a: x; due 2026-07-02
- [x] done-a: done
- [ ] öl nachfüllen und danach noch einmal sehen, ob es überall dicht ist und bleibt; due 2026-07-03
- [ ] wipe it
-- 2026-06-10.md --
---
parts:
  seal: arrived
---
- [ ] wing-fit: put off; due 2026-07-08
`

func calendarOf(t *testing.T, archive, asOf string) string {
	t.Helper()
	b := trial.Compile(t, archive)
	day := trial.Day("2026-06-15")
	if asOf != "" {
		day = trial.Day(asOf)
	}
	var out bytes.Buffer
	if err := WriteCalendar(&out, view.Of(state.At(b, day, day), view.ForWorkshop)); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// parseCalendar reads a calendar by Debian's python3-icalendar, a program that shares
// nothing with ours, and shows each entry as "uid day..end noted |summary| alarm".
func parseCalendar(t *testing.T, text string) []string {
	t.Helper()
	const python = "/usr/bin/python3" // Debian's own, which has Debian's modules
	if exec.Command(python, "-c", "import icalendar").Run() != nil {
		t.Skip("no second parser of calendars is here: install Debian's python3-icalendar")
	}
	cmd := exec.Command(python, "-c", `
import sys, json, icalendar
c = icalendar.Calendar.from_ical(sys.stdin.buffer.read())
assert c['VERSION'] == '2.0' and c['PRODID'], c
out = []
for e in c.walk('VEVENT'):
    assert not e.errors, e.errors
    alarms = [str(a['TRIGGER'].dt) for a in e.walk('VALARM')]
    out.append([e['UID'], str(e['DTSTART'].dt), str(e['DTEND'].dt), e['DTSTAMP'].dt.isoformat(), e['SUMMARY'], ' '.join(alarms)])
json.dump(out, sys.stdout)`)
	cmd.Stdin = strings.NewReader(text)
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s\n%s", err, out, text)
	}
	var events [][]string
	if err := json.Unmarshal(out, &events); err != nil {
		t.Fatal(err)
	}
	var list []string
	for _, e := range events {
		list = append(list, strings.TrimSpace(fmt.Sprintf("%s %s..%s %s |%s| %s", e[0], e[1], e[2], e[3][:10], e[4], e[5])))
	}
	return list
}

func TestCalendar(t *testing.T) {
	text := calendarOf(t, datedBuild, "")
	trial.WantList(t, "the entries", parseCalendar(t, text), []string{
		`part-wing@halden-fjord-estate.guidecoat 2026-06-20..2026-06-21 2026-06-01 |Halden, "Fjord"; estate: wing, "left" should arrive, from Tidewell|`,
		`snag-lamp-surcharge@halden-fjord-estate.guidecoat 2026-06-30..2026-07-01 2026-06-01 |Halden, "Fjord"; estate: lamp-surcharge: surcharge of £40.00 on lamp, to come back for the old part|`,
		`snag-l-nachf-llen-und-danach-noch-einmal-sehe@halden-fjord-estate.guidecoat 2026-07-03..2026-07-04 2026-06-01 |Halden, "Fjord"; estate: öl nachfüllen und danach noch einmal sehen, ob es überall dicht ist und bleibt|`,
		`snag-wing-fit@halden-fjord-estate.guidecoat 2026-07-08..2026-07-09 2026-06-10 |Halden, "Fjord"; estate: wing-fit: fit the wing, then tell Dag: yes|`,
		`paper-secret-permit@halden-fjord-estate.guidecoat 2026-08-01..2026-08-02 2026-06-01 |Halden, "Fjord"; estate: secret permit runs out| -14 days, 0:00:00`,
		`paper-road-tax@halden-fjord-estate.guidecoat 2026-12-31..2027-01-01 2026-06-01 |Halden, "Fjord"; estate: road tax runs out| -14 days, 0:00:00`,
		`paper-insurance@halden-fjord-estate.guidecoat 2027-06-01..2027-06-02 2026-06-01 |Halden, "Fjord"; estate: insurance runs out| -14 days, 0:00:00`,
		`warranty-lamp@halden-fjord-estate.guidecoat 2028-05-30..2028-05-31 2026-06-01 |Halden, "Fjord"; estate: the warranty of lamp ends|`,
	})
	// RFC 5545, 3.1: lines end by CRLF and are no longer than 75 octets.
	for line := range strings.SplitSeq(strings.TrimSuffix(text, "\r\n"), "\r\n") {
		if len(line) > 75 || strings.ContainsAny(line, "\r\n") {
			t.Errorf("a line of %d octets: %q", len(line), line)
		}
	}
}

// What is put off keeps its UID and gets a later DTSTAMP, so a second import changes it.
func TestCalendarIsStable(t *testing.T) {
	entry := func(text, id string) string {
		return regexp.MustCompile(`UID:` + id + `@[\s\S]*?END:VEVENT`).FindString(text)
	}
	before, after := calendarOf(t, datedBuild, "2026-06-02"), calendarOf(t, datedBuild, "2026-06-15")
	for id, days := range map[string][2]string{"snag-wing-fit": {"20260701", "20260708"}, "part-wing": {"20260620", "20260620"}} {
		b, a := entry(before, id), entry(after, id)
		if !strings.Contains(b, "DTSTART;VALUE=DATE:"+days[0]) || !strings.Contains(a, "DTSTART;VALUE=DATE:"+days[1]) {
			t.Errorf("%s: %q then %q", id, b, a)
		}
	}
	if !strings.Contains(before, "part-seal@") || strings.Contains(after, "part-seal@") {
		t.Error("what has arrived is still to arrive")
	}
	uids := regexp.MustCompile(`UID:\S+`).FindAllString(after, -1)
	slices.Sort(uids)
	if len(slices.Compact(slices.Clone(uids))) != len(uids) {
		t.Errorf("two entries of one UID: %q", uids)
	}
}

// When it is likely ready is an entry of its own, which moves as the work goes on.
func TestCalendarTellsWhenItIsReady(t *testing.T) {
	archive := trial.Card("pace: 7h a week\nstages:\n  body: hours 2 4 6") + trial.Session("2026-06-01.md", "stage: body\ntime: 1h", "")
	for day, want := range map[string]string{"2026-06-01": "20260604", "2026-06-10": "20260613"} {
		entry := regexp.MustCompile(`UID:ready@[\s\S]*?END:VEVENT`).FindString(calendarOf(t, archive, day))
		if !strings.Contains(entry, "DTSTART;VALUE=DATE:"+want) || !strings.Contains(entry, "likely ready\\, between") {
			t.Errorf("%s: %q", day, entry)
		}
	}
}
