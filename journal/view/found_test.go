package view

import (
	"fmt"
	"testing"

	"guidecoat/journal/state"
	"guidecoat/journal/trial"
)

const foundBuild = `
-- 2026-04-01.md --
---
stage: brakes
cost:
  - 108.00 caliper; for caliper; surcharge 30.00
credit:
  - 20.00 old caliper; as surcharge; for caliper
  - 10.00 the rest; as surcharge; for caliper; private
parts:
  caliper: fitted caliper, right; system brakes
readings:
  disc-left: 7.5 mm; min 8 mm
checks:
  hand-brake: failed slips
---
- [ ] shown-one: shown; minor
- [ ] hidden-one: not for everybody; private; dangerous
- [x] job hidden-two: cleared at once; private
`

// What is not shown counts, where snags are shown at all.
func TestUnseenSnagsCount(t *testing.T) {
	for public, want := range map[string]string{"yes": "1 1", "no": "0 0"} {
		st := state.At(trial.Compile(t, trial.Card("stages:\n  brakes: all\npublic:\n  snags: "+public)+foundBuild), 0, trial.Today)
		v := Of(st, ForPublic)
		trial.WantEqual(t, "public, snags "+public, fmt.Sprint(v.UnseenOpen, " ", v.UnseenCleared), want)
		for _, to := range []Audience{ForBuyer, ForWorkshop} {
			v := Of(st, to)
			if all := len(v.Snags) + v.UnseenOpen + v.UnseenCleared; all != len(st.Snags) {
				t.Errorf("%s: %d snags, want %d", to, all, len(st.Snags))
			}
		}
	}
}

// What follows by itself names no id where there are words for it.
func TestDerivedSnagsNameNoIDs(t *testing.T) {
	v := Of(state.At(trial.Compile(t, trial.Card("stages:\n  brakes: all")+foundBuild), 0, trial.Today), ForBuyer)
	words := map[string]string{}
	for _, s := range v.Snags {
		words[s.ID] = s.Words
	}
	for id, want := range map[string]string{
		"brake-test":        "brake test not done since “caliper, right” was fitted: brakes are unproven until they are tested",
		"reading-disc-left": "disc left is 7.5 mm, 0.5 mm under the 8 mm minimum",
		"hand-brake":        "hand brake failed: slips",
		"caliper-surcharge": "surcharge of £30.00 on “caliper, right”, to come back for the old part",
		"shown-one":         "shown one: shown",
	} {
		trial.WantEqual(t, id, words[id], want)
	}
}

// The surcharge that came back stands beside what was paid, which FORMAT.md counts
// without it; a private line tells only the workshop.
func TestSurchargeBack(t *testing.T) {
	st := state.At(trial.Compile(t, trial.Card("stages:\n  brakes: all")+foundBuild), 0, trial.Today)
	for to, want := range map[Audience]string{ForBuyer: "108.00 20.00", ForWorkshop: "108.00 30.00", ForPublic: "none 0.00"} {
		p := Of(st, to).Parts[0]
		paid := "none"
		if p.Paid != nil {
			paid = p.Paid.StringFixed(2)
		}
		trial.WantEqual(t, string(to), paid+" "+p.SurchargeBack.StringFixed(2), want)
	}
}

// A plate under any name is as hidden as under its own.
func TestVehicleUnderOtherNames(t *testing.T) {
	b := trial.Compile(t, "-- build.md --\n---\nbuild: H\ncurrency: GBP\nvehicle:\n  Reg no.: QX16 ZZT\n  phone: 01234\n  chassis number: 0H8GDM9A8KP042788\n  make: Halden\n---\n")
	trial.WantEqual(t, "public", fmt.Sprint(Of(state.At(b, 0, trial.Today), ForPublic).Vehicle), "[{chassis number 0H8•••••••••••••• false} {make Halden false}]")
}

// A note that words lead to has a page, if it has one: as a file it would tell what is private.
func TestNotesAreNoFiles(t *testing.T) {
	b := trial.Compile(t, "-- build.md --\n---\nbuild: H\ncurrency: GBP\n---\n[a](2026-04-01.md) ![b](2026-04-01.md)\n-- 2026-04-01.md --\n---\nprivate: yes\ncost: 5.00 x; receipt build.md\n---\n[c](build.md) [d](sheet.pdf)\n-- sheet.pdf --\nx\n")
	for to, want := range map[Audience]string{ForPublic: "[]", ForBuyer: "[]", ForWorkshop: "[sheet.pdf]"} {
		trial.WantEqual(t, string(to), fmt.Sprint(Of(state.At(b, 0, trial.Today), to).Files), want)
	}
}

// The record tells which checks work was said to ask for.
func TestAskedIsTold(t *testing.T) {
	b := trial.Compile(t, trial.Session("2026-04-01.md", "parts:\n  - sensor: needed pad sensor; system brakes; asks for nothing\n  - sensor: fitted clipped in\n  - wing: refitted wing; free; asks for lamp-aim, gap-check\n  - lamp: fitted lamp; free",
		"- [x] job brake-pipe: wiped; system brakes; asks for nothing"))
	v := Of(state.At(b, 0, trial.Today), ForPublic)
	var said []string
	for _, p := range v.Parts {
		for _, e := range p.Events {
			said = append(said, e.State+" "+e.Remark)
		}
	}
	trial.WantList(t, "parts", said, []string{"needed ", "fitted clipped in (needs no check, by the notes)", "refitted (needs only these checks, by the notes: lamp-aim, gap-check)", "fitted "})
	events := v.Snag("brake-pipe").Events
	trial.WantEqual(t, "item", events[len(events)-1].Words, "wiped (needs no check, by the notes)")
}

// A snag is told with what its id says where its words leave that out.
func TestLabels(t *testing.T) {
	b := trial.Compile(t, trial.Card("")+trial.Session("2026-04-01.md", "inspection: failed\nfound:\n  rear-pads: major right rear down to the metal", `
- [ ] job door-scratch: below the handle; minor; disclose
- [ ] job left-door: left **door**; minor; disclose
- [ ] job wheel-bolts: torque the Wheel bolt again
- [ ] job seal-2: door seal, rear
- [ ] job bare-one:
- [ ] job put-back: [put](x) it *back*
- [x] put-back: in
- [ ] wash it
`))
	for _, to := range []Audience{ForBuyer, ForWorkshop} {
		got := ""
		for _, s := range Of(state.At(b, 0, trial.Today), to).Snags {
			got += s.Words + "\n"
		}
		trial.WantEqual(t, string(to), got, "rear pads: right rear down to the metal\nbare one\ndoor scratch: below the handle\nleft **door**\n[put](x) it *back*\ndoor seal, rear\ntorque the Wheel bolt again\nwash it\n")
	}
}

// A code that a control unit lists twice, as current and as stored, is one.
func TestCompareScans(t *testing.T) {
	scan := func(day, codes string) string { return trial.Session(day+".md", "", "```scan abs\n"+codes+"\n```") }
	for _, c := range []struct{ before, after, want string }{
		{"C0035\nC0040\nC0045", "C0040 wheel\nC0050", "2 gone, 1 there, 1 fresh"},
		{"C0035\nC0040", "C0040 current\nC0040 stored\nC0050 current\nC0050 stored", "1 gone, 1 there, 1 fresh"},
		{"C0035 current\nC0035 stored", "no faults", "1 gone, 0 there, 0 fresh"},
		{"no faults", "C0035", "0 gone, 0 there, 1 fresh"},
	} {
		b := trial.Compile(t, scan("2026-04-01", c.before)+scan("2026-04-02", c.after))
		trial.WantFaults(t, c.after, b)
		scans := Of(state.At(b, 0, trial.Today), ForBuyer).ScansByUnit()[0]
		gone, there, fresh := CompareScans(scans[0], scans[1])
		trial.WantEqual(t, c.before+", then "+c.after, fmt.Sprintf("%d gone, %d there, %d fresh", gone, there, fresh), c.want)
	}
}
