package check

import (
	"strings"
	"testing"
)

// TestHelps holds that help names what was meant, and that one mistake is told once.
func TestHelps(t *testing.T) {
	front := func(lines string) string { return "---\nstage: body\n" + lines + "\n---\n" }
	for example, want := range map[string]string{
		front("readings:\n  temp: 90 c"):                                               "bad-measurement|Write the degree sign, °C.",
		front("cost:\n  - 50.00 hose\n  time: 2h"):                                     `wrong-shape|Take out the spaces before it.`,
		front("cost:\n  - 50.00 hose\n  time:\n    - 2h\n    - 3h"):                    `wrong-shape|"time" is a key of its own`,
		front("parts:\n  seal: needed seal\n  time: 2h"):                               `wrong-shape|"time" is a key of its own`,
		front("cost:\n  - 50.00 hose\n  9.00 clip"):                                    `wrong-shape|Write "- " before it.`,
		front("cost:\n  -\u00a050.00 hose"):                                            "wrong-shape|Write a plain space instead.",
		front("cost:\n  - 50.00 hose; as\u00a0parts"):                                  "unknown-clause|Write a plain space instead of the one that does not break",
		front("parts:\n  loom: needed loom\ncost: 5.00 clip; for the loom"):            `bad-id|Write "loom".`,
		front("cost: 5.00 clip; fr Tidewell"):                                          `unknown-clause|Nearest: "from".`,
		front("parts:\n  loom: needed loom\ncost: 5.00 clip; fr loom"):                 `unknown-clause|Write "for" or "from", or a comma if`,
		front("parts:\n  loom: needed loom\ncost: 5.00 clip; form loom"):               `unknown-clause|Nearest: "from".`,
		front("parts:\n  loom: needed loom; ued"):                                      `unknown-clause|Nearest: "used".`,
		front("parts:\n  tail-lamp-left: needed lamp\ncost: 5.00 bulb; for tail-lamp"): `unknown-part|Nearest: "tail-lamp-left".`,
		front("parts:\n  tail-lamp-left: needed lamp\n  tail-lamp-right: needed lamp") + "- [ ] lamp-tape: taped; waits for tail-lamp\n": `unknown-waits-for|Write "tail-lamp-left" or "tail-lamp-right".`,
		front("parts:\n  door-left: arrived left door; used; worth 120"):                                                                 `unknown-donor|comes from no donor`,
		front("sale:\n  - deposit 300\n  - kept 400"):                                                                                    `sale-over|more is kept than the £300.00 that the buyer had paid`,
		front("parts:\n  hub: needed hub; asks for wheel-retorqe"):                                                                       `near-check-name|Nearest: "wheel-retorque".`,
		besideCard("---\nparts:\n  arm-left: ordered lower arm, left; new\n---\n", "fasteners:\n  drain: 8 Nm; of arm-left; ±4%\n"):      `fine-tolerance|Write "±6%" or more.`,
		front("time: 1h less 2h for lunch"):                                                                                              "bad-duration|the break is as long as the work",
		front("time: 9:00-17:00 excl. tea"):                                                                                              "bad-duration|it does not say how long the break was",
		front("time: 2 people x 1h filler"):                                                                                              `bad-duration|Write "1h filler; hands 2".`,
		front("time: 2h twice"):                                                                                                          `bad-duration|Write "4h", the time in all.`,
		"-- garage.md --\n---\ngarage: The yard\ncurrency: GBP\n---\n-- skeld/build.md --\n" + exampleCard + "-- halden/build.md --\n" + exampleCard +
			"-- skeld/2026-04-11.md --\nA long day.\n-- halden/2026-04-11.md --\n---\nsale:\n  - agreed 5150\n  - part exchange 900; into skeldd\n---\n": `part-exchange|Nearest: "skeld".`,
		"-- 2026-04-10.md --\n" + front("parts:\n  hub: needed hub\nquotes:\n  hub: 30.00; clearance 5.00 plus vat") +
			"-- build.md --\n" + strings.Replace(exampleCard, "vat: 20%\n", "", 1): `missing-vat|write "vat: 20%" in build.md`,
		front("sold: 500.00") + "- [ ] job pipe-end: rusted; dangerous\n- [ ] job hose-left: cut; dangerous\n- [ ] job pad-rear: gone; dangerous\n" +
			"- [ ] job disc: cracked; dangerous\n- [ ] job nut: loose; dangerous\n": `unsafe-when-sold|sold with "hose-left", "pad-rear", "pipe-end" and 2 more open`,
		front("mileage: 91252 mi"):                                                                              `unknown-key|Nearest: "odometer".`,
		front("parts:\n  - seal: needed seal\n  - seal: delivered"):                                             `unknown-state|Nearest: "arrived".`,
		front("parts:\n  - seal: needed seal\n  - seal: received"):                                              `unknown-state|Nearest: "arrived".`,
		front("parts:\n  seal: needed seal; second-hand"):                                                       `unknown-clause|Nearest: "used".`,
		front("cost\n  - 50.00 hose"):                                                                           `not-a-line|Write "cost:".`,
		"-- 2026-4-1.md --\n" + front("time: 2h"):                                                               "missing-date|Write the date in the file's name as 2026-04-01.",
		"-- 20260401 beam.md --\n" + front("time: 2h"):                                                          "missing-date|Write the date in the file's name as 2026-04-01.",
		"-- 2026-13-1.md --\n" + front("time: 2h"):                                                              "missing-date|Write \"date: YYYY-MM-DD\"",
		"~~~ scan engine\nP1000 x\n~~~\n- [x] scan-engine-p1000: cleared\n":                                     "unknown-snag|is a scan, which no tick clears",
		front("parts:\n  seal: left seal ordered"):                                                              `unknown-state|Begin with "ordered" and write the rest behind it.`,
		front("parts:\n  seal:ordered left seal"):                                                               "wrong-shape|Write a space behind the colon.",
		front("parts:\n  - [ ] buy tape"):                                                                       `wrong-shape|A task-list item goes below the second "---".`,
		front("time:\n  - [ ] buy tape"):                                                                        `bad-duration|A task-list item goes below the second "---".`,
		front("odometer: 146900 km, though it counts miles"):                                                    `extra-words|your own words go below the second "---"`,
		front("odometer: 146.900 km"):                                                                           "odometer-jump|Write 146,900 km if these are thousands.",
		front("cost: 2.060 van"):                                                                                "bad-amount|Write 2,060 if these are thousands; else round it.",
		front("cost: 2.060,00 van"):                                                                             `bad-amount|Write the decimals after a point: "2,060.00".`,
		front("cost: 5.00 tape; on last friday"):                                                                "bad-date|Write 2026-04-10 if Friday, 10 April is meant.",
		front("parts:\n  seal: needed seal; due tuesday"):                                                       "bad-date|Write 2026-04-14 if Tuesday, 14 April is meant.",
		front("parts:\n  lamp-left: needed lamp\ncost: 5.00 bulb; for left-lamp"):                               `unknown-part|Write "lamp-left".`,
		front("cost: 2060 van, as vehicle, stage body, on 2026-04-09"):                                          `missing-semicolon|Write "; as vehicle; stage body; on 2026-04-09" if`,
		front("cost: 20.60 hose, blue, as consumables, from the coast, receipt 12"):                             `missing-semicolon|Write "; as consumables; from the coast; receipt 12" if`,
		"- horn-dead: no sound; major\n":                                                                        `near-item|Write "[ ] " before it, or "[x] " if it is done.`,
		"* horn-dead: no sound; waits for rain; takes 20m\n":                                                    `near-item|Write "[ ] " before it`,
		"Read the fault code B1049.\n":                                                                          `code-in-words|Write it into a block that begins with "` + "```scan engine",
		"-- build.md --\n---\nbuild: Van\ncurrency: GBP\n---\n-- 2026-04-11.md --\n---\ncost: 5.00 tape\n---\n": "unstaged-money|any name will do, such as body or buying.",
		front("time: 18:30 - 21 bumper"):                                                                        "bad-duration|Write both times with minutes, as in 18:30-21:00.",
		front("time: 18:30 till 21 bumper off"):                                                                 "bad-duration|as in 18:30-21:00.",
		front("time: 2.30 bumper"):                                                                              "bad-duration|Write 2h30 for hours and minutes, or 2.30h for",
		front("parts:\n  lamp-left: ordered lamp; 38.00"):                                                       `unknown-clause|Write "estimate 38.00" if it is not paid yet; what is paid is a line of "cost".`,
		"- [ ] lamp-aims: x; major\n":                                                                           `near-id|Nearest: "lamp-aim".`,
		front("time: 2h, twice"):                                                                                `bad-duration|Write "4h", the time in all.`,
		front("time: 2h, both of us"):                                                                           `bad-duration|Write "2h; hands 2" if two people`,
		"- [done] roof-tarp\n":                                                                                  "near-item|is no task-list item",
		"-- 2026-04-10.md --\n---\nodometer: 1000 mi\n---\n-- 2026-04-11.md --\n---\nodometer: 900 km\n---\n":                                       "odometer-backwards|Write it in mi",
		"-- 2026-04-10.md --\n" + front("cost: 5.00 hose; plus vat") + "-- build.md --\n" + strings.Replace(exampleCard, "vat: 20%", "VAT: 20%", 1): `unknown-key|Nearest: "vat"`,
	} {
		check, help, _ := strings.Cut(want, "|")
		wantOf(t, check, example, help)
		if got := names(proofread(t, folder(example))); len(got) != 1 {
			t.Errorf("%s is told as %q", example, got)
		}
	}
}

// TestEverydayWords holds that words near a kind that people mean pass as they are.
func TestEverydayWords(t *testing.T) {
	for word, want := range map[string]string{"check": "", "Check": "", "gain": "", "hob": "", "chek": "", "jbo": "near-kind", "temporay": "near-kind", "inspct": "near-kind"} {
		got := strings.Join(names(proofread(t, folder("- [ ] "+word+" hose-clip: cable tie\n"))), " ")
		if got != want {
			t.Errorf("%s: %q, want %q", word, got, want)
		}
	}
}

// TestSupplierInWords holds that a supplier without its semicolon is told once, and with
// the way out that keeps it off the public page.
func TestSupplierInWords(t *testing.T) {
	const before = "---\nstage: body\ncost: 9.00 clip; from Tidewell Dismantlers\nparts:\n  seal: "
	for words, want := range map[string]string{
		"ordered seal from Tidewell Dismantlers":                 `private-words|Write "; from Tidewell Dismantlers" if it is meant as a clause, which that page does not show.`,
		"ordered seal from Tidewell Dismantlers; private":        "|",
		"ordered seal from Tidewell Dismantlers, due 2026-05-01": `private-words missing-semicolon|due`,
		"ordered seal, Tidewell Dismantlers know more":           `private-words|Use other words`,
		"ordered seal; from Tidewell Dismantlers":                "|",
	} {
		checks, help, _ := strings.Cut(want, "|")
		found := proofread(t, folder(before+words+"\n---\n"))
		if got := strings.Join(names(found), " "); got != checks || !strings.Contains(printed(t, found), help) {
			t.Errorf("%s: %s\n%s", words, got, printed(t, found))
		}
	}
}
