package journal_test

import (
	"fmt"
	"strings"
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/trial"
)

func TestCard(t *testing.T) {
	b := trial.Compile(t, `
-- build.md --
---
fees:
  buyer's fee: 75 to 500, 12% above; plus vat
  delivery: 120; plus vat 5%
build: Halden Fjord estate
vehicle:
  make: Halden
  model: "Fjord: 2.0 estate"
  VIN: 0H8GDM9A8KP042788
currency: GBP
vat: 20%
rates:
  EUR: 0.86
  JPY: 0.0053
resale: 4600 5200 5600
profit: 800
confidence: 85%
bid increment: 25
stages:
  buying: budget 1500; purchase
  rear axle: beam and brakes; budget 260 340 520; system suspension
  paint: just colour
due checks:
  tow-test: after electrical; major; because the socket feeds the trailer's lamps
  alignment: after wheels, body; dangerous; distance 30 mi
public:
  money: totals
  hours: no
  snags: no
  suppliers: yes
  vin: full
  registration: yes
---
Its story.
`)
	trial.WantFaults(t, "card", b)
	c := b.Card
	trial.WantEqual(t, "name", c.Name, "Halden Fjord estate")
	d, _ := c.Detail("Model")
	trial.WantEqual(t, "detail", d.Value, "Fjord: 2.0 estate")
	if _, ok := c.Detail("colour"); ok {
		t.Error("a colour is known")
	}
	trial.WantEqual(t, "figures", fmt.Sprint(c.Currency, c.VAT, c.Rates["EUR"], c.Rates["JPY"], *c.Resale, c.Profit, c.Confidence, c.Increment),
		"{GBP 2} 20 0.86 0.0053 [4600 5200 5600] 800 85 25")
	// `vat` may stand below the fees that add it.
	trial.WantEqual(t, "fees", fmt.Sprint(c.Fees[0].Name, c.Fees[0].VAT, c.Fees[1].Name, c.Fees[1].VAT), "buyer's fee20delivery5")
	var stages []string
	for _, s := range b.Stages {
		stages = append(stages, fmt.Sprintf("%s|%s|%v|%s|%v", s.Name, s.About, s.Budget, s.System, s.Purchase))
	}
	trial.WantEqual(t, "stages", strings.Join(stages, " "), "buying||&[1500 1500 1500]||true rear axle|beam and brakes|&[260 340 520]|suspension|false paint|just colour|<nil>||false")
	trial.WantEqual(t, "public", fmt.Sprint(c.Public), "{totals false false true full true en en}")
	trial.WantEqual(t, "rules", fmt.Sprint(len(c.DueRules), c.DueRules[0].Systems, c.DueRules[0].Severity, c.DueRules[0].Because, c.DueRules[1].Systems, c.DueRules[1].Far), "2 [electrical] majorthe socket feeds the trailer's lamps[wheels body] at least 30 mi")
	// The same name replaces all rows of the table.
	var alignment int
	for _, r := range b.DueRules() {
		if r.Name == "alignment" {
			alignment++
		}
	}
	trial.WantEqual(t, "rows called alignment", alignment, 1)
	bare := trial.Compile(t, trial.Card("")).DueRules()
	trial.WantEqual(t, "rows", len(b.DueRules()), len(bare)+1)
}

func TestCardDefaults(t *testing.T) {
	b := trial.Compile(t, trial.Card(""))
	c := b.Card
	trial.WantFaults(t, "defaults", b)
	trial.WantEqual(t, "defaults", fmt.Sprint(c.Confidence, c.Increment, c.Profit, c.Resale, c.VAT, c.Public), "90 1 0 <nil> <nil> {work true true false masked false en en}")
}

func TestCardFaults(t *testing.T) {
	for _, c := range []struct {
		name, card string
		faults     []string
		left       int
	}{
		{name: "nothing", card: "---\n---\n", faults: []string{"missing-name build.md:1:1 ||", "missing-currency build.md:1:1 ||"}},
		{name: "no front matter", card: "words\n", faults: []string{"missing-name build.md:1:1 ||", "missing-currency build.md:1:1 ||"}},
		{name: "empty keys", card: "---\nbuild:\ncurrency:\n---\n", faults: []string{"empty-entry build.md:2:1 |build|", "empty-entry build.md:3:1 |currency|"}},
		{name: "unknown currency", card: "---\nbuild: x\ncurrency: GPB\n---\n", faults: []string{"unknown-currency build.md:3:11 |GPB|"}, left: 1},
		{name: "a rate of its own", card: "---\nbuild: x\ncurrency: GBP\nrates:\n  GBP: 1\n---\n", faults: []string{"own-rate build.md:5:3 |GBP|"}, left: 1},
		{name: "no tax to add", card: "---\nbuild: x\ncurrency: GBP\nfees:\n  a: 12; plus vat\n---\n", faults: []string{"missing-vat build.md:5:10 |plus vat|"}, left: 1},
		{name: "a check after nothing", card: "---\nbuild: x\ncurrency: GBP\ndue checks:\n  tow-test: major\n---\n", faults: []string{"no-after build.md:5:3 |tow-test|"}, left: 1},
		{name: "settings", card: "---\nbuild: x\ncurrency: GBP\npublic:\n  mony: work\n  money: everything\n  hours: true\n---\n",
			faults: []string{"unknown-setting build.md:5:3 |mony|", "unknown-setting build.md:6:10 |everything|", "unknown-setting build.md:7:10 |true|"}, left: 3},
		{name: "a stage twice", card: "---\nbuild: x\ncurrency: GBP\nstages:\n  - paint: budget 5\n  - paint: budget 6\n---\n", faults: []string{"repeated-name build.md:6:5 |paint|"}, left: 1},
		{name: "a rate twice", card: "---\nbuild: x\ncurrency: GBP\nrates:\n  - EUR: 0.8\n  - EUR: 0.9\n---\n", faults: []string{"repeated-name build.md:6:5 |EUR|"}, left: 1},
		{name: "a setting twice", card: "---\nbuild: x\ncurrency: GBP\npublic:\n  - vin: no\n  - vin: full\n---\n", faults: []string{"repeated-name build.md:6:5 |vin|"}, left: 1},
		{name: "unclosed", card: "---\nbuild: x\ncurrency: GBP\n\nWords\n", faults: []string{"unclosed-front-matter build.md:1:1 |---|"}, left: 1},
		{name: "a bad line", card: "---\nbuild: x\ncurrency: GBP\nvat: 20\nresale: 5 4 3\n---\n", faults: []string{"bad-number build.md:4:6 |20|", "bad-estimate build.md:5:11 |4|"}, left: 2},
	} {
		b := trial.Compile(t, "-- build.md --\n"+c.card)
		trial.WantFaults(t, c.name, b, c.faults...)
		trial.WantEqual(t, c.name+": lines left out", b.LinesLeftOut, c.left)
	}
}

func TestVINOnTheCard(t *testing.T) {
	vin := func(v string) *journal.Build { return trial.Compile(t, trial.Card("vehicle:\n  vin: "+v)) }
	trial.WantFaults(t, "bad", vin("1O4AH59H45G118341"), "bad-vin build.md:5:9 |O|")
	b := vin("1G4AH59H55G118341")
	trial.WantFaults(t, "check digit", b, "vin-check-digit build.md:5:16 |5|")
	trial.WantEqual(t, "what it would be", b.Faults[0].Near[0], "4")
	trial.WantEqual(t, "lines left out", b.LinesLeftOut, 0)
}

func TestStages(t *testing.T) {
	stages := trial.Card("stages:\n  rear axle: budget 5; system suspension\n  paint: budget 6")
	b := trial.Compile(t, stages+trial.Session("2026-04-01.md", "stage: rear axel\ntime: 1h\ncost: 5", "- [ ] job a-b: x\n")+
		trial.Session("2026-04-02.md", "stage: paint\ntime:\n  - 1h; stage rear axle\n  - 2h; stage Paint\nremaining:\n  pain: 5\n  paint: nothing", "- [ ] job c-d: x; stage axle\n- [ ] job e-f: x; stage rear axle\n- [ ] job g-h: x; stage\n"))
	trial.WantFaults(t, "stages", b, "unknown-stage 2026-04-01.md:2:8 |rear axel|", "unknown-stage 2026-04-02.md:5:15 |Paint|", "unknown-stage 2026-04-02.md:7:3 |pain|",
		"unknown-stage 2026-04-02.md:10:25 |axle|", "clause-value 2026-04-02.md:12:19 |stage|")
	trial.WantEqual(t, "lines left out", b.LinesLeftOut, 5)
	// A bad stage leaves the note's lines unstaged, and that is not said twice.
	for _, l := range []struct{ got, want string }{{b.Money[0].Stage, ""}, {b.Work[0].Stage, ""}, {b.Work[1].Stage, "rear axle"}} {
		trial.WantEqual(t, "stage", l.got, l.want)
	}
	trial.WantEqual(t, "lines of money and time", len(b.Money)+len(b.Work), 3)

	// A card without stages takes them from the notes, by first use.
	b = trial.Compile(t, trial.Session("2026-04-01.md", "stage: strip\ntime:\n  - 1h; stage wash\ncost: 5; stage strip", "- [ ] x; stage look\n")+
		trial.Session("2026-04-02.md", "stage: srtip\nremaining:\n  paint: 5", ""))
	trial.WantFaults(t, "from the notes", b, "similar-stage 2026-04-02.md:2:8 |srtip|")
	var names []string
	for _, s := range b.Stages {
		names = append(names, s.Name)
	}
	trial.WantEqual(t, "from the notes", strings.Join(names, ", "), "strip, wash, look, srtip, paint")
}

// A plate, an identification number and whom to ask are known by every name that
// builders give them, and by slips of the pen.
func TestKindOfDetail(t *testing.T) {
	for name, want := range map[string]string{
		"vin": journal.VIN, "VIN": journal.VIN, "Chassis number": journal.VIN, "chassis no.": journal.VIN,
		"registration": journal.Registration, "Reg": journal.Registration, "reg. no.": journal.Registration, "number plate": journal.Registration, "Licence plate": journal.Registration,
		"registation": journal.Registration, "regsitration": journal.Registration,
		"contact": journal.Contact, "Phone": journal.Contact, "owner": journal.Contact,
		"make": "", "year": "", "category": "", "keepers": "", "previous owners": "", "region": "", "regular service": "", "registered in": "",
	} {
		if got := (journal.Detail{Name: name}).Kind(); got != want {
			t.Errorf("%q is %q, want %q", name, got, want)
		}
	}
}

// A stage's name that goes over the end of a line of a body is that name.
func TestStageOverTwoLines(t *testing.T) {
	fsys := trial.Files("-- build.md --\n---\nbuild: Halden\ncurrency: GBP\n---\n-- 2026-04-11.md --\n---\nstage: rear axle\n---\n- [ ] job a-b: x; stage rear\n  axle\n- [ ] job c-d: x; stage front\n  axle\n")
	b := trial.CompileFS(t, fsys, ".")
	trial.WantEqual(t, "stages", strings.Join(b.StageNames(), ", "), "rear axle, front axle")
}
