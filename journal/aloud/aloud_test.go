package aloud

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/state"
	"guidecoat/journal/trial"

	"github.com/shopspring/decimal"
)

var kept = []string{"public", "buyer"}

// told reads back a note of those front matter lines and that body, of a build whose
// stages are a rear axle and the buying. It leaves out what stands in the job card.
func told(t *testing.T, front, body string) []*Line {
	t.Helper()
	b := trial.Compile(t, trial.Card("vat: 20%\nrates:\n  EUR: 0.86\nstages:\n  rear axle: budget 260 340 520; system suspension\n  buying: purchase\ndonors:\n  lark-17: 580.00 hatchback")+
		trial.Session("2026-04-11.md", "stage: rear axle\nodometer: 91252 mi\n"+front, body))
	lines := Of(state.At(b, 0, trial.Today), kept)
	return slices.DeleteFunc(lines, func(l *Line) bool { return l.File() != "2026-04-11.md" || l.Number() < 4 })
}

func TestWords(t *testing.T) {
	for _, c := range []struct{ front, body, want string }{
		{"time:\n  - 3h40 beam out", "", "3h 40m · rear axle"},
		{"time: 19:30-21:15; hands 2", "", "3h 30m of work, 1h 45m by each of 2 · rear axle"},
		{"cost: 138 rear axle beam, used; for rear-beam; from Tidewell Dismantlers\nparts:\n  rear-beam: needed rear axle beam", "",
			"138.00 · parts · rear axle beam (rear-beam) · rear axle · from Tidewell Dismantlers"},
		{"cost: 2 x 6.49 copper grease; as consumables; private", "", "12.98 · consumables · rear axle · hidden from public and buyer"},
		{"cost: 80 socket set; as tools; share 1/4", "", "20.00 · 60.00 to the garage · tools · rear axle"},
		{"cost: 100 EUR hub; plus vat", "", "103.20 · sundries · rear axle · plus vat"},
		{"cost: 1400 hammer price; stage buying", "", "1400.00 · vehicle · buying"},
		{"credit: 20 scrap; as scrap", "", "20.00 · back as scrap · rear axle"},
		{"sold: 5200 to a neighbour; to Dag", "", "sold for 5200.00 · to Dag"},
		{"sale: deposit 300.00 in notes; from Dag", "", "deposit 300.00 · from Dag"},
		{"sale:\n  - agreed 1000 EUR\n  - returned the gearbox", "", "sold for 860.00"},
		{"sale: asked 5,350.00; private", "", "asking 5350.00 · hidden from public and buyer"},
		{"credit: 40.00 its wheels; as spares; for lark-17", "", "40.00 · off what lark-17 cost"},
		{"cost: 40.00 fetching it; for lark-17", "", "40.00 · on top of what lark-17 cost"},
		{"quotes:\n  hub: 100 EUR; from Rolke; freight 10; duty 3%; import vat; wait 2 weeks\nparts:\n  hub: needed hub", "",
			"118.66 brought here · price 86.00 · freight 10.00 · duty 2.88 · import tax 19.78 · from Rolke · wait 2 weeks"},
		{"parts:\n  rear-beam: fitted rear axle beam", "", "fitted → alignment, wheel-retorque fall due · rear axle beam (rear-beam) · system suspension · rear axle"},
		{"parts:\n  abs-ring: needed reluctor ring; new; genuine; system brakes; estimate 9 14 30", "",
			"needed · reluctor ring (abs-ring) · system brakes · rear axle · new · genuine · estimate 9.00, 14.00 or 30.00"},
		{"readings:\n  disc-left: 7.7 mm; min 8.0 mm", "", "7.7 mm · 0.3 mm under the 8.0 mm minimum · opens reading-disc-left · stops the sale"},
		{"readings:\n  disc-left: 8.7 mm; min 8.0 mm", "", "8.7 mm · within its limits"},
		{"readings:\n  disc-left: 8.7 mm", "", "8.7 mm · no limit is known"},
		{"remaining:\n  rear axle: 120 180 300; hours 4 6 9", "", "120.00, 180.00 or 300.00 · hours 4 6 9"},
		{"", "- [ ] temporary exhaust-hanger: hung on wire; due 2026-06-01", "temporary, major · opens exhaust-hanger · stops the sale · due 2026-06-01"},
		{"", "- [ ] brake-hose: chafed; dangerous", "job, dangerous · opens brake-hose · stops driving and the sale"},
		{"", "- [ ] boot-carpet: stained; stage buying", "job, minor · opens boot-carpet · to be cleared or disclosed before the sale"},
		{"", "- [ ] boot-carpet: stained; stage buying; disclose; private", "job, minor · opens boot-carpet · the buyer will be told · hidden from public and buyer"},
		{"", "- [x] job tank-shield: bolts soaked", "job, major · opened and cleared here: tank-shield"},
		{"", "- [x] job brake-pipe: new pipe made; system brakes", "job, major → brake-leak-check, brake-test, wheel-retorque fall due · opened and cleared here: brake-pipe"},
		{"inspection: failed on the pads\nfound:\n  rear-pads: dangerous 1.1.13 down to the metal", "", "failed · on the pads"},
		{"found:\n  rear-pads: dangerous 1.1.13 down to the metal\ninspection: failed", "", "dangerous 1.1.13 · down to the metal · opens rear-pads · stops driving and the sale"},
		{"", "- [x] nobody-opened-it: mended", "left out: it holds a mistake"},
	} {
		got := told(t, c.front, c.body)
		if len(got) == 0 || got[0].Words != c.want {
			t.Errorf("%s%s\n got %v\nwant %s", c.front, c.body, show(got), c.want)
		}
	}
}

func show(lines []*Line) string {
	var out []string
	for _, l := range lines {
		out = append(out, fmt.Sprintf("%d %s: %s", l.Number(), l.Key, l.Words))
	}
	return strings.Join(out, "\n     ")
}

func TestAScanIsReadCodeByCode(t *testing.T) {
	b := trial.Compile(t, trial.Session("2026-04-11.md", "", "```scan engine\nP0101 air flow\nP0102\n```")+trial.Session("2026-04-12.md", "private: yes", "```scan engine\nno faults\n```"))
	want := "4 scan: faults in engine\n     5 scan: P0101 air flow · opens scan-engine-P0101 · stops the sale\n     6 scan: P0102 · opens scan-engine-P0102 · stops the sale\n     " +
		"2 private: yes · hidden from public and buyer\n     4 scan: no faults in engine · clears scan-engine-P0101, scan-engine-P0102 · hidden from public and buyer"
	lines := slices.DeleteFunc(Of(state.At(b, 0, trial.Today), kept), func(l *Line) bool { return l.File() == journal.CardName })
	trial.WantEqual(t, "scans", show(lines), want)
}

// What is read aloud adds up to what the costs say, to the penny and the minute.
func TestReadingsAddUp(t *testing.T) {
	b := trial.CompileFS(t, os.DirFS("../../example-build"), ".")
	for _, day := range []string{"2026-04-20", "2026-06-01", ""} {
		asOf := measure.Date(0)
		if day != "" {
			asOf = trial.Day(day)
		}
		st := state.At(b, asOf, trial.Today)
		sums, minutes := map[string]decimal.Decimal{}, 0
		for _, l := range Of(st, kept) {
			minutes += l.Reading.Minutes
			for key, amount := range map[string]string{l.Key: l.Reading.Amount, "garage": l.Reading.ToGarage} {
				if amount != "" {
					sums[key] = sums[key].Add(trial.Dec(amount))
				}
			}
		}
		costs := st.Costs()
		for _, c := range []struct {
			what      string
			got, want decimal.Decimal
		}{{"spent", sums["cost"], costs.Spent}, {"credits", sums["credit"], costs.Credits}, {"to the garage", sums["garage"], costs.ToGarage}} {
			if !c.got.Equal(c.want) {
				t.Errorf("%s: %s read aloud %s, the costs say %s", day, c.what, c.got, c.want)
			}
		}
		if minutes != int(costs.Minutes) || minutes == 0 {
			t.Errorf("%s: %d minutes read aloud, the costs say %d", day, minutes, costs.Minutes)
		}
	}
}
