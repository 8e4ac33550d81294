package journal

import (
	"fmt"
	"strings"
	"testing"
)

func TestCard(t *testing.T) {
	b := compile(t, `
-- build.md --
---
fees:
  buyer's fee: 75 to 500, 12% above; plus vat
  delivery: 120; plus vat 5%
build: Halden Fjord estate
vehicle:
  make: Halden
  model: "Fjord: 2.0 estate"
  VIN: 1M8GDM9AXKP042788
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
	wantFaults(t, "card", b)
	c := b.Card
	wantEqual(t, "name", c.Name, "Halden Fjord estate")
	d, _ := c.Detail("Model")
	wantEqual(t, "detail", d.Value, "Fjord: 2.0 estate")
	if _, ok := c.Detail("colour"); ok {
		t.Error("a colour is known")
	}
	wantEqual(t, "figures", fmt.Sprint(c.Currency, c.VAT, c.Rates["EUR"], c.Rates["JPY"], *c.Resale, c.Profit, c.Confidence, c.Increment),
		"{GBP 2} 20 0.86 0.0053 [4600 5200 5600] 800 85 25")
	// `vat` may stand below the fees that add it.
	wantEqual(t, "fees", fmt.Sprint(c.Fees[0].Name, c.Fees[0].VAT, c.Fees[1].Name, c.Fees[1].VAT), "buyer's fee20delivery5")
	var stages []string
	for _, s := range b.Stages {
		stages = append(stages, fmt.Sprintf("%s|%s|%v|%s|%v", s.Name, s.About, s.Budget, s.System, s.Purchase))
	}
	wantEqual(t, "stages", strings.Join(stages, " "), "buying||&[1500 1500 1500]||true rear axle|beam and brakes|&[260 340 520]|suspension|false paint|just colour|<nil>||false")
	wantEqual(t, "public", fmt.Sprint(c.Public), "{totals false false true full true}")
	wantEqual(t, "rules", fmt.Sprint(len(c.DueRules), c.DueRules[0].After, c.DueRules[0].Severity, c.DueRules[0].Because, c.DueRules[1].After, c.DueRules[1].Distance), "2 [electrical] majorthe socket feeds the trailer's lamps[wheels body] 30 mi")
	// The same name replaces all rows of the table.
	var alignment int
	for _, r := range b.DueRules() {
		if r.Name == "alignment" {
			alignment++
		}
	}
	wantEqual(t, "rows called alignment", alignment, 1)
	wantEqual(t, "rows", len(b.DueRules()), len(BuiltInDueRules())+1)
}

func TestCardDefaults(t *testing.T) {
	b := compile(t, card(""))
	c := b.Card
	wantFaults(t, "defaults", b)
	wantEqual(t, "defaults", fmt.Sprint(c.Confidence, c.Increment, c.Profit, c.Resale, c.VAT, c.Public), "90 1 0 <nil> <nil> {work true true false masked false}")
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
		b := compile(t, "-- build.md --\n"+c.card)
		wantFaults(t, c.name, b, c.faults...)
		wantEqual(t, c.name+": lines left out", b.LinesLeftOut, c.left)
	}
}

// The regulator's worked examples of the check digit; see each line.
func TestVIN(t *testing.T) {
	for _, c := range []struct {
		vin, flaw string
		at        int
	}{
		{vin: "1G4AH59H45G118341"}, // 49 CFR part 565, table V (older revision): 411 mod 11 = 4
		{vin: "1J9RP1A36A1644345"}, // NHTSA, Outline for New Manufacturer Information, 565.15(c)(4): 314 mod 11 = 6
		{vin: "1M8GDM9AXKP042788"}, // widely published: 351 mod 11 = 10, written X
		{vin: "11111111111111111"}, // a test number: 89 mod 11 = 1
		{vin: "1m8gdm9axkp042788"}, // in small letters
		{vin: "1G4AH59H55G118341", flaw: "vin-check-digit", at: 8},
		{vin: "1G4AH59HX5G118341", flaw: "vin-check-digit", at: 8},
		{vin: "WVWZZZ1JZ3W386752", flaw: "vin-check-digit", at: 8}, // many European numbers have none
		{vin: "1G4AH59H45G11834I", flaw: "bad-vin", at: 16},
		{vin: "1O4AH59H45G118341", flaw: "bad-vin", at: 1},
		{vin: "1G4AH59H45G11834q", flaw: "bad-vin", at: 16},
		{vin: ""}, {vin: "IOQ"}, {vin: "1G4AH59H45G1183412"}, {vin: "1G4AH59H4-G118341"}, // other numbers are not judged
		{vin: "1G4AH59H45G1183ſ1"}, {vin: "1G4AH59H45G1183ı1"}, {vin: "ⱥ1111111111111Ⱥ"}, // 17 bytes, but no 17 characters
	} {
		flaw, at := checkVIN(c.vin)
		if string(flaw) != c.flaw || at != c.at {
			t.Errorf("checkVIN(%q) = %q at %d, want %q at %d", c.vin, flaw, at, c.flaw, c.at)
		}
	}
	// The transliteration of 49 CFR 565.15(c), table III.
	for letters, value := range map[string]int{"AJ": 1, "BKS": 2, "CLT": 3, "DMU": 4, "ENV": 5, "FW": 6, "GPX": 7, "HY": 8, "RZ": 9, "IOQ": -1} {
		for _, c := range []byte(letters) {
			wantEqual(t, "value of "+string(c), vinValue(c), value)
		}
	}
}

func TestVINOnTheCard(t *testing.T) {
	vin := func(v string) *Build { return compile(t, card("vehicle:\n  vin: "+v)) }
	wantFaults(t, "bad", vin("1O4AH59H45G118341"), "bad-vin build.md:5:9 |O|")
	b := vin("1G4AH59H55G118341")
	wantFaults(t, "check digit", b, "vin-check-digit build.md:5:16 |5|")
	wantEqual(t, "what it would be", b.Faults[0].Near[0], "4")
	wantEqual(t, "lines left out", b.LinesLeftOut, 0)
}

func TestStages(t *testing.T) {
	stages := card("stages:\n  rear axle: budget 5; system suspension\n  paint: budget 6")
	b := compile(t, stages+session("2026-04-01.md", "stage: rear axel\ntime: 1h\ncost: 5", "- [ ] job a-b: x\n")+
		session("2026-04-02.md", "stage: paint\ntime:\n  - 1h; stage rear axle\n  - 2h; stage Paint\nremaining:\n  pain: 5\n  paint: nothing", "- [ ] job c-d: x; stage axle\n- [ ] job e-f: x; stage rear axle\n- [ ] job g-h: x; stage\n"))
	wantFaults(t, "stages", b, "unknown-stage 2026-04-01.md:2:8 |rear axel|", "unknown-stage 2026-04-02.md:5:15 |Paint|", "unknown-stage 2026-04-02.md:7:3 |pain|",
		"unknown-stage 2026-04-02.md:10:25 |axle|", "clause-value 2026-04-02.md:12:19 |stage|")
	wantEqual(t, "lines left out", b.LinesLeftOut, 5)
	// A bad stage leaves the note's lines unstaged, and that is not said twice.
	wantEqual(t, "sums", stagesOf(b.At(0, today).Costs()), "rear axle 0.00-0.00 60min, paint 0.00-0.00 0min, unstaged 5.00-0.00 60min")

	// A card without stages takes them from the notes, by first use.
	b = compile(t, session("2026-04-01.md", "stage: strip\ntime:\n  - 1h; stage wash\ncost: 5; stage strip", "- [ ] x; stage look\n")+
		session("2026-04-02.md", "stage: srtip\nremaining:\n  paint: 5", ""))
	wantFaults(t, "from the notes", b, "similar-stage 2026-04-02.md:2:8 |srtip|")
	var names []string
	for _, s := range b.Stages {
		names = append(names, s.Name)
	}
	wantEqual(t, "from the notes", strings.Join(names, ", "), "strip, wash, look, srtip, paint")
}

// A plate, an identification number and whom to ask are known by every name that
// builders give them, and by slips of the pen.
func TestKindOfDetail(t *testing.T) {
	for name, want := range map[string]string{
		"vin": VIN, "VIN": VIN, "Chassis number": VIN, "chassis no.": VIN,
		"registration": Registration, "Reg": Registration, "reg. no.": Registration, "number plate": Registration, "Licence plate": Registration,
		"registation": Registration, "regsitration": Registration,
		"contact": Contact, "Phone": Contact, "owner": Contact,
		"make": "", "year": "", "category": "", "keepers": "", "previous owners": "", "region": "", "regular service": "", "registered in": "",
	} {
		if got := (Detail{Name: name}).Kind(); got != want {
			t.Errorf("%q is %q, want %q", name, got, want)
		}
	}
	b := compile(t, "-- build.md --\n---\nbuild: H\ncurrency: GBP\nvehicle:\n  Reg no.: QX16 ZZT\n  phone: 01234\n  chassis number: 1M8GDM9AXKP042788\n  make: Halden\n---\n")
	wantEqual(t, "public", fmt.Sprint(b.At(0, today).View(ForPublic).Vehicle), "[{chassis number 1M8•••••••••••••• {<nil> 0 0}} {make Halden {<nil> 0 0}}]")
}

// A stage's name that goes over the end of a line of a body is that name.
func TestStageOverTwoLines(t *testing.T) {
	fsys := files("-- build.md --\n---\nbuild: Halden\ncurrency: GBP\n---\n-- 2026-04-11.md --\n---\nstage: rear axle\n---\n- [ ] job a-b: x; stage rear\n  axle\n- [ ] job c-d: x; stage front\n  axle\n")
	b := compileFS(t, fsys, ".")
	wantEqual(t, "stages", strings.Join(b.stageNames, ", "), "rear axle, front axle")
}
