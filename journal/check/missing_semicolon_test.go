package check

import (
	"slices"
	"strings"
	"testing"
)

// beside are notes that give a build names: of parts, snags, suppliers and people.
const beside = `
-- 2026-04-01.md --
---
stage: body
cost: 9.00 seals; from Tidewell Dismantlers
parts:
  rear-beam: needed axle
  hose: needed hose
checks:
  tow-test: passed; by Bram Olsen
---
`

func TestMissingSemicolon(t *testing.T) {
	for _, c := range []struct{ line, want string }{
		// behind a comma, a dash or in brackets
		{"time: 3h40 beam, hands 2", "hands 2"},
		{"- [ ] job door-leak: lets water in, major", "major"},
		{"readings: - gap-left: 4.1 mm at the top, max 3.5 mm, major", "max 3.5 mm, major"},
		// plainly values of such clauses
		{"cost: 144.00 delivery as transport", "as transport"},
		{"cost: 60.00 bolts for rear-beam", "for rear-beam"},
		{"cost: 60.00 bolts on 2026-04-09", "on 2026-04-09"},
		{"cost: 60.00 paint share 1/4.", "share 1/4"},
		{"cost: 60 caliper, right surcharge 30.00; for rear-beam", "surcharge 30.00"},
		{"credit: 60.00 old axle as scrap", "as scrap"},
		{"time: 2h filler stage rear axle", "stage rear axle"},
		{"time: 2h filler hands 2", "hands 2"},
		{"parts: - door: needed door system body", "system body"},
		{"parts: - door: needed door estimate 40 60 90 due 2026-05-01", "due 2026-05-01"},
		{"checks: - lamp-aim: done at 91310 mi", "at 91310 mi"},
		{"readings: - gap-left: 4.1 mm min 3.5 mm", "min 3.5 mm"},
		{"remaining: - body: 100 200 300 filler hours 4", "hours 4"},
		{"- [ ] job door-leak: the seal waits for rear-beam", "waits for rear-beam"},
		{"- [ ] job door-leak: the seal due 2026-05-01", "due 2026-05-01"},
		// honest words
		{"cost: 60.00 seals from Rolke, cash", ""}, // nobody says that Rolke sold it
		{"cost: 60.00 seals, from Tidewell Dismantlers; from Tidewell Dismantlers", ""},
		{"- [ ] job door-leak: the glue takes 2h", ""},
		{"- [ ] job door-leak: drying takes 30m", ""},
		{"- [ ] job door-leak: a new seal takes 24h", ""},
		{"- [ ] job door-leak: the crack is really dangerous", ""},
		{"- [ ] job door-leak: water in, more tiresome than dangerous", ""},
		{"cost: 40.00 fuel, hands 2", ""}, // no clause of a cost
		{"time: 2h filler for rear-beam", ""},
		{"time: 2h filler, the last stage yet", ""},
		{"cost: 40.00 seals as ordered", ""},
		{"cost: 40.00 delivery as transport of the axle", ""},
		{"cost: 40.00 hood from the donor", ""},
		{"cost: 40.00 carriage from Rolke", ""}, // nobody says that Rolke sold it
		{"cost: 40.00 clips for hose", ""},
		{"cost: 40.00 clips for the rear-beam", ""},
		{"cost: 40.00 road tax due 2026-05-01", ""},
		{"cost: 40.00 copy of a lost receipt", ""},
		{"cost: 40.00 cleaning at an hourly rate 20", ""},
		{"cost: 40.00 test on Monday", ""},
		{"cost: 40.00 mirror, used", ""}, // no clause of a cost
		{"sold: 5200.00 cash, to be fetched", ""},
		{"parts: - wing: needed wing for the used shell", ""},
		{"parts: - coil: needed coil of cylinder number 2", ""},
		{"parts: - door: needed door as good as new", ""},
		{"parts: - door: needed door, donor lacked clips", ""},
		{"checks: - lamp-aim: passed at 10 m", ""},
		{"checks: - lamp-aim: failed by 2 mm", ""},
		{"readings: - gap-left: 4.1 mm max play at the top", ""},
		{"- [ ] job door-leak: curing takes 24h", ""},
		{"- [ ] job door-leak: looks dangerous", ""},
		{"- [ ] job door-leak: the hose waits for me", ""},
		{"stage: body", ""},
	} {
		text := "---\nstage: body\nodometer: 91000 mi\n" + strings.Replace(c.line, ": - ", ":\n  - ", 1) + "\n---\n"
		switch {
		case strings.HasPrefix(c.line, "- "):
			text = "---\nstage: body\n---\n" + c.line + "\n"
		case strings.HasPrefix(c.line, "stage"):
			text = "---\n" + c.line + "\n---\n"
		}
		var got []string
		for _, p := range proofread(t, folder("-- 2026-04-11.md --\n"+text+beside)) {
			switch p.Check {
			case "missing-semicolon":
				got = append(got, strings.ToLower(p.Span.Text()))
			case "bad-amount", "wrong-shape", "not-a-line", "bad-id", "half-read", "unknown-clause":
				t.Errorf("%q: %s", c.line, p.Message)
			}
		}
		if want := strings.Fields(c.want); len(want) == 0 && got != nil || len(want) > 0 && !slices.Equal(got, []string{c.want}) {
			t.Errorf("%q: %q, want %q", c.line, got, c.want)
		}
	}
}

func TestMissingSemicolonHelp(t *testing.T) {
	wantOf(t, "missing-semicolon", "-- build.md --\n"+strings.Replace(exampleCard, "body: budget 400", "body: all panels budget 400", 1)+"-- 2026-04-11.md --\n---\nstage: body\n---\n", `Write "; budget 400" if`)
}
