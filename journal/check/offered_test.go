package check

import (
	"regexp"
	"strings"
	"testing"

	"guidecoat/journal/problem"
)

var offered = regexp.MustCompile(`Write "([^"]+)"`)

// What help offers is put in the place that the message points at: the note then reads
// clean, and is what was meant.
func TestOfferedLines(t *testing.T) {
	const before = "-- 2026-04-10.md --\n---\nstage: body\nodometer: 91250 mi\ncost: 9.00 clip; from Tidewell Dismantlers\nparts:\n  - battery: needed battery\n  - rear-beam: needed beam\n---\n" +
		"- [ ] temporary bonnet-strap: tied down\n-- 2026-04-11.md --\n---\nstage: body\nodometer: 91252 mi\n"
	for line, want := range map[string]string{
		"cost: 12.00 hose; Tidewell Dismantlers":          "cost: 12.00 hose; from Tidewell Dismantlers",
		"cost: 12.00 hose; tidewell dismantlrs":           "cost: 12.00 hose; from Tidewell Dismantlers",
		"cost: 12.00 hose; Tidewell":                      "cost: 12.00 hose; from Tidewell Dismantlers",
		"cost: 12.00 hose; at Marl Springs":               "cost: 12.00 hose; from Marl Springs",
		"cost: 12.00 hose; invoice Q-2231":                "cost: 12.00 hose; receipt Q-2231",
		"cost: 12.00 hose; inv no. 2231":                  "cost: 12.00 hose; receipt 2231",
		"cost: 12.00 hose; #2231":                         "cost: 12.00 hose; receipt 2231",
		"cost: 12.00 hose; paid 9 Apr":                    "cost: 12.00 hose; on 9 Apr",
		"cost: 12.00 hose; 2026-04-09":                    "cost: 12.00 hose; on 2026-04-09",
		"cost: 89.00 wrench; tool, keeping it":            "cost: 89.00 wrench; as tools",
		"cost: 89.00 wrench; tools":                       "cost: 89.00 wrench; as tools",
		"cost: 12.00 hose; ex VAT":                        "cost: 12.00 hose; plus vat",
		"cost: 12.00 hose; + vat 5%":                      "cost: 12.00 hose; plus vat 5%",
		"cost: 42.00 primer; half each":                   "cost: 42.00 primer; share 1/2",
		"cost: 12.00 cable; for battery, Tidewell":        "cost: 12.00 cable; for battery; from Tidewell Dismantlers",
		"cost: 12.00 bolts; rear-beam":                    "cost: 12.00 bolts; for rear-beam",
		"cost: £64.50+vat primer":                         "cost: £64.50 primer; plus vat",
		"cost: £20.00 tyres (x2)":                         "cost: 2 x £20.00 tyres",
		"cost: 20.00 tyres, 2 off":                        "cost: 2 x 20.00 tyres",
		"cost: 3.99 clips x 2":                            "cost: 2 x 3.99 clips",
		"time: 2 people x 1h wing":                        "time: 1h wing; hands 2",
		"time: 3h both of us, wing":                       "time: 3h wing; hands 2",
		"time: 2h each":                                   "time: 2h; hands 2",
		"time: 2h twice":                                  "time: 4h",
		"time: 3h wing; both of us":                       "time: 3h wing; hands 2",
		"time: 3h wing; 2 people":                         "time: 3h wing; hands 2",
		"time: 3h wing; with Del":                         "time: 3h wing; hands 2",
		"parts:\n  wing: ordered wing; by 20 sept":        "parts:\n  wing: ordered wing; due 20 sept",
		"parts:\n  wing: ordered wing; 20 September":      "parts:\n  wing: ordered wing; due 20 September",
		"parts:\n  wing: ordered wing; part no 44-21":     "parts:\n  wing: ordered wing; number 44-21",
		"parts:\n  wing: needed wing; about 60":           "parts:\n  wing: needed wing; estimate 60",
		"readings:\n  disc: 8 mm; minimum 7":              "readings:\n  disc: 8 mm; min 7",
		"checks:\n  lamp-aim: done; done by Bram":         "checks:\n  lamp-aim: done; by Bram",
		"---\n- [ ] job roof-lamp: bent; after rear-beam": "---\n- [ ] job roof-lamp: bent; waits for rear-beam",
		"---\n- [ ] job roof-lamp: bent; by 20 May":       "---\n- [ ] job roof-lamp: bent; due 20 May",
		"---\n- [ ] job roof-lamp: bent; 2h":              "---\n- [ ] job roof-lamp: bent; takes 2h",
		"---\n- [ ] temporay roof-lamp: tied":             "---\n- [ ] temporary roof-lamp: tied",
	} {
		end := "\n---\n"
		if strings.HasPrefix(line, "---") {
			end = "\n"
		}
		var wrong []problem.Problem
		for _, p := range proofread(t, folder(before+line+end)) {
			if p.Severity == problem.Error {
				wrong = append(wrong, p)
			}
		}
		if len(wrong) != 1 {
			t.Errorf("%s: %s", line, printed(t, wrong))
			continue
		}
		help := strings.Replace(wrong[0].Help, "Nearest: \"", "Write \"", 1)
		found := offered.FindStringSubmatch(help)
		if found == nil {
			t.Errorf("%s: %s offers nothing", line, help)
			continue
		}
		text := wrong[0].Span.Text()
		got := strings.Replace(line, text, found[1], 1)
		if got != want {
			t.Errorf("%s becomes %s by %q at %q", line, got, found[1], text)
		}
		if left := names(proofread(t, folder(before+got+end))); len(left) > 0 {
			t.Errorf("%s becomes %s, which gets %q", line, got, left)
		}
	}
}

// Where no line can be offered, help says what a friend would.
func TestFriendlyHelp(t *testing.T) {
	for text, want := range map[string]string{
		"---\nstage: body\ncodes: P0101\n---\n": "```scan abs", "---\nstage: body\nphotos: a.jpg\n---\n": "![what it shows]", "---\nstage: body\ntime: 0\n---\n": "Leave the line out",
		"---\nstage: body\ntime: 0h\n---\n": "eave the line out", "---\nstage: body\ncost: free seals\n---\n": `write "free" on the line of the part`,
		"---\nstage: body\ncost: 12.00 hose; cash\n---\n": "leave the semicolon out", "---\nstage: body\ncost: 12.00 hose; paid cash\n---\n": "leave the semicolon out", "---\nstage: body\ncost: 12.00 hose; deposit\n---\n": "A deposit is a line of cost of its own",
		"---\nstage: body\ncost: 12.00 hose; inc. VAT\n---\n": "an amount is what was paid", "---\nstage: body\ncost: 64 euros lamp\n---\n": `Write "64 EUR" and a rate.`, "---\nstage: body\ntime: 9:00-17:00 less lunch\n---\n": "less 30m lunch",
	} {
		found := proofread(t, folder(text))
		if got := printed(t, found); len(names(found)) != 1 || !strings.Contains(got, want) || strings.Contains(got, "a comma if this is description") {
			t.Errorf("%s\ngets %s", text, got)
		}
	}
}
