package check

import (
	"strings"
	"testing"
)

// privateCard is a build with everything that the public may not see.
func privateCard(public string) string {
	return "-- build.md --\n---\nbuild: Example\nvehicle:\n  vin: 0H8GDM9A8KP042788\n  Registration: QB12 CDE\ncurrency: GBP\n" +
		public + "---\n-- 2026-04-01.md --\n---\nprivate: yes\nstage: body\ncost:\n  - 1.00 a; from Tidewell Dismantlers\n  - 1.00 b; from H\u00f6gs F\u00e4rg & S\u00f6ner\n" +
		"  - 1.00 c; from Tidewell\n  - 1.00 d; from AB\n  - 1.00 f; from \u0420\u0430\u0434\u0443\u0433\u0430\ncredit: 1.00 e; from Skylark Metals\nparts:\n  wing: needed wing; from Northmarl\n---\n"
}

func TestPrivateWords(t *testing.T) {
	supplier := func(s string) string { return "the supplier \"" + s + "\"" }
	const plate, vin = `the registration "QB12 CDE"`, `the identification number "0H8GDM9A8KP042788"`
	for _, test := range []struct{ note, want string }{
		{"Nothing of it.", ""},
		{"Got it from Tidewell Dismantlers today.", supplier("Tidewell Dismantlers")},
		{"Got it from TIDEWELL today, and again from tidewell.", supplier("Tidewell")},
		{"Got it from Tidewells today.", ""},
		{"Got it from Stidewell today.", ""},
		{"Got it from Skylark\nMetals.", supplier("Skylark Metals")},
		{"Got it from Skylark.\n\nMetals were cheap.", ""},
		{"From **Northmarl**.", supplier("Northmarl")},
		{"Hos H\u00f6gs F\u00e4rg och S\u00f6ner", ""},
		{"Hos h\u00f6gs f\u00e4rg & s\u00f6ner.", supplier("H\u00f6gs F\u00e4rg & S\u00f6ner")},
		{"Bei \u0420\u0410\u0414\u0423\u0413\u0410.", supplier("\u0420\u0430\u0434\u0443\u0433\u0430")}, {"Bei \u0440\u0430\u0434\u0443\u0433\u0430.", supplier("\u0420\u0430\u0434\u0443\u0433\u0430")},
		{"AB is too short to be told from a word.", ""},
		{"The plate QB12 CDE came off.", plate},
		{"The plate qb12cde came off.", plate},
		{"The plate QB 12-CDE came off.", plate},
		{"The plate QB12 CDEF came off.", ""},
		{"The plate XQB12 CDE came off.", ""},
		{"Number 0H8GDM9A8KP042788 is stamped here.", vin},
		{"Number 0h8gdm9a8kp042788.", vin},
		{"Number 0H8.", ""},
		{"From Skylark -- Metals.", supplier("Skylark Metals")},
		{"From Skylark --- Metals.", ""}, // they stand too far apart
		{"<!-- QB12 CDE, Northmarl -->", ""},
		{"a <!-- QB12 CDE --> b <!-- Northmarl --> c", ""},
		{"a <!-- QB12 CDE --> QB12 CDE", plate},
		{"<!-- a --> QB12 CDE <!-- b -->", plate},
		{"see <!-- a\n\nQB12 CDE --> b", ""},
		{"<div>\n<!-- QB12 CDE -->\n</div>", ""},
		{"`<!--` QB12 CDE `-->`", plate},
		{"```\n<!-- QB12 CDE -->\n```", plate},
		{"\\<!-- QB12 CDE -->", plate},
		{"<!--> QB12 CDE", plate},
		{"<!-- QB12 CDE", ""},
		{"![QB12 CDE](x.jpg)", plate},
		{"`QB12 CDE`", plate},
		{"- [ ] plate QB12 CDE off; private", ""},
		{"- [ ] plate QB12 CDE off", plate},
		{"- [ ] plate off; private\n- [ ] QB12 CDE", plate},
		{"---\ntitle: Off to Northmarl\n---", supplier("Northmarl")},
		{"---\nstage: body\ntime: 2h to Northmarl\n---", supplier("Northmarl")},
		{"---\nstage: body\ntime: 2h to Northmarl; private\n---", ""},
		{"---\nstage: body\ncost: 2.00 fuel; from Northmarl; receipt Northmarl\n---", ""},
		{"---\nprivate: yes\n---\nQB12 CDE", ""},
		// Lines that the public does not see are not mentioned, the ones it sees all are.
		{"---\nstage: body\ncost: 2.00 fuel to Northmarl\n---\nTo Northmarl.", supplier("Northmarl")},
		{"---\nstage: body\ncredit: 2.00 fuel to Northmarl\nsold: 9.00 Northmarl\nremaining:\n  body: 2 Northmarl\n---\n", ""},
		{"---\nstage: body\ntime:\n  - 2h Northmarl\n  - 3h Northmarl, Northmarl\n---\nNorthmarl",
			supplier("Northmarl") + "; " + supplier("Northmarl") + "; " + supplier("Northmarl")},
		{"---\nparts:\n  hose: needed hose; donor Northmarl; number QB12CDE; free\n---\n", supplier("Northmarl") + "; " + plate},
		{"---\nparts:\n  hose: needed hose; donor Northmarl; free; private\n---\n", ""},
		{"---\nchecks:\n  fume-check: passed Northmarl; by Northmarl\nreadings:\n  gap: 2 mm Northmarl\n---\n", supplier("Northmarl") + "; " + supplier("Northmarl")},
		{"Northmarl\n\nNorthmarl Northmarl\nQB12 CDE\n\nNorthmarl", supplier("Northmarl") + ", also on lines 3 and 6; " + plate},
		{strings.Repeat("Northmarl\n", 13), supplier("Northmarl") + ", also on lines 2, 3, 4, 5, 6, 7, 8, 9, 10 and 3 more"},
		{"- [ ] job hose-clip: Northmarl; private\n- [ ] hose-clip: Northmarl again", ""},
		{"- [ ] plate off; private\n\n  Northmarl\n\n  - Northmarl\n\nNorthmarl", supplier("Northmarl")},
		{"- [ ] plate off; photo northmarl.jpg\n- [ ] plate; majr Northmarl", ""},
		{"---\nprivate: maybe\n---\nNorthmarl", supplier("Northmarl")},
	} {
		var got []string
		for _, s := range problemsOf(t, "private-words", privateCard("")+"-- 2026-04-11.md --\n"+test.note+"\n") {
			what, where, _ := strings.Cut(s, " stands in words that the public page shows")
			also, _, _ := strings.Cut(where, " | ")
			got = append(got, what+also)
		}
		if strings.Join(got, "; ") != test.want {
			t.Errorf("%s\n got %q\nwant %q", test.note, got, test.want)
		}
	}
}

func TestPrivateWordsFollowTheSettings(t *testing.T) {
	const note = "-- 2026-04-11.md --\n---\nstage: body\ntime: 1h Northmarl\ncost: 1.00 Northmarl\n---\nQB12 CDE 0H8GDM9A8KP042788 Northmarl\n\n- [ ] Northmarl\n-- about.md --\n---\npage: About\n---\nNorthmarl\n"
	for public, want := range map[string]int{
		"":                               5,
		"public:\n  registration: yes\n": 4,
		"public:\n  vin: full\n":         4,
		"public:\n  vin: no\n":           5,
		"public:\n  hours: no\n":         4,
		"public:\n  money: totals\n":     5,
		"public:\n  money: lines\n":      6,
		"public:\n  suppliers: yes\n":    2,
		"public:\n  suppliers: yes\n  vin: full\n  registration: yes\n": 0,
	} {
		if got := problemsOf(t, "private-words", privateCard(public)+note); len(got) != want {
			t.Errorf("%q: %q", public, got)
		}
	}
	named := problemsOf(t, "private-words", privateCard("")+"-- 2026-04-11 to Northmarl.md --\nTo the coast.\n-- 2026-04-12 to Northmarl.md --\n---\nprivate: yes\n---\n")
	if len(named) != 1 || !strings.Contains(named[0], "stands in the file's path") {
		t.Errorf("the name of a file: %q", named)
	}
	items := problemsOf(t, "private-words", privateCard("public:\n  snags: no\n")+"-- 2026-04-11.md --\n- [ ] Northmarl\n")
	if len(items) > 0 {
		t.Errorf("items that are not shown: %q", items)
	}
	details := problemsOf(t, "private-words", "-- build.md --\n---\nbuild: Example\nvehicle:\n  registration: QB12 CDE\n  vin: 0H8GDM9A8KP042788\n  contact: QB12CDE\n"+
		"  model: QB12CDE\ncurrency: GBP\nstages:\n  QB12CDE: QB12CDE\n  off: QB12CDE\n---\n")
	if len(details) != 2 {
		t.Errorf("the vehicle and the stages: %q", details)
	}
	card := "-- build.md --\n---\nbuild: The Northmarl car\ncurrency: GBP\n---\nFrom Northmarl.\n-- 2026-04-11.md --\n---\nstage: body\ncost: 1.00 a; from Northmarl\n---\n"
	if got := problemsOf(t, "private-words", card); len(got) != 2 {
		t.Errorf("the job card: %q", got)
	}
}
