package state

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/trial"
)

// everything is a vehicle that turns every row of the table on.
const everything = "vehicle:\n  equipment: Camera, radar, stability  control, tyre sensors, high-voltage\n"

// What work on each system makes due, typed apart from the table: BS AU 50-2.7a:1995 for
// the re-torque after 40 to 80 km, UN R100 for the insulation test, the rest common
// practice, no source.
var dueAfter = map[string]string{
	"brakes":           "brake-leak-check dangerous, brake-test dangerous, wheel-retorque major",
	"steering":         "alignment major, camera-calibration major, radar-calibration major, steering-angle-reset major, steering-check dangerous, wheel-retorque major",
	"suspension":       "alignment major, camera-calibration major, radar-calibration major, wheel-retorque major",
	"wheels":           "tyre-sensor-relearn minor, wheel-retorque major",
	"restraints":       "restraint-scan dangerous",
	"structure":        "alignment major, camera-calibration major, corrosion-protection major, lamp-aim major, radar-calibration major, structure-measure dangerous",
	"high-voltage":     "insulation-test dangerous",
	"fuel":             "fuel-leak-check dangerous",
	"lighting":         "lamp-aim major",
	"visibility":       "camera-calibration major, radar-calibration major",
	"cooling":          "coolant-leak-check minor",
	"exhaust":          "fume-check major",
	"air-conditioning": "refrigerant-check minor",
	"engine":           "", "transmission": "", "electrical": "", "body": "", "paint": "", "interior": "",
}

// Of the rows that depend on what the vehicle has, what turns each on.
var dueWith = map[string]string{
	"camera-calibration": "camera", "radar-calibration": "radar", "steering-angle-reset": "stability control", "tyre-sensor-relearn": "tyre sensors",
}

// row splits "alignment major" into the name and the rest.
func row(t *testing.T, due string) (name, severity string) {
	name, severity, ok := strings.Cut(due, " ")
	if !ok {
		t.Fatalf("%q is no row", due)
	}
	return name, severity
}

// Every row: due, settled, not settled too early, due anew; and due only where the
// vehicle has what the row asks for.
func TestEveryRowOfTheTable(t *testing.T) {
	fit := func(day, odometer, system, state string) string {
		return trial.Session("2026-04-"+day+".md", "odometer: "+odometer+" km\nparts:\n  thing: "+state+" thing; system "+system, "")
	}
	check := func(day, odometer, name, result string) string {
		return trial.Session("2026-04-"+day+".md", "odometer: "+odometer+" km\nchecks:\n  "+name+": "+result, "")
	}
	seen := map[string]bool{}
	for _, system := range note.Systems {
		want, typed := dueAfter[system]
		if !typed {
			t.Errorf("nothing is typed for %s", system)
		}
		var rows []string
		for due := range strings.SplitSeq(want, ", ") {
			if due != "" {
				rows = append(rows, due+" 2026-04-01")
			}
		}
		for _, state := range []string{"needed", "ordered", "arrived", "fitted", "refitted", "returned", "cancelled", "sold"} {
			b := trial.Compile(t, trial.Card(everything)+fit("01", "100", system, state))
			expect := ""
			if strings.HasSuffix(state, "fitted") {
				expect = strings.Join(rows, ", ")
			}
			trial.WantEqual(t, system+" "+state, dueOn(b, "2026-04-01", fact.FromDue), expect)
		}
		for _, due := range rows {
			name, severity := row(t, strings.TrimSuffix(due, " 2026-04-01"))
			seen[name] = true
			on := func(date, what, archive, want string) {
				t.Helper()
				got := ""
				for one := range strings.SplitSeq(dueOn(trial.Compile(t, trial.Card(everything)+archive), date, fact.FromDue, fact.FromCheck), ", ") {
					if strings.HasPrefix(one, name+" ") {
						got = one
					}
				}
				trial.WantEqual(t, system+": "+name+" "+what, got, want)
			}
			work, open := fit("02", "100", system, "fitted"), name+" "+severity+" 2026-04-02"
			for _, result := range []string{"passed", "done"} {
				on("2026-04-03", result, work+check("03", "160", name, result), "")
				on("2026-04-03", result+" before the work", check("01", "60", name, result)+work, open)
			}
			on("2026-04-03", "failed", work+check("03", "160", name, "failed"), open)
			on("2026-04-04", "failed and done", work+check("03", "160", name, "failed")+check("04", "170", name, "done"), open)
			on("2026-04-04", "failed and passed", work+check("03", "160", name, "failed")+check("04", "170", name, "passed"), "")
			on("2026-04-04", "after more work", work+check("03", "160", name, "passed")+fit("04", "160", system, "refitted"), name+" "+severity+" 2026-04-04")
			if tooSoon := check("03", "139", name, "passed"); name == "wheel-retorque" {
				on("2026-04-03", "too soon", work+tooSoon, open)
				on("2026-04-04", "counted from the newest work", work+fit("03", "150", system, "refitted")+check("04", "160", name, "passed"), name+" "+severity+" 2026-04-03")
			} else {
				on("2026-04-03", "at once", work+tooSoon, "")
			}
			if with := dueWith[name]; with != "" {
				on("2026-04-02", "", work, open)
				for _, c := range []struct{ card, want string }{{"vehicle:\n  equipment: heated seats, " + with, open}, {"vehicle:\n  equipment: heated seats", ""}, {"vehicle:\n  make: Halden", ""}} {
					got := dueOn(trial.Compile(t, trial.Card(c.card)+work), "2026-04-02", fact.FromDue)
					trial.WantEqual(t, system+": "+name+" with "+c.card, strings.Contains(got, open), c.want != "")
				}
			}
		}
	}
	for _, r := range journal.BuiltInDueRules() {
		if !seen[r.Name] && !r.Before && !r.Flood {
			t.Errorf("nothing is typed for %s", r.Name)
		}
		if r.Because == "" || r.Source == "" || (r.Far != nil) != (r.Name == "wheel-retorque") || r.Before && r.Does == "" {
			t.Errorf("%s: because %q, source %q, does %q", r.Name, r.Because, r.Source, r.Does)
		}
	}
}

// What comes before the work, and when it is missing.
func TestBeforeTheWork(t *testing.T) {
	stages := "stages:\n  - traction: system high-voltage\n  - cabin: system restraints\n  - shell: system structure\n  - seats: system interior"
	for system, want := range map[string]string{"high-voltage": "hv-dead", "restraints": "restraint-wait", "structure": "weld-ready", "brakes": ""} {
		stage := map[string]string{"high-voltage": "traction", "restraints": "cabin", "structure": "shell", "brakes": "seats"}[system]
		part, time := "parts:\n  thing: fitted thing; system "+system+"\n", "stage: "+stage+"\ntime: 2h\n"
		ready := "checks:\n  " + want + ": done\n"
		if want == "" {
			ready = "checks:\n  hv-dead: done\n"
		}
		for _, c := range []struct {
			name, archive string
			missing       bool
			after         string
		}{
			{"a part", trial.Session("2026-04-02.md", part, ""), true, ""},
			{"time", trial.Session("2026-04-02.md", time, ""), true, ""},
			{"a part that asks for nothing", trial.Session("2026-04-02.md", strings.Replace(part, "; system", "; asks for nothing; system", 1), ""), false, ""},
			{"and time beside it", trial.Session("2026-04-02.md", time+strings.Replace(part, "; system", "; asks for nothing; system", 1), ""), false, ""},
			{"a part that asks for something", trial.Session("2026-04-02.md", strings.Replace(part, "; system", "; asks for tow-test; system", 1), ""), true, ""},
			{"only ordered", trial.Session("2026-04-02.md", strings.Replace(part, "fitted", "ordered", 1), ""), false, ""},
			{"in the same note", trial.Session("2026-04-02.md", part+ready, ""), false, ""},
			{"but failed", trial.Session("2026-04-02.md", part+strings.Replace(ready, "done", "failed", 1), ""), true, ""},
			{"earlier that day", trial.Session("2026-04-02 a.md", ready, "") + trial.Session("2026-04-02 b.md", part+time, ""), false, ""},
			{"later that day", trial.Session("2026-04-02 a.md", part, "") + trial.Session("2026-04-02 b.md", ready, ""), true, "2026-04-02 b.md"},
			{"the day before", trial.Session("2026-04-01.md", ready, "") + trial.Session("2026-04-02.md", part, ""), true, ""},
			{"the day after", trial.Session("2026-04-02.md", part, "") + trial.Session("2026-04-03.md", ready, ""), true, "2026-04-03.md"},
		} {
			b := trial.Compile(t, trial.Card(stages)+c.archive)
			trial.WantFaults(t, c.name, b)
			got := At(b, 0, trial.Today).Unprepared()
			trial.WantEqual(t, system+", "+c.name, len(got) > 0, c.missing && want != "")
			if len(got) > 0 {
				after := ""
				if got[0].After != nil {
					after = got[0].After.Session.Path
				}
				trial.WantEqual(t, system+", "+c.name, fmt.Sprint(got[0].Rule.Name, got[0].System, after), fmt.Sprint(want, system, c.after))
			}
		}
	}
}

// The systems of a part: its own; else its stage's and that of where it was fitted.
func TestSystemsOfAPart(t *testing.T) {
	stages := "stages:\n  - axle: system suspension\n  - loom: system electrical\n  - shell: system structure\n  - glass: system visibility"
	for _, c := range []struct{ name, first, then, want string }{
		{"its own", "stage: glass\nparts:\n  pillar: needed pillar; system lighting", "stage: shell\nparts:\n  pillar: fitted", "lighting"},
		{"its own, said later", "stage: glass\nparts:\n  pillar: needed pillar", "stage: shell\nparts:\n  pillar: fitted; system lighting", "lighting"},
		{"where it was fitted", "stage: loom\nparts:\n  pillar: needed pillar", "stage: shell\nparts:\n  pillar: fitted", "electrical structure"},
		{"the line's stage, which is the part's from then on", "stage: loom\nparts:\n  pillar: needed pillar", "stage: shell\nparts:\n  pillar: fitted; stage axle", "suspension"},
		{"the part's stage", "stage: glass\nparts:\n  pillar: needed pillar; stage shell", "stage: axle\nparts:\n  pillar: refitted", "structure suspension"},
		{"the same twice", "stage: shell\nparts:\n  pillar: needed pillar", "stage: shell\nparts:\n  pillar: fitted", "structure"},
		{"only ordered there", "stage: glass\nparts:\n  pillar: needed pillar", "stage: shell\nparts:\n  pillar: ordered", "visibility"},
		{"no stage of its own", "parts:\n  pillar: needed pillar", "stage: shell\nparts:\n  pillar: fitted", "structure"},
	} {
		st := At(trial.Compile(t, trial.Card(stages)+trial.Session("2026-04-01.md", c.first, "")+trial.Session("2026-04-02.md", c.then, "")), 0, trial.Today)
		trial.WantEqual(t, c.name, strings.Join(st.Parts[0].Systems, " "), c.want)
		trial.WantEqual(t, c.name+": the first", st.Parts[0].System, strings.Fields(c.want)[0])
		var due []string
		for _, s := range st.Snags {
			due = append(due, s.ID)
		}
		want := map[string]bool{}
		if !strings.Contains(c.then, "ordered") {
			for _, system := range strings.Fields(c.want) {
				for _, r := range journal.BuiltInDueRules() {
					if slices.Contains(r.Systems, system) && r.Equipment == "" && !r.Before {
						want[r.Name] = true
					}
				}
			}
		}
		trial.WantEqual(t, c.name+": due "+strings.Join(due, " "), len(due), len(want))
	}
}

// `asks for`: nothing, or exactly these, on parts and on items; and what an item makes
// due that names a safety system itself.
func TestAsksFor(t *testing.T) {
	card := trial.Card("stages:\n  - hubs: system brakes")
	for _, c := range []struct{ name, front, body, want string }{
		{"nothing", "parts:\n  sensor: fitted pad sensor; system brakes; asks for nothing", "", ""},
		{"said when it was needed", "parts:\n  - sensor: needed pad sensor; system brakes; asks for nothing\n  - sensor: fitted", "", ""},
		{"of the fitting alone", "parts:\n  - sensor: fitted pad sensor; system brakes; asks for nothing\n  - sensor: refitted", "", "brake-leak-check dangerous, brake-test dangerous, wheel-retorque major"},
		{"one of the table", "parts:\n  sensor: fitted pad sensor; system brakes; asks for brake-test", "", "brake-test dangerous"},
		{"several, in the table or not", "parts:\n  sensor: fitted pad sensor; asks for alignment, tow-test", "", "alignment major, tow-test major"},
		{"a ticked job", "", "- [x] job brake-pipe: new pipe made; system brakes", "brake-leak-check dangerous, brake-test dangerous, wheel-retorque major"},
		{"cleared later in the note", "", "- [ ] temporary brake-pipe: plugged; system brakes\n- [x] brake-pipe: new pipe made", "brake-leak-check dangerous, brake-test dangerous, wheel-retorque major"},
		{"in plain words", "", "- [x] new pipe made; system brakes", "brake-leak-check dangerous, brake-test dangerous, wheel-retorque major"},
		{"still open", "", "- [ ] job brake-pipe: rusty; system brakes", ""},
		{"the stage's system alone", "stage: hubs", "- [x] job brake-pipe: wiped", ""},
		{"no safety system", "", "- [x] job lamp-lens: polished; system lighting", ""},
		{"looked at only", "", "- [x] inspect brake-pipe: sound; system brakes\n- [x] decide brake-disc: leave; system brakes\n- [x] recheck brake-drum: dry; system brakes", ""},
		{"an item that asks for nothing", "", "- [x] job brake-pipe: wiped; system brakes; asks for nothing", ""},
		{"said when it was opened", "", "- [ ] job brake-pipe: wipe it; system brakes; asks for nothing\n- [x] brake-pipe: wiped", ""},
		{"an item that asks for one", "", "- [x] job lamp-lens: polished; asks for lamp-aim", "lamp-aim major"},
	} {
		b := trial.Compile(t, card+trial.Session("2026-04-01.md", c.front, c.body))
		trial.WantFaults(t, c.name, b)
		want := c.want
		if want != "" {
			want = strings.ReplaceAll(want, ",", " 2026-04-01,") + " 2026-04-01"
		}
		trial.WantEqual(t, c.name, dueOn(b, "2026-04-01", fact.FromDue), want)
	}
	for line, want := range map[string]string{
		"asks for Brake Test": "bad-id 2026-04-01.md:3:35 |Brake Test|", "asks for brake-test, nothing": "bad-id 2026-04-01.md:3:47 |nothing|", "asks for sensor": "id-taken 2026-04-01.md:3:35 |sensor|",
	} {
		b := trial.Compile(t, trial.Session("2026-04-01.md", "parts:\n  sensor: fitted sensor; "+line, ""))
		trial.WantFaults(t, line, b, want)
	}
}

// What an item says of a check that is due: when, how long, what it waits for.
func TestItemsOnChecks(t *testing.T) {
	fit := trial.Session("2026-04-01.md", "odometer: 100 km\nparts:\n  hose: fitted hose; system cooling\n  caliper: fitted caliper; system brakes", "")
	show := func(archive, id string) string {
		b := trial.Compile(t, archive)
		s := At(b, 0, trial.Today).Snag(id)
		if s == nil || !s.Open {
			return strings.TrimSpace("none " + strings.Join(trial.FaultsOf(b), " "))
		}
		due := s.Due.String()
		if s.DueAt != nil {
			due = s.DueAt.String()
		}
		return strings.TrimSpace(fmt.Sprintf("%s %d %s %v %v %v %s", s.Severity, int(s.Planned()), due, s.Disclose, s.WaitsFor, s.Doable, strings.Join(trial.FaultsOf(b), " ")))
	}
	on := func(words string) string { return trial.Session("2026-04-02.md", "", "- [ ] "+words) }
	trial.WantEqual(t, "nothing said", show(fit, "coolant-leak-check"), "minor 60  false [] true")
	trial.WantEqual(t, "all of it", show(fit+on("coolant-leak-check: cold morning; takes 20m; due 2026-04-09; disclose"), "coolant-leak-check"), "minor 20 2026-04-09 true [] true")
	trial.WantEqual(t, "before it is due", show(trial.Session("2026-03-31.md", "", "- [ ] coolant-leak-check: cold morning; takes 20m")+fit, "coolant-leak-check"), "minor 20  false [] true")
	trial.WantEqual(t, "what it waits for", show(fit+trial.Session("2026-04-02.md", "", "- [ ] job brake-pedal: stiff\n- [ ] brake-test: then; waits for brake-pedal"), "brake-test"), "dangerous 60  false [brake-pedal] false")
	trial.WantEqual(t, "a distance by which it is due", show(fit, "wheel-retorque"), "major 60 180 km false [] false")
	trial.WantEqual(t, "one of its own", show(fit+on("wheel-retorque: soon; due 2026-04-09"), "wheel-retorque"), "major 60 2026-04-09 false [] false")
	trial.WantEqual(t, "disclosed though it is dangerous", show(fit+on("brake-test: skipped; disclose"), "brake-test"), "dangerous 60  false [] true disclose-not-minor 2026-04-02.md:4:28 |disclose|")
	trial.WantEqual(t, "made harmless", show(fit+on("brake-test: fine; minor"), "brake-test"), "dangerous 60  false [] true unknown-clause 2026-04-02.md:4:25 |minor|")
	trial.WantEqual(t, "ticked", show(fit+trial.Session("2026-04-02.md", "", "- [x] brake-test: fine"), "brake-test"), "dangerous 60  false [] true unknown-snag 2026-04-02.md:4:7 |brake-test|")
	trial.WantEqual(t, "said to be opened", show(fit+on("job brake-test: fine"), "brake-test"), "dangerous 60  false [] true id-taken 2026-04-02.md:4:11 |brake-test|")
	done := trial.Session("2026-04-03.md", "checks:\n  coolant-leak-check: passed", "") + trial.Session("2026-04-04.md", "parts:\n  hose: refitted", "")
	trial.WantEqual(t, "of the next time only how long", show(fit+on("coolant-leak-check: x; takes 20m; due 2026-04-09; disclose")+done, "coolant-leak-check"), "minor 20  false [] true")
	smoke := trial.Session("2026-04-01.md", "checks:\n  smoke-test: failed; minor", "")
	trial.WantEqual(t, "one that failed, and is minor", show(smoke+on("smoke-test: a wisp; disclose"), "smoke-test"), "minor 60  true [] true")
	told := At(trial.Compile(t, fit+on("fume-check: soon")), 0, trial.Today).ChecksToTell
	if len(told) != 1 || told[0].Name != "fume-check" || told[0].Why != "nothing makes it due" {
		t.Errorf("a check that nothing makes due: %+v", told)
	}
}

// A check waits for the parts of its systems that are still to come.
func TestChecksWaitForParts(t *testing.T) {
	for state, doable := range map[string]bool{"needed": false, "ordered": false, "arrived": true, "cancelled": true} {
		b := trial.Compile(t, trial.Session("2026-04-01.md", "parts:\n  disc: fitted disc; system brakes\n  pads: "+state+" pads; system brakes\n  lamp: needed lamp; system lighting", ""))
		s := At(b, 0, trial.Today).Snag("brake-test")
		trial.WantEqual(t, state, s.Doable, doable)
		trial.WantEqual(t, state, strings.Join(s.WaitsFor, " "), map[bool]string{false: "pads"}[doable])
	}
}

// A distance that is asked for keeps a check from being done until it is driven.
func TestNotDoableBeforeTheDistance(t *testing.T) {
	for odometer, doable := range map[string]bool{"100 km": false, "139 km": false, "140 km": true, "200 km": true} {
		b := trial.Compile(t, trial.Session("2026-04-01.md", "odometer: 100 km\nparts:\n  tyre: fitted tyre; system wheels", "")+trial.Session("2026-04-02.md", "odometer: "+odometer, ""))
		s := At(b, 0, trial.Today).Snag("wheel-retorque")
		trial.WantEqual(t, odometer, s.Doable, doable)
		trial.WantEqual(t, odometer+" overdue", s.Overdue, odometer == "200 km")
	}
}

// The card's rows add to the table, and replace all of one name.
func TestCardRowsAddAndReplace(t *testing.T) {
	card := trial.Card("stages:\n  axle: system suspension\n  loom: system electrical\ndue checks:\n  - tow-test: after electrical; minor; because lamps\n  - tow-test: after electrical, body; major; distance 10 to 20 mi\n  - alignment: after electrical; dangerous; distance 5 km")
	b := trial.Compile(t, card+trial.Session("2026-04-01.md", "odometer: 100 mi\nparts:\n  wire: fitted wire; system electrical\n  arm: fitted arm; system suspension", ""))
	trial.WantFaults(t, "the card", b)
	trial.WantEqual(t, "due", dueOn(b, "2026-04-01", fact.FromDue), "alignment dangerous 2026-04-01, tow-test major 2026-04-01, wheel-retorque major 2026-04-01")
	st := At(b, 0, trial.Today)
	trial.WantEqual(t, "what stops driving", names(st.ToDrive(nil)), "") // its distance is still to be driven
	trial.WantEqual(t, "from", st.Snag("tow-test").NotBefore.String()+" until "+st.Snag("tow-test").DueAt.String(), "110 mi until 120 mi")
	bad := trial.Compile(t, trial.Card("due checks:\n  a-test: after body; distance 20 to 10 mi\n  b-test: after body; distance 3 mm to 4 km\n  c-test: after body; distance 3 to 4")+trial.Session("2026-04-01.md", "", ""))
	trial.WantEqual(t, "faults", strings.Join(trial.FaultsOf(bad), ", "), "bad-distance build.md:5:32 |20 to 10 mi|, bad-distance build.md:6:32 |3 mm|, bad-distance build.md:7:37 |4|")
}
