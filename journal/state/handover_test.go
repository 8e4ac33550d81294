package state

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/source"
	"guidecoat/journal/trial"
)

// No order of notes lets an open temporary fix through: whatever the sessions say of
// it and in whatever order they come, while its last line is not a tick either the
// requirement is not met or the notes hold errors; and where every line fits, exactly
// the open ones stop it.
func TestNoOrderLetsATemporaryFixThrough(t *testing.T) {
	builds := 3000
	if testing.Short() {
		builds = 300
	}
	cleared, stopped := 0, 0
	for seed := range builds {
		rng := rand.New(rand.NewPCG(uint64(seed), 4))
		ids := []string{"exhaust-hanger", "tailgate-strap", "brake-line-plug"}[:1+rng.IntN(3)]
		lines := map[string][]string{}
		for _, id := range ids {
			for i := range 1 + rng.IntN(6) {
				lines[id] = append(lines[id], mention(rng, id, i))
			}
		}
		order := temporarySessions(rng, lines)
		fsys := trial.Files(trial.Card("vehicle:\n  registration: X\n  category: none\n  odometer: 1 km"))
		last, open, sound := map[string]bool{}, map[string]bool{}, true
		for i, body := range order {
			folder := []string{"", "notes/", "a/b/"}[rng.IntN(3)]
			fsys[fmt.Sprintf("%s2026-04-%02d.md", folder, i+1)] = &fstest.MapFile{Data: []byte("---\nstage: body\n---\n" + strings.Join(body, "\n") + "\n")}
			for _, l := range body {
				sound = follow(l, last, open) && sound
			}
		}
		b := trial.CompileFS(t, fsys, ".")
		st := At(b, 0, trial.Today)
		met := unmet(st) == ""
		for _, id := range ids {
			if met && !last[id] {
				t.Fatalf("build %d is let through with %s open\n%s", seed, id, written(fsys))
			}
		}
		if sound {
			var got, want []string
			for _, stop := range st.ToSell(nil)[1].Stops {
				got = append(got, stop.Snag.ID)
			}
			for id := range open {
				if open[id] {
					want = append(want, id)
				}
			}
			slices.Sort(got)
			slices.Sort(want)
			trial.WantList(t, fmt.Sprintf("build %d\n%s", seed, written(fsys)), got, want)
			trial.WantEqual(t, fmt.Sprintf("build %d is met\n%s", seed, written(fsys)), met, len(want) == 0)
		}
		if met {
			cleared++
		} else {
			stopped++
		}
	}
	if cleared < builds/50 || stopped < builds/50 {
		t.Errorf("%d let through, %d stopped: the builds show too little", cleared, stopped)
	}
}

// mention is the n-th line about a fix: first it opens, mostly.
func mention(rng *rand.Rand, id string, n int) string {
	if n == 0 {
		return "- [ ] temporary " + id + ": held" + []string{"", "; minor", "; dangerous", "; private"}[rng.IntN(4)]
	}
	return []string{"- [x] " + id + ": mended", "- [x] " + id, "- [ ] " + id + ": still", "- [ ] again " + id + ": loose", "- [x] temporary " + id + ": at once"}[rng.IntN(5)]
}

// temporarySessions spreads the lines over sessions; one in two builds keeps the
// lines about one fix in their order.
func temporarySessions(rng *rand.Rand, lines map[string][]string) [][]string {
	out := make([][]string, 2+rng.IntN(6))
	shuffled := rng.IntN(2) == 0
	ids := []string{}
	for id := range lines {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	for _, id := range ids {
		at := make([]int, len(lines[id]))
		for i := range at {
			at[i] = rng.IntN(len(out))
		}
		if !shuffled {
			slices.Sort(at)
		}
		for i, l := range lines[id] {
			out[at[i]] = append(out[at[i]], l)
		}
	}
	return out
}

// follow is what a person would make of a line: whether the last word on a fix was a
// tick, and which are open. It tells whether the line fits what came before.
func follow(line string, last, open map[string]bool) bool {
	box, rest, _ := strings.Cut(strings.TrimPrefix(line, "- ["), "] ")
	head, _, _ := strings.Cut(rest, ":")
	words := strings.Fields(head)
	id := words[len(words)-1]
	_, known := open[id]
	was := open[id]
	last[id], open[id] = box == "x", box != "x"
	switch words[0] {
	case "temporary":
		return !known
	case "again":
		return known && !was
	}
	return known && was
}

// Every requirement by itself: what stops it, and what does not.
func TestEachRequirement(t *testing.T) {
	full := trial.Card("vehicle:\n  registration: X\n  category: none\n  odometer: 1 km")
	for _, c := range []struct{ name, front, body, want string }{
		{"nothing", "", "", ""},
		{"a temporary fix", "", "- [ ] temporary a-fix: x", "temporary safety"},
		{"a minor one, which cannot be disclosed", "", "- [ ] temporary a-fix: x; minor", "temporary minor"},
		{"one without an id", "", "- [ ] temporary: tape", "temporary safety"},
		{"a tick in another case", "", "- [ ] temporary a-fix: x\n- [X] a-fix: y", ""},
		{"an example in code", "", "```\n- [ ] temporary a-fix: x\n```", ""},
		{"major", "", "- [ ] job a-job: x; major", "safety"},
		{"minor", "", "- [ ] job a-job: x", "minor"},
		{"disclosed", "", "- [ ] job a-job: x; disclose", ""},
		{"disclosed later", "", "- [ ] job a-job: x\n- [ ] a-job: told; disclose", ""},
		{"private", "", "- [ ] job a-job: x; private", "minor"},
		{"a part of a safety system", "parts:\n  disc: needed disc; system brakes", "", "parts"},
		{"in hand", "parts:\n  disc: arrived disc; system brakes", "", "parts"},
		{"sent back", "parts:\n  - disc: arrived disc; system brakes\n  - disc: returned", "", ""},
		{"a part of another", "parts:\n  trim: needed trim; system interior", "", ""},
		{"a surcharge", "cost: 100 pump; for pump; surcharge 20\nparts:\n  pump: arrived pump; system cooling", "", "money"},
		{"given up", "cost: 100 pump; for pump; surcharge 20\nparts:\n  pump: arrived pump; system cooling", "- [x] pump-surcharge: thrown away", ""},
		{"a check due", "parts:\n  hose: fitted hose; system exhaust", "", "safety"},
		{"a check that failed", "checks:\n  emissions: failed", "", "safety"},
		{"a minor reading", "readings:\n  play: 3 mm; max 2 mm; minor", "", "minor"},
		{"a fault code", "", "```scan abs\nC0035\n```", "safety"},
		{"an error", "cost: 12,50 seals", "", "notes"},
	} {
		b := trial.Compile(t, full+trial.Session("2026-04-01.md", c.front, c.body))
		trial.WantEqual(t, c.name, unmet(At(b, 0, trial.Today)), c.want)
	}
	bare := trial.Compile(t, trial.Card("")+trial.Session("2026-04-01.md", "", ""))
	trial.WantEqual(t, "no record", len(At(bare, 0, trial.Today).ToSell(nil)[6].Stops), 3)
	trial.WantEqual(t, "to drive without a record", names(At(bare, 0, trial.Today).ToDrive(nil)), "")
	withOdometer := trial.Compile(t, trial.Card("vehicle:\n  vin: 0H8GDM9A8KP042788\n  Category: S")+trial.Session("2026-04-01.md", "odometer: 5 km", ""))
	trial.WantEqual(t, "the odometer in a note", unmet(At(withOdometer, 0, trial.Today)), "")
	trial.WantEqual(t, "and before it", unmet(At(withOdometer, trial.Day("2026-03-01"), trial.Today)), "record")
}

// What is said of a requirement agrees with whether it is met.
func TestRequirementsSayHowTheyStand(t *testing.T) {
	met := At(trial.Compile(t, trial.Card("vehicle:\n  registration: X\n  category: none\n  odometer: 1 km")), 0, trial.Today)
	unmet := At(trial.Compile(t, trial.Card("vehicle:\n  category: B\nstages:\n  brakes: all of them; system brakes\npapers:\n  insurance: until 2026-12-31; road no")+trial.Session("2026-04-01.md",
		"inspection: failed\nstage: brakes\ncost: 90.00 caliper; for caliper; surcharge 30.00\nparts:\n  caliper: arrived caliper, right",
		"- [ ] temporary line-plug: plugged\n- [ ] dented-shield: dented; minor\n- [ ] loose-hose: loose; dangerous")), 0, trial.Today)
	mistakes := []Stop{{Text: "a mistake"}}
	for _, pair := range [][2][]Requirement{{met.ToSell(nil), unmet.ToSell(mistakes)}, {met.ToDrive(nil), unmet.ToDrive(mistakes)}} {
		for i, good := range pair[0] {
			bad := pair[1][i]
			if !good.Met() || !good.About.Some() || good.About.String() == bad.About.String() {
				t.Errorf("%s: met %v, said %q and %q", good.Name, good.Met(), good.About, bad.About)
			}
			if bad.Met() {
				t.Errorf("%s: nothing stands in the way", bad.Name)
			}
		}
	}
}

// TestNothingIsMetWithoutDoubt holds that no requirement says that it is met as if all
// had been read while a line is left out.
func TestNothingIsMetWithoutDoubt(t *testing.T) {
	st := At((&journal.Build{Card: &journal.Card{Note: note.Open(source.NewFile(journal.CardName, nil))}}), 0, measure.NewDate(2026, 4, 11))
	for _, r := range st.ToDrive([]Stop{{Text: "a line that cannot be read"}})[1:] {
		if !strings.HasSuffix(r.About.String(), ", as far as the notes can be read") {
			t.Errorf("%s: %q", r.Name, r.About)
		}
	}
	if r := st.ToDrive(nil)[1]; r.About.String() != "nothing dangerous is recorded, from any source" {
		t.Errorf("without errors: %q", r.About)
	}
}
