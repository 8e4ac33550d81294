package check

import (
	"slices"
	"strings"
	"testing"
)

// TestOneMistakeOneMessage gives mistakes that much else hangs on: only the root
// is reported.
func TestOneMistakeOneMessage(t *testing.T) {
	tests := []root{
		{"an unknown stage of the note, with costs below", `---
stage: rear axel
time: 3h40 beam out
cost:
  - 12.00 seals
  - 6.49 grease
---
- [ ] job arch-seal: seal the seam
`, "unknown-stage"},
		{"a stage that only a bad line names, where no card lists any", "-- build.md --\n---\nbuild: A van\ncurrency: GBP\n---\n-- 2026-04-11.md --\n---\nstage: strip\ncost: 1850 van; as vehicle; stage buying; a bargain\n---\n", "unknown-clause"},
		{"a stage that is empty", "---\nstage:\ncost: 12.00 seals\n---\n", "empty-entry"},
		{"a part that is not described, with later lines", `-- 2026-04-11.md --
---
stage: body
parts:
  wing: ordered
cost: 138.00 wing; for wing
---
- [ ] job wing-paint: paint it; waits for wing
-- 2026-04-12.md --
---
stage: body
parts:
  wing: arrived
---
-- 2026-04-13.md --
---
stage: body
parts:
  wing: fitted
credit: 10.00 carriage; for wing
---
`, "undescribed-part"},
		{"a part with a slip in its first line", `---
stage: body
parts:
  - wing: orderd left wing
  - wing: fitted
cost: 138.00 wing; for wing
---
`, "unknown-state"},
		{"no currency", `-- build.md --
---
build: Example estate
vat: 20%
rates:
  EUR: 0.86
resale: 4600 5200 5600
fees:
  buyer's fee: 75 to 500, 12% above; plus vat
stages:
  body: budget 100 200.50 300
---
-- 2026-04-11.md --
---
stage: body
cost:
  - 12.00 seals; plus vat
  - 30 EUR paint
  - £5.125 tape
parts:
  wing: needed wing; estimate 10 20 30
sold: 5150
---
`, "missing-currency"},
		{"a currency that there is not", `-- build.md --
---
build: Example estate
currency: Pounds
resale: 4600
---
-- 2026-04-11.md --
---
cost: 12.00 seals; rate 0.86
stage: body
---
`, "unknown-currency"},
		{"no job card worth the name", "-- build.md --\n---\nbuild: Example\ncurrency: GBP\n-- 2026-04-11.md --\n---\nstage: body\ncost: 12.00 seals\n---\n", "unclosed-front-matter"},
		{"a bad opening with a later tick", `-- 2026-04-11.md --
- [ ] temporary exhaust-hanger: hung on wire; mayor
-- 2026-04-12.md --
- [ ] exhaust-hanger: rubber ordered
- [x] exhaust-hanger: rubber fitted
- [ ] job heat-shield: refit; waits for exhaust-hanger
`, "unknown-clause"},
		{"a cost with a mistake for a part that is fitted", `---
stage: body
parts:
  wing: fitted left wing
cost: 138,00 wing; for wing
---
`, "bad-amount"},
		{"a cost below a tab for a part that is fitted", "---\nstage: body\nparts:\n  wing: fitted left wing\ncost:\n\t- 138.00 wing; for wing\n---\n", "tab-indentation"},
		{"a note without date that holds the cost", `-- 2026-04-11.md --
---
stage: body
parts:
  wing: fitted left wing
---
-- costs.md --
---
cost: 138.00 wing; for wing
---
`, "missing-date"},
		{"a part fitted on a line with a mistake before the sale", `---
stage: body
parts:
  - wing: arrived left wing
  - wing: fitted; soon
cost: 138.00 wing; for wing
sold: 5150
---
`, "unknown-clause"},
		{"the same key twice holds the cost of a part", `---
stage: body
parts:
  wing: fitted left wing
cost: 12.00 seals
cost: 138.00 wing; for wing
---
`, "repeated-key"},
		{"a note whose front matter never ends", "---\ndate: 11.4.2026\nstage: rear axel\ncost: 12,50 seals\n", "unclosed-front-matter"},
		{"a bad date in the name", "-- 2026-02-30.md --\n---\nstage: rear axle\ncost: 12.00 seals\n---\n- [x] arch-seal: sealed\n", "bad-date"},
		{"a measured value without a unit, and a later one", `-- 2026-04-11.md --
---
readings:
  disc-left: 8.7; min 8 mm
---
-- 2026-04-12.md --
---
readings:
  disc-left: 8.6 mm
---
`, "bad-measurement"},
		{"a check with a mistake", "---\nstage: body\nchecks:\n  wheel-retorque: dun; by me; by you\n---\n", "unknown-result repeated-clause"},
		{"a circle of three", "- [ ] job a-a: x; waits for b-b\n- [ ] job b-b: x; waits for c-c\n- [ ] job c-c: x; waits for a-a\n", "waits-in-circle"},
		{"one distance without an odometer", "- [ ] recheck nuts-torque: again; due 50 km\n- [ ] nuts-torque: still to do\n", "due-without-odometer"},
		{"several sums without a stage", "---\ncost:\n  - 1.00 a\n  - 2.00 b\ncredit: 3.00 c\n---\n", "unstaged-money"},
		{"an odometer that went back once", "-- 2026-04-11.md --\n---\nodometer: 100 km\n---\n-- 2026-04-12.md --\n---\nodometer: 10 km\n---\n-- 2026-04-13.md --\n---\nodometer: 20 km\n---\n", "odometer-backwards"},
	}
	oneMessage(t, tests)
}

// A root is a build with mistakes, and the checks that should speak of it, in order.
type root struct{ name, build, want string }

func oneMessage(t *testing.T, roots []root) {
	for _, r := range roots {
		t.Run(r.name, func(t *testing.T) {
			found := proofread(t, folder(r.build))
			got, want := names(found), strings.Fields(r.want)
			if !slices.Equal(got, want) {
				t.Errorf("%s: got %q, want %q:\n%s", r.name, got, want, printed(t, found))
			}
		})
	}
}

// TestManyMistakesInOneNote shows that none hides another.
func TestManyMistakesInOneNote(t *testing.T) {
	found := proofread(t, folder(`---
date: 2026-04-11
stages: body
stage: rear axel
odometer: 91252
private: maybe
time:
  - 3 beam out; hand 2
  - 25h sleep
  - 2h beam in; stage bodywork
cost:
  - 12,50 seals; form Tidewell; as part
  - 240 SEK nuts
  - 64.00 hoses; rate 0.86
  - 1.00 clip; for clip; for clips
  - 120.00 pump; surcharge 40
sold: 5000
sold: 5100
parts:
  Wing: neded wing; new; used
  hub: needed
  pump: ordered pump; system pumps; due tomorrow
checks:
  alignment: okay
readings:
  disc-left: 8.7; min 8.0 bar
  disc-right: 8.7 mm; min 9 mm; max 8 mm
remaining:
  body: 3 2 1
---
`+"```scan abs\nC0035 wheel speed\nC035\n```\n"+`
![beam](beam.jpg)

- [ ] temporay exhaust-hanger: hung on wire
- [ ] temporary: hung on wire; disclose; soon
- [x] arch-seal: sealed
- [ ] job heat-shield: refit; waits for shield
- [ ] job heat-shield: refit
- [ ] inspect the sill
`))
	golden(t, "many", printed(t, found))
	for _, p := range found {
		wording(t, p)
	}
}

// TestSilence gives lines that look like mistakes and are none.
func TestSilence(t *testing.T) {
	for name, build := range map[string]string{
		"the note of the manual": `-- 2026-04-11.md --
---
date: 2026-04-11
stage: rear axle
odometer: 91252 mi
time:
  - 3h40 beam out, seized bolts cut
  - 19:30-21:15; hands 2
cost:
  - 138.00 rear axle beam, reconditioned; for rear-beam; from Tidewell Dismantlers; receipt 20411
  - 2 x 6.49 copper grease; as consumables
parts:
  rear-beam: fitted rear axle beam; reconditioned
  abs-ring-left: needed reluctor ring, left rear; new; genuine; system brakes; estimate 9 14 30
  exhaust-rubber: needed hanger rubber
checks:
  wheel-retorque: done; at 91310 mi
readings:
  rear-disc-left: 8.7 mm; min 8.0 mm
---
# Beam out
Prose, pictures, tables, code.

- [ ] temporary exhaust-hanger: hung on wire until the rubber comes; major; waits for exhaust-rubber
- [x] tow-socket: rewired and tried with a lamp board
-- 2026-04-10.md --
- [ ] tow-socket: dead
`,
		"nothing but prose":                "A long day: nothing came off.\n",
		"an empty note":                    "\n",
		"a part put back":                  "---\nstage: body\nparts:\n  rail-end-left: refitted straightened; system structure\nchecks:\n  weld-ready: done\n---\n",
		"a free part":                      "---\nstage: body\nparts:\n  wing: fitted left wing; free\n---\n",
		"an odd check":                     "---\nchecks:\n  tow-test: passed\n---\n",
		"plain jobs":                       "- [ ] order: seals, clips; minor\n- [x] swept the floor\n- [ ] ask about the note: it came late\n",
		"seals told apart":                 "- [ ] job seal-1: left\n- [ ] seal-2: right\n",
		"semicolons in code and entities":  "- [ ] job arch-seal: run `a; b` on it &amp; look; minor\n",
		"links elsewhere":                  "[a](https://example.org/x.jpg) [b](mailto:me@example.org) [c](#below) [d](//host/x.jpg) <https://example.org>\n\n# Below\n",
		"a private note with the supplier": "---\nstage: body\nprivate: yes\ncost: 9.00 paint; from Tidewell\n---\nTidewell again.\n",
	} {
		if found := proofread(t, folder(build)); len(names(found)) > 0 {
			t.Errorf("%s:\n%s", name, printed(t, found))
		}
	}
}
