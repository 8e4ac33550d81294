package state

import (
	"fmt"
	"strings"
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/trial"
)

func TestPartStates(t *testing.T) {
	b := trial.Compile(t, trial.Card("stages:\n  axle: system suspension\n  lights: system lighting\n  paint: colour")+
		trial.Session("2026-04-01.md", "stage: axle\nparts:\n  beam: needed rear axle beam; used; genuine; estimate 100 140 200; number 4F0; donor 2014 estate; due 2026-05-01\n  lamp: ordered lamp, left; stage lights; free; warranty 2027-01-01\n  fog: needed; new", "")+
		trial.Session("2026-04-10.md", "stage: paint\nparts:\n  beam: ordered from the yard; from Mill Lane; due 2026-06-01; estimate 130\n  lamp: arrived; system electrical; pattern", "")+
		trial.Session("2026-06-10.md", "parts:\n  - beam: arrived\n  - beam: fitted with new bolts; reconditioned", ""))
	trial.WantFaults(t, "states", b, "undescribed-part 2026-04-01.md:6:3 |fog|")
	show := func(date, id string) string {
		p := At(b, trial.Day(date), trial.Today).Part(id)
		if p == nil {
			return "none"
		}
		late := ""
		if p.Late {
			late = " late"
		}
		return fmt.Sprintf("%s %s %s/%s %s %s %v %s%s", p.State, p.Since, p.Stage, p.System, p.Condition, p.Origin, p.Estimate, p.Due, late)
	}
	for _, c := range []struct{ date, id, want string }{
		{"2026-03-31", "beam", "none"},
		{"2026-04-01", "beam", "needed 2026-04-01 axle/suspension used genuine &[100 140 200] 2026-05-01"},
		{"2026-04-01", "lamp", "ordered 2026-04-01 lights/lighting   <nil> "},
		{"2026-04-10", "beam", "ordered 2026-04-10 axle/suspension used genuine &[130 130 130] 2026-06-01"},
		{"2026-06-01", "beam", "ordered 2026-04-10 axle/suspension used genuine &[130 130 130] 2026-06-01"},
		{"2026-06-02", "beam", "ordered 2026-04-10 axle/suspension used genuine &[130 130 130] 2026-06-01 late"},
		{"2026-06-10", "beam", "fitted 2026-06-10 axle/suspension reconditioned genuine &[130 130 130] 2026-06-01"},
		{"2026-06-10", "lamp", "arrived 2026-04-10 lights/electrical  pattern <nil> "},
	} {
		trial.WantEqual(t, c.id+" on "+c.date, show(c.date, c.id), c.want)
	}
	p := At(b, 0, trial.Today).Part("beam")
	trial.WantEqual(t, "details", strings.Join([]string{p.Description, p.Supplier, p.Number, p.Donor}, "|"), "rear axle beam|Mill Lane|4F0|2014 estate")
	var remarks []string
	for _, l := range p.Lines {
		remarks = append(remarks, l.State+" "+l.Remark)
	}
	trial.WantEqual(t, "remarks", strings.Join(remarks, "|"), "needed |ordered from the yard|arrived |fitted with new bolts")
	lamp := At(b, 0, trial.Today).Part("lamp")
	trial.WantEqual(t, "free and its warranty", fmt.Sprint(lamp.Free, lamp.Warranty), "true 2027-01-01")
}

// The first four go forward only; refitted stands beside fitted; the last three end a round.
func TestPartsGoForward(t *testing.T) {
	for states, backwards := range map[string]int{
		"needed ordered arrived fitted":                 0,
		"needed fitted refitted fitted":                 0,
		"arrived ordered":                               1,
		"fitted needed":                                 1,
		"refitted arrived":                              1,
		"needed cancelled needed":                       0,
		"fitted returned needed ordered arrived fitted": 0,
		"arrived sold ordered":                          0,
		"cancelled returned":                            0,
		"ordered needed ordered needed":                 2,
		"needed needed ordered ordered":                 0,
		"returned arrived needed":                       1,
	} {
		archive := ""
		for i, s := range strings.Fields(states) {
			archive += trial.Session(fmt.Sprintf("2026-04-%02d.md", i+1), "parts:\n  hub: "+s+" hub", "")
		}
		b := trial.Compile(t, archive)
		got := 0
		for _, f := range b.Faults {
			if f.Flaw == journal.PartBackwards {
				got++
			}
		}
		trial.WantEqual(t, states, got, backwards)
		trial.WantEqual(t, states+": lines left out", b.LinesLeftOut, 0)
	}
}

// Rounds: `returned`, `cancelled` and `sold` end one; a later state opens a new one,
// whose estimate stands until a cost is dated in it. Paid is costs less refunds.
func TestRoundsAndPaid(t *testing.T) {
	b := trial.Compile(t, trial.Card("stages:\n  axle: budget 10")+
		trial.Session("2026-04-01.md", "stage: axle\nparts:\n  hub: needed hub; estimate 40 50 60; due 2026-04-02", "")+
		trial.Session("2026-04-05.md", "stage: axle\nparts:\n  hub: ordered\ncost: 45; for hub; on 2026-04-06", "")+
		trial.Session("2026-04-10.md", "stage: axle\nparts:\n  hub: returned wrong side\ncredit:\n  - 45; for hub\n  - 2; as spares; for hub\n  - 1; as surcharge; for hub", "")+
		trial.Session("2026-04-12.md", "stage: axle\ncost: 3.50; for hub", "")+
		trial.Session("2026-04-20.md", "stage: axle\nparts:\n  hub: needed", "")+
		trial.Session("2026-04-25.md", "stage: axle\ncost: 52; for hub; on 2026-04-24", ""))
	for date, want := range map[string]string{
		"2026-04-01": "needed 0.00 false late:false remaining [40 50 60]",
		"2026-04-05": "ordered 0.00 false late:true remaining [40 50 60]",
		"2026-04-06": "ordered 45.00 true late:true remaining [0 0 0]",     // 10 - 45 is under zero
		"2026-04-10": "returned 0.00 true late:false remaining [13 13 13]", // 10 - (45 - 48)
		"2026-04-12": "returned 3.50 true late:false remaining [9.5 9.5 9.5]",
		"2026-04-20": "needed 3.50 false late:false remaining [40 50 60]",
		"2026-04-24": "needed 55.50 true late:false remaining [0 0 0]", // 10 - 52.50
	} {
		st := At(b, trial.Day(date), trial.Today)
		p := st.Part("hub")
		got := fmt.Sprintf("%s %s %v late:%v remaining %v", p.State, b.FormatMoney(*p.Paid), p.PaidInRound, p.Late, st.Costs().Stages[0].Remaining)
		trial.WantEqual(t, "on "+date, got, want)
	}
}

// A cost of the day on which a round begins is dated in it; one of the day before is not.
func TestRoundBeginsWithItsDay(t *testing.T) {
	for on, paid := range map[string]bool{"2026-04-19": false, "2026-04-20": true, "2026-04-21": true} {
		b := trial.Compile(t, trial.Session("2026-04-01.md", "parts:\n  hub: ordered hub; estimate 40", "")+trial.Session("2026-04-10.md", "parts:\n  hub: returned", "")+
			trial.Session("2026-04-20.md", "parts:\n  hub: ordered", "")+trial.Session("2026-04-30.md", "stage: x\ncost: 5; for hub; on "+on, ""))
		trial.WantEqual(t, on, At(b, 0, trial.Today).Part("hub").PaidInRound, paid)
	}
}

// Parts, snags and what follows by itself share one name space.
func TestOneNameSpace(t *testing.T) {
	b := trial.Compile(t, trial.Session("2026-04-01.md", "stage: axle\nparts:\n  rear-beam: needed beam\n  front-beam: needed beam\n  - brake-test: needed a test\n  - brake-test: fitted\nreadings:\n  disc: 8.7 mm; min 8 mm",
		"- [ ] job rear-beam: x\n- [ ] job alignment-two: x\n- [ ] recheck wheel-retorque: x\n- [ ] job reading-disc: x\n- [ ] job scan-abs-c0035: x\n- [x] front-beam: in\n- [ ] front-beam: a word\n- [x] brake-test: y\n- [x] scan-abs-C0035: z\n\n```scan abs\nC0035\n```\n"))
	trial.WantFaults(t, "name space", b, "id-taken 2026-04-01.md:6:5 |brake-test|", "id-taken 2026-04-01.md:11:11 |rear-beam|", "id-taken 2026-04-01.md:13:15 |wheel-retorque|",
		"id-taken 2026-04-01.md:14:11 |reading-disc|", "id-taken 2026-04-01.md:17:7 |front-beam|", "unknown-snag 2026-04-01.md:19:7 |scan-abs-C0035|")
}

// A new part with an id that is probably a slip is mentioned; ids that were meant to
// be told apart are not.
func TestNearParts(t *testing.T) {
	for ids, want := range map[string]string{
		"radiator raditor":             "near-part 2026-04-01.md:4:5 |raditor|",
		"rear-beam rearbeam":           "near-part 2026-04-01.md:4:5 |rearbeam|",
		"radiator-left raditor-left":   "near-part 2026-04-01.md:4:5 |raditor-left|",
		"radiator radiator":            "",
		"seal-1 seal-2":                "",
		"bracket-1 bracket-12":         "",
		"disc-fl disc-fr":              "",
		"mirror-l mirror-r":            "",
		"seat seal":                    "",
		"hose-a hose-b":                "",
		"lamp-near lamp-rear":          "",
		"panel-upper panel-lower":      "",
		"radiator condenser":           "",
		"radiator raditor-cap":         "",
		"radiator radiator-cap-bleed":  "",
		"bumper-front-left bumper-rip": "",
	} {
		a, b, _ := strings.Cut(ids, " ")
		build := trial.Compile(t, trial.Card("")+trial.Session("2026-04-01.md", "parts:\n  - "+a+": needed one\n  - "+b+": needed another", ""))
		var wanted []string
		if want != "" {
			wanted = []string{want}
		}
		trial.WantFaults(t, ids, build, wanted...)
	}
}

// The vehicle's own part that goes back on, after what was to replace it was
// cancelled, has nothing of that: not its origin, not where it was bought.
func TestOwnPartBackIsNotWhatWasBought(t *testing.T) {
	const bought = "cost: 60.00 springs; for springs; from Tidewell\nparts:\n  springs: ordered rear springs, pair; new; pattern; number 77; donor a wreck; warranty 2028-01-01"
	told := func(p *Part) string {
		return fmt.Sprint(p.Condition, "|", p.Origin, "|", p.Supplier, "|", p.Number, "|", p.Donor, "|", p.Warranty != 0)
	}
	for _, c := range []struct{ name, then, want string }{
		{"the old pair", "parts:\n  - springs: cancelled\n  - springs: refitted the old pair", "|||||false"},
		{"with words of its own", "parts:\n  - springs: returned\n  - springs: refitted the old pair; used; genuine", "used|genuine||||false"},
		{"ordered again", "parts:\n  - springs: returned\n  - springs: ordered", "new|pattern|Tidewell|77||true"},
		{"taken off and refitted", "parts:\n  - springs: fitted\n  - springs: refitted", "new|pattern|Tidewell|77|a wreck|true"},
	} {
		b := trial.Compile(t, trial.Session("2026-04-01.md", bought, "")+trial.Session("2026-04-02.md", c.then, ""))
		trial.WantEqual(t, c.name, told(At(b, 0, trial.Today).Part("springs")), c.want)
	}
}

// What a part's first words call it heads it; where they call it nothing, its id does.
func TestDescriptionIsAName(t *testing.T) {
	for words, want := range map[string]string{
		"needed, the old one is scrap": "sliding door||the old one is scrap", "needed the other one, bent": "sliding door||the other one, bent", "needed it was missing": "sliding door||it was missing",
		"needed sliding door, silver": "sliding door, silver|sliding door, silver|", "needed isolator": "isolator|isolator|", "needed The right door, no rust": "The right door, no rust|The right door, no rust|", "needed badge, as new": "badge, as new|badge, as new|",
	} {
		b := trial.Compile(t, trial.Session("2026-04-01.md", "parts:\n  - sliding-door: "+words+"\n  - sliding-door: ordered; from Tidewell", ""))
		trial.WantFaults(t, words, b)
		p := At(b, 0, trial.Today).Part("sliding-door")
		trial.WantEqual(t, words, p.Description+"|"+p.Lines[0].Description+"|"+p.Lines[0].Remark, want)
	}
}
