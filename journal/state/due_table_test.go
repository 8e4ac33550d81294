package state

import (
	"cmp"
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

// What work on each system makes due, in which states of a part; and every row is typed.
func TestEverySystemOfTheTable(t *testing.T) {
	seen := map[string]bool{}
	for _, system := range note.Systems {
		typed, ok := dueAfter[system]
		if !ok {
			t.Errorf("nothing is typed for %s", system)
		}
		for _, state := range note.States {
			b := trial.Compile(t, trial.Card(everything)+trial.Session("2026-04-01.md", "odometer: 100 km\nparts:\n  thing: "+state+" thing; system "+system, ""))
			want := ""
			if strings.HasSuffix(state, "fitted") && typed != "" {
				want = strings.ReplaceAll(typed, ",", " 2026-04-01,") + " 2026-04-01"
			}
			trial.WantEqual(t, system+" "+state, dueOn(b, "2026-04-01", fact.FromDue), want)
		}
		for due := range strings.SplitSeq(typed, ", ") {
			name, _, _ := strings.Cut(due, " ")
			seen[name] = true
		}
	}
	for _, r := range journal.BuiltInDueRules() {
		if !seen[r.Name] && !r.Before && !r.Flood {
			t.Errorf("nothing is typed for %s", r.Name)
		}
		if !r.Flood {
			trial.WantEqual(t, r.Name+" hangs on", r.Equipment, dueWith[r.Name])
		}
		if r.Because == "" || r.Source == "" || (r.Far != nil) != (r.Name == "wheel-retorque") || r.Before && r.Does == "" {
			t.Errorf("%s: because %q, source %q, does %q", r.Name, r.Because, r.Source, r.Does)
		}
	}
}

// Every row there is, by itself: due after each sort of work that the row names, settled,
// not settled too early, due anew; and due only where the vehicle has what the row asks for.
func TestEveryRowOfTheTable(t *testing.T) {
	walked := 0
	for _, r := range journal.BuiltInDueRules() {
		for _, w := range worksOf(r) {
			walked++
			open := func(what, notes string, want bool) {
				t.Helper()
				b := trial.Compile(t, trial.Card("vehicle:\n  equipment: "+cmp.Or(r.Equipment, "none")+"\n"+w.card)+notes)
				trial.WantFaults(t, r.Name+" after "+w.name+", "+what, b)
				trial.WantEqual(t, r.Name+" after "+w.name+", "+what, isDue(At(b, 0, trial.Today), r), want)
			}
			check := func(day, odometer, result string) string {
				return trial.Session("2026-04-"+day+".md", "odometer: "+odometer+" km\nchecks:\n  "+r.Name+": "+result, "")
			}
			work := func(day string) string { return trial.Session("2026-04-"+day+".md", w.front, w.body) }
			again := func(day string) string {
				return trial.Session("2026-04-"+day+".md", strings.NewReplacer("100 km", "500 km", "fitted", "refitted").Replace(w.front), strings.ReplaceAll(w.body, "job thing-one", "again thing-one"))
			}
			first := work("02")
			open("nothing done", trial.Session("2026-03-01.md", "", ""), w.damage)
			open("due", first, true)
			if r.Equipment != "" {
				bare := trial.Compile(t, trial.Card("vehicle:\n  equipment: heated seats\n"+w.card)+first)
				trial.WantEqual(t, r.Name+" after "+w.name+", without "+r.Equipment, isDue(At(bare, 0, trial.Today), r), false)
			}
			if r.Before { // the check belongs in the note of the work
				ready := strings.Replace(first, "parts:", "checks:\n  "+r.Name+": done\nparts:", 1)
				open("settled", ready, false)
				open("too early", check("01", "100", "done")+first, true)
				open("too late", first+check("03", "100", "done"), true)
				open("due anew", ready+again("04"), true)
				continue
			}
			for _, result := range []string{"passed", "done"} {
				open("settled by "+result, first+check("03", "160", result), false)
			}
			if !w.damage {
				open("too early", check("01", "100", "passed")+first, true)
				open("too soon", first+check("03", "139", "passed"), r.Far != nil)
				open("due anew", first+check("03", "160", "passed")+again("04"), true)
				open("due anew, and settled", first+check("03", "160", "passed")+again("04")+check("05", "560", "done"), false)
			} else {
				open("without a distance", first+check("03", "101", "passed"), false)
			}
			open("failed", first+check("03", "160", "failed"), true)
			open("failed and done", first+check("03", "160", "failed")+check("04", "170", "done"), true)
			open("failed and passed", first+check("03", "160", "failed")+check("04", "170", "passed"), false)
			open("denied", first+check("03", "160", "done tomorrow"), true)
		}
	}
	if walked < 70 {
		t.Errorf("only %d sorts of work", walked)
	}
}

// A sortOfWork is what may ask for a check, as it is written.
type sortOfWork struct {
	name, card, front, body string
	damage                  bool
}

// worksOf are all sorts of work that a row names.
func worksOf(r journal.DueRule) []sortOfWork {
	var list []sortOfWork
	for _, system := range r.Systems {
		list = append(list, sortOfWork{name: "a part of " + system, front: "odometer: 100 km\nparts:\n  thing: fitted thing; system " + system})
		if r.Before {
			continue
		}
		list = append(list, sortOfWork{name: "damage to " + system, card: "damage:\n  front: bent; system " + system, front: "odometer: 100 km", damage: true})
		if note.IsSafety(system) {
			list = append(list, sortOfWork{name: "a job on " + system, front: "odometer: 100 km", body: "- [x] job thing-one: done; system " + system})
		}
	}
	if r.Flood {
		list = append(list, sortOfWork{name: "a flood", card: "damage:\n  water: to the seats; flood", front: "odometer: 100 km", damage: true})
	}
	return list
}

// isDue tells whether what a row asks for is outstanding.
func isDue(st *State, r journal.DueRule) bool {
	if r.Before {
		return slices.ContainsFunc(st.Unprepared(), func(u UnpreparedWork) bool { return u.Rule.Name == r.Name })
	}
	s := st.Snag(r.Name)
	return s != nil && s.Open && s.Severity == r.Severity
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
		return strings.TrimSpace(fmt.Sprintf("%s %d %s %v %v %v %s", s.Severity, int(s.Takes), due, s.Disclose, s.WaitsFor, s.Doable, strings.Join(trial.FaultsOf(b), " ")))
	}
	on := func(words string) string { return trial.Session("2026-04-02.md", "", "- [ ] "+words) }
	trial.WantEqual(t, "nothing said", show(fit, "coolant-leak-check"), "minor 0  false [] true")
	trial.WantEqual(t, "all of it", show(fit+on("coolant-leak-check: cold morning; takes 20m; due 2026-04-09; disclose"), "coolant-leak-check"), "minor 20 2026-04-09 true [] true")
	trial.WantEqual(t, "before it is due", show(trial.Session("2026-03-31.md", "", "- [ ] coolant-leak-check: cold morning; takes 20m")+fit, "coolant-leak-check"), "minor 20  false [] true")
	trial.WantEqual(t, "what it waits for", show(fit+trial.Session("2026-04-02.md", "", "- [ ] job brake-pedal: stiff\n- [ ] brake-test: then; waits for brake-pedal"), "brake-test"), "dangerous 0  false [brake-pedal] false")
	trial.WantEqual(t, "a distance by which it is due", show(fit, "wheel-retorque"), "major 0 180 km false [] false")
	trial.WantEqual(t, "one of its own", show(fit+on("wheel-retorque: soon; due 2026-04-09"), "wheel-retorque"), "major 0 2026-04-09 false [] false")
	trial.WantEqual(t, "disclosed though it is dangerous", show(fit+on("brake-test: skipped; disclose"), "brake-test"), "dangerous 0  false [] true disclose-not-minor 2026-04-02.md:4:28 |disclose|")
	trial.WantEqual(t, "made harmless", show(fit+on("brake-test: fine; minor"), "brake-test"), "dangerous 0  false [] true unknown-clause 2026-04-02.md:4:25 |minor|")
	trial.WantEqual(t, "ticked", show(fit+trial.Session("2026-04-02.md", "", "- [x] brake-test: fine"), "brake-test"), "dangerous 0  false [] true unknown-snag 2026-04-02.md:4:7 |brake-test|")
	trial.WantEqual(t, "said to be opened", show(fit+on("job brake-test: fine"), "brake-test"), "dangerous 0  false [] true id-taken 2026-04-02.md:4:11 |brake-test|")
	done := trial.Session("2026-04-03.md", "checks:\n  coolant-leak-check: passed", "") + trial.Session("2026-04-04.md", "parts:\n  hose: refitted", "")
	trial.WantEqual(t, "of the next time only how long", show(fit+on("coolant-leak-check: x; takes 20m; due 2026-04-09; disclose")+done, "coolant-leak-check"), "minor 20  false [] true")
	smoke := trial.Session("2026-04-01.md", "checks:\n  smoke-test: failed; minor", "")
	trial.WantEqual(t, "one that failed, and is minor", show(smoke+on("smoke-test: a wisp; disclose"), "smoke-test"), "minor 0  true [] true")
	told := At(trial.Compile(t, fit+on("fume-check: soon")), 0, trial.Today).ChecksToTell
	if len(told) != 1 || told[0].Name != "fume-check" || told[0].Why != "nothing makes it due" {
		t.Errorf("a check that nothing makes due: %+v", told)
	}
}

// What an item says of a reading outside its limits holds while that is open.
func TestItemsOnReadings(t *testing.T) {
	bad, good := "readings:\n  disc: 7 mm; min 8 mm; minor", "readings:\n  disc: 9 mm"
	on := func(day, front, words string) string {
		if words != "" {
			words = "- [ ] reading-disc: " + words
		}
		return trial.Session("2026-04-"+day+".md", front, words)
	}
	for _, c := range []struct{ name, notes, want string }{
		{"nothing said", on("01", bad, ""), "minor false 0 1"},
		{"all of it", on("01", bad, "") + on("02", "", "still there; disclose; takes 20m"), "minor true 20 2"},
		{"in the same note", on("01", bad, "told; disclose"), "minor true 0 2"},
		{"a job of that name, before it was measured", on("01", "", "told; disclose") + on("02", bad, ""), "minor true 0 1 id-taken 2026-04-02.md:3:3 |disc|"},
		{"after the day asked about", on("01", bad, "") + on("06", "", "told; disclose"), "minor false 0 1"},
		{"once it is right", on("01", bad, "") + on("02", good, "") + on("03", "", "told; disclose"), "cleared 2"},
		{"out again since", on("01", bad, "told; disclose") + on("02", good, "") + on("03", bad, ""), "minor false 0 3"},
		{"major by now", on("01", bad, "told; disclose") + on("02", strings.Replace(bad, "minor", "major", 1), ""), "major true 0 3"},
		{"major", on("01", strings.Replace(bad, "; minor", "", 1), "told; disclose"), "major false 0 1 disclose-not-minor 2026-04-01.md:5:27 |disclose|"},
		{"still major then", on("01", strings.Replace(bad, "; minor", "", 1), "told; disclose") + on("02", bad, ""), "minor false 0 2 disclose-not-minor 2026-04-01.md:5:27 |disclose|"},
		{"the severity carries forward", on("01", bad, "") + on("02", "readings:\n  disc: 6 mm", "told; disclose"), "minor true 0 3"},
	} {
		b := trial.Compile(t, c.notes)
		s := At(b, trial.Day("2026-04-05"), trial.Today).Snag("reading-disc")
		got := fmt.Sprintf("%s %v %d %d", s.Severity, s.Disclose, int(s.Takes), len(s.Events))
		if !s.Open {
			got = fmt.Sprintf("cleared %d", len(s.Events))
		}
		trial.WantEqual(t, c.name, strings.TrimSpace(got+" "+strings.Join(trial.FaultsOf(b), " ")), c.want)
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
