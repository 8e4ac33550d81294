package check

import (
	"strings"
	"testing"

	"guidecoat/journal/problem"
	"guidecoat/journal/state"
	"guidecoat/journal/trial"
)

// A scenario is a build that somebody wants to sell and to drive, in short: "02 parts
// hose: fitted x" is a line below the key parts in the note of the second of April, and
// "02 - [ ] words" an item of it; a key's space is "_". Lines without a day are the job card's.
type scenario struct{ name, build, sell, drive string }

// gateBuild writes the archive of a scenario.
func gateBuild(build string) string {
	type part struct {
		keys  []string
		lines map[string][]string
		body  string
	}
	var days []string
	by := map[string]*part{"": {lines: map[string][]string{}}}
	for line := range strings.SplitSeq(build, "\n") {
		day, rest := "", strings.TrimSpace(line)
		if rest == "" {
			continue
		}
		if rest[0] >= '0' && rest[0] <= '9' {
			day, rest, _ = strings.Cut(rest, " ")
		}
		p := by[day]
		if p == nil {
			p = &part{lines: map[string][]string{}}
			by[day], days = p, append(days, day)
		}
		if strings.HasPrefix(rest, "- [") || strings.HasPrefix(rest, "scan ") {
			if unit, codes, ok := strings.Cut(rest, ": "); ok && strings.HasPrefix(rest, "scan ") {
				rest = "```" + unit + "\n" + strings.ReplaceAll(codes, ", ", "\n") + "\n```"
			}
			p.body += rest + "\n"
			continue
		}
		key, value, _ := strings.Cut(rest, " ")
		key = strings.ReplaceAll(key, "_", " ")
		if p.lines[key] == nil {
			p.keys = append(p.keys, key)
		}
		p.lines[key] = append(p.lines[key], value)
	}
	front := func(p *part) string {
		text := ""
		for _, key := range p.keys {
			if strings.HasSuffix(key, ":") {
				text += key + " " + p.lines[key][0] + "\n"
				continue
			}
			text += key + ":\n"
			for _, l := range p.lines[key] {
				text += "  - " + l + "\n"
			}
		}
		return strings.TrimSuffix(text, "\n")
	}
	archive := trial.Card(front(by[""]))
	for _, day := range days {
		archive += trial.Session("2026-04-"+day+".md", front(by[day]), by[day].body)
	}
	return archive
}

// The whole way from the notes to the verdict, as somebody would try it who has read what
// the note language promises: which requirements are not met, of the sale and of driving.
func TestGate(t *testing.T) {
	for _, c := range gateScenarios {
		build := c.build
		if !strings.Contains(build, "vehicle category:") {
			build = "vehicle category: none\n" + build
		}
		b := trial.Compile(t, gateBuild("vehicle registration: X\nvehicle odometer: 1000 km\n"+build))
		st := state.At(b, 0, today)
		var errors []state.Stop
		for _, p := range Run(st, problem.Error) {
			errors = append(errors, state.Stop{Text: p.Message, Span: p.Span})
		}
		if (len(errors) > 0) != strings.Contains(c.sell, "notes") {
			t.Errorf("%s: %v", c.name, errors)
		}
		unmet := func(list []state.Requirement) string {
			var names []string
			for _, r := range list {
				if !r.Met() {
					names = append(names, r.Name)
				}
			}
			return strings.Join(names, " ")
		}
		trial.WantEqual(t, c.name+": to sell", unmet(st.ToSell(errors)), c.sell)
		trial.WantEqual(t, c.name+": to drive", unmet(st.ToDrive(errors)), c.drive)
	}
}

var gateScenarios = []scenario{
	{"nothing but a note", "01 stage: x", "", ""},
	// Checks due.
	{"a hose, and no check", "02 parts hose: fitted hose; new; free; system brakes", "safety", "dangerous"},
	{"tested, and the wheel bolts not yet", "02 odometer: 1000 km\n02 parts hose: fitted hose; free; system brakes\n02 checks brake-test: passed\n02 checks brake-leak-check: done", "safety", ""},
	{"all three", "02 odometer: 1000 km\n02 parts hose: fitted hose; free; system brakes\n02 checks brake-test: passed\n02 checks brake-leak-check: done\n03 checks wheel-retorque: done; at 1050 km", "", ""},
	{"the wheel bolts too soon", "02 odometer: 1000 km\n02 parts hub: fitted hub; free; system wheels\n03 checks wheel-retorque: done; at 1039 km", "safety", ""},
	{"the wheel bolts late", "02 odometer: 1000 km\n02 parts hub: fitted hub; free; system wheels\n03 checks wheel-retorque: done; at 1500 km", "", ""},
	{"the wheel bolts by the odometer of the note", "02 odometer: 1000 km\n02 parts hub: fitted hub; free; system wheels\n03 odometer: 1060 km\n03 checks wheel-retorque: done", "", ""},
	{"the wheel bolts by an earlier odometer", "01 odometer: 1000 km\n02 parts hub: fitted hub; free; system wheels\n03 checks wheel-retorque: done; at 1060 km", "", ""},
	{"the wheel bolts by a new cluster", "02 odometer: 1000 km\n02 parts hub: fitted hub; free; system wheels\n03 odometer: 5 km; new cluster\n04 checks wheel-retorque: done; at 46 km", "", ""},
	{"the wheel bolts by a new cluster, too soon", "02 odometer: 1000 km\n02 parts hub: fitted hub; free; system wheels\n03 odometer: 5 km; new cluster\n04 checks wheel-retorque: done; at 44 km", "safety", ""},
	{"a dangerous distance by a new cluster", "due_checks hub-check: after wheels; dangerous; distance 50 km\n02 odometer: 1000 km\n02 parts hub: fitted hub; free; system wheels\n03 odometer: 5 km; new cluster\n04 odometer: 56 km", "safety", "dangerous"},
	{"no odometer anywhere", "02 parts hub: fitted hub; free; system wheels\n03 checks wheel-retorque: done", "safety", ""},
	{"only the coolant checked", "02 parts hose: fitted hose; free; system brakes\n02 parts line: fitted line; free; system fuel\n03 checks coolant-leak-check: passed", "safety", "dangerous"},
	{"checked before the work", "01 checks fuel-leak-check: passed\n02 parts line: fitted line; free; system fuel", "safety", "dangerous"},
	{"checked, then more work", "02 parts line: fitted line; free; system fuel\n03 checks fuel-leak-check: passed\n04 parts line: refitted", "safety", "dangerous"},
	{"a result that is taken back", "02 parts line: fitted line; free; system fuel\n03 checks fuel-leak-check: passed - no, failed", "safety", "dangerous"},
	{"tomorrow", "02 parts line: fitted line; free; system fuel\n03 checks fuel-leak-check: done tomorrow", "safety", "dangerous"},
	{"before the work was begun", "02 parts line: fitted line; free; system fuel\n02 checks fuel-leak-check: done before I opened it", "safety", "dangerous"},
	{"before dinner", "02 parts line: fitted line; free; system fuel\n02 checks fuel-leak-check: done before dinner", "", ""},
	{"it asks for nothing", "02 parts sensor: fitted sensor; free; system brakes; asks for nothing", "", ""},
	{"it asks for one", "02 parts cable: fitted cable; free; system brakes; asks for brake-test\n02 checks brake-test: passed", "", ""},
	{"it asks for one of its own", "02 parts step: fitted step; free; system body; asks for step-test", "safety", ""},
	{"a ticked job on the brakes", "02 - [x] job pipe-new: made; system brakes", "safety", "dangerous"},
	{"a ticked job in a stage of the brakes", "stages axle: system brakes\n02 stage: axle\n02 - [x] job pipe-new: made", "", ""},
	{"hours in a stage of the brakes", "stages axle: system brakes\n02 stage: axle\n02 time 2h", "", ""},
	{"looked at only", "02 - [x] inspect pipe-rear: dry; system brakes", "", ""},
	{"a minor check", "02 parts hose: fitted hose; free; system cooling", "minor", ""},
	{"a minor check disclosed", "02 parts hose: fitted hose; free; system cooling\n03 - [ ] coolant-leak-check: not run yet; disclose", "", ""},
	{"a dangerous check disclosed", "02 parts line: fitted line; free; system fuel\n03 - [ ] fuel-leak-check: not run yet; disclose", "notes safety", "notes dangerous"},
	{"a row of the card in place of the table's", "due_checks fuel-leak-check: after fuel; minor\n02 parts line: fitted line; free; system fuel", "minor", ""},
	{"a row of the card beside the table", "due_checks tow-test: after electrical; dangerous\n02 parts plug: fitted plug; free; system electrical", "safety", "dangerous"},
	{"a part of where it was fitted", "stages glass: system interior\nstages shell: system structure\n01 stage: glass\n01 parts post: needed post\n02 stage: shell\n02 parts post: fitted; free", "safety", "dangerous"},
	{"a part's own system counts alone", "stages shell: system structure\n02 stage: shell\n02 parts trim: fitted trim; free; system interior", "", ""},
	{"the camera, without a camera", "02 parts screen: fitted screen; free; system visibility", "", ""},
	{"the camera", "vehicle equipment: camera\n02 parts screen: fitted screen; free; system visibility", "safety", ""},
	{"the tyre sensors", "vehicle equipment: tyre sensors\n02 odometer: 1000 km\n02 parts tyre: fitted tyre; free; system wheels\n03 checks wheel-retorque: done; at 1060 km", "minor", ""},
	{"high voltage", "02 parts pack: fitted pack; free; system high-voltage\n02 checks hv-dead: done", "safety", "dangerous"},
	// Checks that failed.
	{"a failed check", "02 checks brake-test: failed pulls left", "safety", "dangerous"},
	{"a failed check of no row", "02 checks horn-test: failed", "safety", ""},
	{"failed, called minor", "02 checks horn-test: failed; minor", "minor", ""},
	{"failed, called minor and disclosed", "02 checks horn-test: failed; minor\n03 - [ ] horn-test: told; disclose", "", ""},
	{"failed, called dangerous", "02 checks horn-test: failed; dangerous", "safety", "dangerous"},
	{"failed, then done", "02 checks brake-test: failed\n03 checks brake-test: done", "safety", "dangerous"},
	{"failed, then passed", "02 checks brake-test: failed\n03 checks brake-test: passed", "", ""},
	{"failed, and then passed the same day", "02 checks brake-test: failed\n02 checks brake-test: passed", "", ""},
	{"passed, and then failed the same day", "02 checks brake-test: passed\n02 checks brake-test: failed", "safety", "dangerous"},
	{"failed minor while it is due", "02 parts line: fitted line; free; system fuel\n03 checks fuel-leak-check: failed; minor", "safety", "dangerous"},
	{"failed, then passed in part", "02 checks brake-test: failed\n03 checks brake-test: passed on one side only", "safety", "dangerous"},
	// Readings and scans.
	{"a reading too low", "02 readings disc: 7 mm; min 8 mm", "safety", ""},
	{"a reading too low that is dangerous", "02 readings disc: 7 mm; min 8 mm; dangerous", "safety", "dangerous"},
	{"a reading at its limit", "02 readings disc: 8 mm; min 8 mm", "", ""},
	{"a limit that carries forward", "02 readings disc: 9 mm; min 8 mm\n03 readings disc: 7.9 mm", "safety", ""},
	{"a reading that is right again", "02 readings disc: 7 mm; min 8 mm\n03 readings disc: 9 mm", "", ""},
	{"a minor reading", "02 readings disc: 7 mm; min 8 mm; minor", "minor", ""},
	{"a minor reading disclosed", "02 readings disc: 7 mm; min 8 mm; minor\n03 - [ ] reading-disc: told; disclose", "", ""},
	{"the wrong sign", "02 readings thrust: -0.9 deg; within -0.15..0.15 deg", "safety", ""},
	{"a fault code", "02 scan srs: B0001 driver bag", "safety", ""},
	{"a fault code gone", "02 scan srs: B0001 driver bag\n03 scan srs: no faults", "", ""},
	{"gone from another unit", "02 scan srs: B0001 driver bag\n03 scan abs: no faults", "safety", ""},
	{"another code instead", "02 scan srs: B0001 driver bag\n03 scan srs: B0002 passenger bag", "safety", ""},
	// Damage, fired, flood, categories.
	{"damage to the structure", "damage side: sill; system structure\n01 stage: x", "safety", "dangerous"},
	{"damage of no system", "damage side: scratched\n01 stage: x", "", ""},
	{"damage looked at", "damage tank: strap; system fuel\n01 stage: x\n02 checks fuel-leak-check: passed", "", ""},
	{"damage to the wheels, looked at where it stands", "damage wheel: kerb; system wheels\n01 stage: x\n02 checks wheel-retorque: done", "", ""},
	{"fired, and nothing came", "damage side: x; fired curtain-left\n01 stage: x\n01 checks restraint-scan: passed", "parts", ""},
	{"fired, and a new one", "damage side: x; fired curtain-left\n02 parts curtain-left: fitted curtain; new; free\n03 checks restraint-scan: passed", "", ""},
	{"fired, and a used one", "damage side: x; fired curtain-left\n02 parts curtain-left: fitted curtain; used; free\n03 checks restraint-scan: passed", "safety", "dangerous"},
	{"fired, and the same one back", "damage side: x; fired curtain-left\n02 parts curtain-left: refitted folded\n03 checks restraint-scan: passed", "safety", "dangerous"},
	{"fired, and called of the interior", "damage side: x; fired curtain-left\n02 parts curtain-left: fitted curtain; used; free; system interior\n03 checks restraint-scan: passed", "safety", "dangerous"},
	{"fired, and cancelled", "damage side: x; fired curtain-left\n01 parts curtain-left: ordered\n02 parts curtain-left: cancelled\n03 checks restraint-scan: passed", "safety", "dangerous"},
	{"fired, asks for nothing", "damage side: x; fired curtain-left\n02 parts curtain-left: fitted curtain; new; free; asks for nothing", "safety", "dangerous"},
	{"a flood", "damage water: seats; flood\n01 stage: x", "safety", "dangerous"},
	{"a flood, the scan alone", "damage water: seats; flood\n01 checks restraint-scan: passed", "safety", ""},
	{"a flood, all of it", "damage water: seats; flood\n01 checks restraint-scan: passed\n01 checks connector-check: done\n01 checks bearing-check: done\n01 checks fluid-change: done", "", ""},
	{"a flood with high voltage", "vehicle equipment: high-voltage\ndamage water: seats; flood\n01 checks restraint-scan: passed\n01 checks connector-check: done\n01 checks bearing-check: done\n01 checks fluid-change: done", "safety", "dangerous"},
	{"category A", "vehicle category: A\n01 stage: x", "category", "category"},
	{"category B, repaired", "vehicle category: Cat B\n01 inspection: passed; by Marl", "category", "category"},
	{"category S", "vehicle category: S\n01 stage: x", "", ""},
	{"an airbag from a flooded donor", "donors lark: 500.00 a hatch; flood; on 2026-02-01\n02 parts bag: fitted airbag; used; donor lark; worth 50; system restraints\n03 checks restraint-scan: passed", "safety", "dangerous"},
	{"and then a new one", "donors lark: 500.00 a hatch; flood; on 2026-02-01\n02 parts bag: fitted airbag; used; donor lark; worth 50; system restraints\n03 parts bag: returned\n04 parts bag-new: fitted airbag; new; free; system restraints\n04 checks restraint-scan: passed", "", ""},
	{"a seat from a flooded donor", "donors lark: 500.00 a hatch; flood; on 2026-02-01\n02 parts seat: fitted seat; used; donor lark; worth 50; system interior", "", ""},
	{"a door from category A", "donors lark: 500.00 a hatch; category A; on 2026-02-01\n02 parts door: fitted door; used; donor lark; worth 50; system body", "notes", "notes"},
	{"a belt from category B", "donors lark: 500.00 a hatch; category B; on 2026-02-01\n02 parts belt: fitted belt; used; donor lark; worth 50; system restraints\n03 checks restraint-scan: passed", "notes", "notes"},
	// Inspections and papers.
	{"failed, with nothing listed", "02 inspection: failed; by Marl", "inspection", "inspection"},
	{"failed, then passed", "02 inspection: failed; by Marl\n03 inspection: passed; by Marl", "", ""},
	{"a major, mended but not tested again", "02 inspection: failed; by Marl\n02 found pads: major 1.1.13 thin\n03 - [x] pads: new ones", "inspection", "inspection"},
	{"a dangerous, cleared by the retest", "02 inspection: failed; by Marl\n02 found hose-rear: dangerous 1.1.12 bulging\n03 inspection: passed; by Marl", "", ""},
	{"listed again by one that passed, the worse word stands", "02 inspection: failed; by Marl\n02 found hose-rear: dangerous 1.1.12 bulging\n03 inspection: passed; by Marl\n03 found hose-rear: major 1.1.12 still", "safety", "dangerous"},
	{"a retest that finds another", "02 inspection: failed; by Marl\n02 found hose-rear: dangerous 1.1.12 bulging\n03 inspection: passed; by Marl\n03 found hose-front: dangerous 1.1.12 bulging", "safety", "dangerous"},
	{"a retest settles no check that is due", "02 parts line: fitted line; free; system fuel\n03 inspection: passed; by Marl", "safety", "dangerous"},
	{"a retest settles no failed check", "02 checks brake-test: failed\n03 inspection: passed; by Marl", "safety", "dangerous"},
	{"a retest clears no snag of the builder's", "01 - [ ] job hose-rear: bulging; dangerous\n02 inspection: failed; by Marl\n02 found hose-rear: dangerous 1.1.12\n03 inspection: passed; by Marl", "safety", "dangerous"},
	{"an advisory stays", "02 inspection: passed; by Marl\n02 found bush: advisory worn", "minor", ""},
	{"an advisory disclosed", "02 inspection: passed; by Marl\n02 found bush: advisory worn; disclose", "", ""},
	{"a retest that is taken back", "02 inspection: failed; by Marl\n03 inspection: passed booked for Friday", "inspection", "inspection"},
	{"as a check", "02 checks roadworthiness-test: failed", "safety inspection", "inspection"},
	{"as a check, passed", "02 checks roadworthiness-test: failed\n03 checks roadworthiness-test: passed; by Marl", "", ""},
	{"a certificate that has ended", "02 inspection: passed; by Marl; until 2026-04-30", "", "papers"},
	{"a certificate that runs on", "02 inspection: passed; by Marl; until 2027-04-30", "", ""},
	{"a certificate renewed", "02 inspection: passed; by Marl; until 2026-04-30\n03 inspection: passed; by Marl; until 2027-04-30", "", ""},
	{"laid up", "papers insurance: laid up only; until 2027-07-16; road no\n01 stage: x", "", "papers"},
	{"insurance that has ended", "papers insurance: for the road; until 2026-07-16; road yes\n01 stage: x", "", "papers"},
	{"insurance renewed", "papers insurance: for the road; until 2026-07-16; road yes\n02 papers insurance: renewed; until 2027-07-16; road yes", "", ""},
	{"a paper that says nothing of the road", "papers permit: until 2026-07-16\n01 stage: x", "", ""},
	// Fasteners.
	{"not tightened", "fasteners pinch: 60 Nm + 90°; of arm\n02 parts arm: fitted arm; free; system body", "safety", ""},
	{"not tightened, on the suspension", "fasteners pinch: 60 Nm + 90°; of arm\n02 parts arm: fitted arm; free; system fuel\n02 checks fuel-leak-check: passed", "safety", "dangerous"},
	{"tightened as written", "fasteners pinch: 60 Nm + 90°; of arm\n02 parts arm: fitted arm; free; system body\n02 fasteners pinch: 60 Nm + 90°", "", ""},
	{"the old bolt", "fasteners pinch: 60 Nm; of arm; single use\n02 parts arm: fitted arm; free; system body\n02 fasteners pinch: 60 Nm", "safety", ""},
	{"a new bolt in the air", "fasteners pinch: 60 Nm; of arm; single use; at ride height\n02 parts arm: fitted arm; free; system body\n02 fasteners pinch: 60 Nm; new", "safety", ""},
	{"a new bolt at ride height", "fasteners pinch: 60 Nm; of arm; single use; at ride height\n02 parts arm: fitted arm; free; system body\n02 fasteners pinch: 60 Nm; new; at ride height", "", ""},
	{"off and on again", "fasteners pinch: 60 Nm; of arm\n02 parts arm: fitted arm; free; system body\n02 fasteners pinch: 60 Nm\n03 parts arm: refitted", "safety", ""},
	{"one of no part", "fasteners pinch: 60 Nm\n01 stage: x", "notes", "notes"},
	// Snags, temporary fixes, disclosing, parts.
	{"a temporary fix", "02 - [ ] temporary hanger-wire: wire", "temporary safety", ""},
	{"a dangerous one", "02 - [ ] temporary hose-clip: tie; dangerous", "temporary safety", "dangerous"},
	{"a temporary fix disclosed", "02 - [ ] temporary hanger-wire: wire; minor; disclose", "notes", "notes"},
	{"a temporary fix put right", "02 - [ ] temporary hanger-wire: wire\n03 - [x] hanger-wire: rubber", "", ""},
	{"put right on the brakes", "02 - [ ] temporary hose-clip: tie; system brakes\n03 - [x] hose-clip: clip", "safety", "dangerous"},
	{"a major disclosed", "02 - [ ] job dent-door: x; major; disclose", "notes", "notes"},
	{"a snag on a safety system", "02 - [ ] job belt-frayed: x; system restraints", "safety", ""},
	{"a minor one there, disclosed", "02 - [ ] job belt-cover: scratched; minor; disclose; system restraints", "", ""},
	{"opened again", "02 - [x] job door-gap: set\n03 - [ ] again door-gap: out again; major", "safety", ""},
	{"a part of the brakes to come", "02 parts hose: ordered hose; system brakes", "parts", ""},
	{"a part of the brakes given up", "02 parts hose: ordered hose; system brakes\n03 parts hose: cancelled", "", ""},
	{"a surcharge", "02 cost 90.00 pump; for pump; surcharge 20.00\n02 parts pump: arrived pump; system engine", "money", ""},
	{"a private danger", "02 - [ ] job hose-rear: bulging; dangerous; private", "safety", "dangerous"},
	{"fitted, and sent back", "02 parts hose: fitted hose; free; system brakes\n03 parts hose: returned", "safety", "dangerous"},
	{"a loose part that asks for nothing", "02 parts trim: arrived trim; system brakes; asks for nothing", "parts", ""},
	{"a loose part of the body", "02 parts wing: arrived wing; system body", "", ""},
	{"refitted like fitted", "02 parts line: refitted line; free; system fuel", "safety", "dangerous"},
	{"the inspection makes itself due", "due_checks roadworthiness-test: after body; dangerous\n02 parts wing: fitted wing; free; system body\n03 inspection: passed; by Marl", "", ""},
	{"the inspection was before the work", "due_checks roadworthiness-test: after body; dangerous\n02 inspection: passed; by Marl\n03 parts wing: fitted wing; free; system body", "safety", "dangerous"},
	{"a failed inspection names no car unfit by its papers", "02 inspection: failed; by Marl; until 2027-01-01", "inspection", "inspection"},
	{"one that failed, with its time run out", "02 inspection: failed; by Marl; until 2026-05-01\n03 inspection: passed; by Marl", "", "papers"},
	{"sold: its papers are the buyer's", "papers insurance: laid up; until 2026-07-16; road no\n02 sold: 900.00", "", ""},
	{"a check in another case of letters", "02 checks brake-test: failed\n03 checks brake-test: Passed", "notes safety", "notes dangerous"},
	{"a tick on a check", "02 parts line: fitted line; free; system fuel\n03 - [x] fuel-leak-check: dry", "notes safety", "notes dangerous"},
	{"a slip in the name of a check", "02 parts line: fitted line; free; system fuel\n03 checks fuel-leek-check: passed", "safety", "dangerous"},
	{"an inspection without a result", "02 inspection: by Marl", "notes", "notes"},
	{"equipment misspelt turns nothing on", "vehicle equipment: camra\n02 parts screen: fitted screen; free; system visibility", "", ""},
	{"cleared before it was found", "01 - [x] hose-rear: new\n02 inspection: passed; by Marl\n02 found hose-rear: dangerous 1.1.12", "notes safety", "notes dangerous"},
	{"damage on a system that there is not", "damage side: x; system brake\n01 stage: x", "notes", "notes"},
	{"an angle without a torque", "fasteners pinch: 90°; of arm\n02 parts arm: fitted arm; free; system body", "notes", "notes"},
	{"found by no inspection", "02 found hose-rear: dangerous 1.1.12", "notes", "notes"},
	{"a line that cannot be read", "02 cost 12,50 seals", "notes", "notes"},
}
