package view

import (
	"fmt"
	"strings"
	"testing"

	"guidecoat/journal/state"
	"guidecoat/journal/trial"
)

// The better evidence wins; there is a row for each grade, the weakest first.
func TestGrade(t *testing.T) {
	for i, c := range []struct{ picture, value, paper bool }{{}, {picture: true}, {picture: true, value: true}, {picture: true, value: true, paper: true}} {
		if got := Grade(c.picture, c.value, c.paper); got != Grades[i].Evidence || got.Name() != Grades[i].Name || Grades[i].Means == "" {
			t.Errorf("%v is %s, want %s", c, got, Grades[i].Name)
		}
	}
	if Evidence("").Name() != "" {
		t.Error("nothing has a name")
	}
}

const evidenceNotes = `-- a.png --
a picture
-- report.pdf --
a report
-- build.md --
---
build: Halden Fjord
currency: GBP
damage:
  left: bent; fired curtain-left
---
-- 2026-04-01.md --
---
stage: all
inspection: failed
found:
  beam-high: major too high
  seat-loose: advisory loose
cost:
  - 40.00 alignment; as labour; from Mirefold Tyres; receipt M-1
  - 12.00 hose; for hose-left; from Tidewell; receipt T-2
  - 13.00 seal; for seal-left; from Tidewell
parts:
  - hose-left: fitted hose; system brakes
  - seal-left: fitted seal; photo a.png
  - clip-left: fitted clip
  - curtain-left: fitted curtain; used
  - tank-left: arrived tank; photo a.png
  - lamp-left: needed lamp; photo a.png
checks:
  alignment: passed; by Mirefold Tyres
  road-test: done; by Mirefold
  lamp-aim: passed; photo a.png
  brake-test: passed; receipt B-3
  fuel-leak-check: failed
  official-look: passed; receipt hidden-receipt; private
readings:
  disc: 7 mm; min 8 mm
---
- [x] job told-a: told
- [x] job shown-a: shown; photo a.png
- [x] job drawn-a: drawn ![it](a.png)
- [x] job paper-a: by others, [report](report.pdf)
- [x] job gone-a: by others, [report](no-such.pdf)
- [ ] job before-a: seen; photo a.png

` + "```scan abs\nC0035 speed\n```" + `
-- 2026-04-02.md --
---
stage: all
inspection: passed; until 2027-04-01
found:
  seat-loose: advisory loose
parts:
  tank-left: fitted
  curtain-left: fitted another; new; photo a.png
checks:
  fuel-leak-check: passed; photo a.png
readings:
  disc: 9 mm
---
- [x] before-a: mended

` + "```scan abs\nno faults\n```\n-- 2026-04-03.md --\n---\ninspection: passed; by Marl\n---\n- [x] seat-loose: tightened\n"

// What stands behind each check, part and fix is what is shown with it.
func TestEvidence(t *testing.T) {
	b := trial.Compile(t, evidenceNotes)
	v := Of(state.At(b, 0, trial.Today), ForBuyer)
	var got []string
	for _, c := range v.Checks {
		got = append(got, fmt.Sprint(c.Name, " ", c.Evidence))
	}
	for _, p := range v.Parts {
		got = append(got, fmt.Sprint(p.ID, " ", p.Evidence))
	}
	for _, x := range v.Snags {
		if !x.Open {
			got = append(got, fmt.Sprint(x.ID, " ", x.Evidence))
		}
	}
	trial.WantList(t, "evidence", got, []string{"alignment paper", "road-test said", "lamp-aim photographed", "brake-test paper", "fuel-leak-check said", "official-inspection said", "fuel-leak-check photographed", "official-inspection paper", "official-inspection paper",
		"curtain-left photographed", "hose-left said", "seal-left photographed", "clip-left said", "tank-left said", "lamp-left ",
		"brake-test paper", "fired-curtain-left photographed", "fuel-leak-check photographed", "beam-high paper", "reading-disc measured", "scan-abs-C0035 measured", "before-a said", "drawn-a photographed", "gone-a said", "paper-a paper",
		"seat-loose said", "shown-a photographed", "told-a said"})
	for _, c := range Of(state.At(b, 0, trial.Today), ForPublic).Checks {
		if c.Evidence != Said && !c.Inspection { // the public sees neither receipts nor photos of checks
			t.Errorf("to the public %s is %s", c.Name, c.Evidence)
		}
	}
}

// A system is not opened where nothing at all is told of it; high voltage only in what has it.
func TestUnopened(t *testing.T) {
	notes := trial.Session("2026-04-01.md", "parts:\n  hose-left: fitted hose; system brakes\nchecks:\n  lamp-aim: passed\nreadings:\n  tread: 7 mm; system wheels", "- [ ] job seat-torn: torn; system interior\n\n```scan engine\nno faults\n```")
	for equipment, last := range map[string]string{"tow bar": "body paint", "tow bar, high-voltage": "body paint"} {
		b := trial.Compile(t, trial.Card("vehicle:\n  equipment: "+equipment+"\ndamage:\n  rear: bent; system structure")+notes)
		list := strings.Join(Of(state.At(b, 0, trial.Today), ForBuyer).Unopened(), " ")
		for _, told := range []string{"brakes", "lighting", "wheels", "interior", "engine", "structure"} {
			if strings.Contains(list, told) {
				t.Errorf("%s was told of: %s", told, list)
			}
		}
		if !strings.HasSuffix(list, last) || strings.Contains(list, "high-voltage") != strings.Contains(equipment, "high") {
			t.Errorf("%s: %s", equipment, list)
		}
	}
}
