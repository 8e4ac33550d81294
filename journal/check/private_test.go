package check

import (
	"strings"
	"testing"
)

// privateCard is a build with everything that the public may not see.
func privateCard(public string) string {
	return "-- build.md --\n---\nbuild: Example\nvehicle:\n  vin: 1M8GDM9AXKP042788\n  Registration: AB12 CDE\ncurrency: GBP\n" +
		public + "---\n-- 2026-04-01.md --\n---\nprivate: yes\nstage: body\ncost:\n  - 1.00 a; from Tidewell Dismantlers\n  - 1.00 b; from H\u00f6gs F\u00e4rg & S\u00f6ner\n" +
		"  - 1.00 c; from Tidewell\n  - 1.00 d; from AB\n  - 1.00 f; from \u0420\u0430\u0434\u0443\u0433\u0430\ncredit: 1.00 e; from Skylark Metals\nparts:\n  wing: needed wing; from Northgate\n---\n"
}

func TestPrivateWords(t *testing.T) {
	supplier := func(s string) string { return "the supplier \"" + s + "\"" }
	const plate, vin = `the registration "AB12 CDE"`, `the identification number "1M8GDM9AXKP042788"`
	for _, test := range []struct{ note, want string }{
		{"Nothing of it.", ""},
		{"Got it from Tidewell Dismantlers today.", supplier("Tidewell Dismantlers")},
		{"Got it from TIDEWELL today, and again from tidewell.", supplier("Tidewell")},
		{"Got it from Tidewells today.", ""},
		{"Got it from Stidewell today.", ""},
		{"Got it from Skylark\nMetals.", supplier("Skylark Metals")},
		{"Got it from Skylark.\n\nMetals were cheap.", ""},
		{"From **Northgate**.", supplier("Northgate")},
		{"Hos H\u00f6gs F\u00e4rg och S\u00f6ner", ""},
		{"Hos h\u00f6gs f\u00e4rg & s\u00f6ner.", supplier("H\u00f6gs F\u00e4rg & S\u00f6ner")},
		{"Bei \u0420\u0410\u0414\u0423\u0413\u0410.", supplier("\u0420\u0430\u0434\u0443\u0433\u0430")}, {"Bei \u0440\u0430\u0434\u0443\u0433\u0430.", supplier("\u0420\u0430\u0434\u0443\u0433\u0430")},
		{"AB is too short to be told from a word.", ""},
		{"The plate AB12 CDE came off.", plate},
		{"The plate ab12cde came off.", plate},
		{"The plate AB 12-CDE came off.", plate},
		{"The plate AB12 CDEF came off.", ""},
		{"The plate XAB12 CDE came off.", ""},
		{"Number 1M8GDM9AXKP042788 is stamped here.", vin},
		{"Number 1m8gdm9axkp042788.", vin},
		{"Number 1M8.", ""},
		{"<!-- AB12 CDE, Northgate -->", ""},
		{"a <!-- AB12 CDE --> b <!-- Northgate --> c", ""},
		{"a <!-- AB12 CDE --> AB12 CDE", plate},
		{"<!-- a --> AB12 CDE <!-- b -->", plate},
		{"see <!-- a\n\nAB12 CDE --> b", ""},
		{"<div>\n<!-- AB12 CDE -->\n</div>", ""},
		{"`<!--` AB12 CDE `-->`", plate},
		{"```\n<!-- AB12 CDE -->\n```", plate},
		{"\\<!-- AB12 CDE -->", plate},
		{"<!--> AB12 CDE", plate},
		{"<!-- AB12 CDE", ""},
		{"![AB12 CDE](x.jpg)", plate},
		{"`AB12 CDE`", plate},
		{"- [ ] plate AB12 CDE off; private", ""},
		{"- [ ] plate AB12 CDE off", plate},
		{"- [ ] plate off; private\n- [ ] AB12 CDE", plate},
		{"---\ntitle: Off to Northgate\n---", supplier("Northgate")},
		{"---\nstage: body\ntime: 2h to Northgate\n---", supplier("Northgate")},
		{"---\nstage: body\ntime: 2h to Northgate; private\n---", ""},
		{"---\nstage: body\ncost: 2.00 fuel; from Northgate; receipt Northgate\n---", ""},
		{"---\nprivate: yes\n---\nAB12 CDE", ""},
		// Lines that the public does not see are not mentioned, the ones it sees all are.
		{"---\nstage: body\ncost: 2.00 fuel to Northgate\n---\nTo Northgate.", supplier("Northgate")},
		{"---\nstage: body\ncredit: 2.00 fuel to Northgate\nsold: 9.00 Northgate\nremaining:\n  body: 2 Northgate\n---\n", ""},
		{"---\nstage: body\ntime:\n  - 2h Northgate\n  - 3h Northgate, Northgate\n---\nNorthgate",
			supplier("Northgate") + "; " + supplier("Northgate") + "; " + supplier("Northgate")},
		{"---\nparts:\n  hose: needed hose; donor Northgate; number AB12CDE; free\n---\n", supplier("Northgate") + "; " + plate},
		{"---\nparts:\n  hose: needed hose; donor Northgate; free; private\n---\n", ""},
		{"---\nchecks:\n  leak-check: passed Northgate; by Northgate\nreadings:\n  gap: 2 mm Northgate\n---\n", supplier("Northgate") + "; " + supplier("Northgate")},
		{"Northgate\n\nNorthgate Northgate\nAB12 CDE\n\nNorthgate", supplier("Northgate") + ", also on lines 3 and 6; " + plate},
		{strings.Repeat("Northgate\n", 13), supplier("Northgate") + ", also on lines 2, 3, 4, 5, 6, 7, 8, 9, 10 and 3 more"},
		{"- [ ] job hose-clip: Northgate; private\n- [ ] hose-clip: Northgate again", ""},
		{"- [ ] plate off; private\n\n  Northgate\n\n  - Northgate\n\nNorthgate", supplier("Northgate")},
		{"- [ ] plate off; photo northgate.jpg\n- [ ] plate; majr Northgate", ""},
		{"---\nprivate: maybe\n---\nNorthgate", supplier("Northgate")},
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
	const note = "-- 2026-04-11.md --\n---\nstage: body\ntime: 1h Northgate\ncost: 1.00 Northgate\n---\nAB12 CDE 1M8GDM9AXKP042788 Northgate\n\n- [ ] Northgate\n-- about.md --\n---\npage: About\n---\nNorthgate\n"
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
	named := problemsOf(t, "private-words", privateCard("")+"-- 2026-04-11 to Northgate.md --\nTo the coast.\n-- 2026-04-12 to Northgate.md --\n---\nprivate: yes\n---\n")
	if len(named) != 1 || !strings.Contains(named[0], "stands in the file's path") {
		t.Errorf("the name of a file: %q", named)
	}
	items := problemsOf(t, "private-words", privateCard("public:\n  snags: no\n")+"-- 2026-04-11.md --\n- [ ] Northgate\n")
	if len(items) > 0 {
		t.Errorf("items that are not shown: %q", items)
	}
	details := problemsOf(t, "private-words", "-- build.md --\n---\nbuild: Example\nvehicle:\n  registration: AB12 CDE\n  vin: 1M8GDM9AXKP042788\n  contact: AB12CDE\n"+
		"  model: AB12CDE\ncurrency: GBP\nstages:\n  AB12CDE: AB12CDE\n  off: AB12CDE\n---\n")
	if len(details) != 2 {
		t.Errorf("the vehicle and the stages: %q", details)
	}
	card := "-- build.md --\n---\nbuild: The Northgate car\ncurrency: GBP\n---\nFrom Northgate.\n-- 2026-04-11.md --\n---\nstage: body\ncost: 1.00 a; from Northgate\n---\n"
	if got := problemsOf(t, "private-words", card); len(got) != 2 {
		t.Errorf("the job card: %q", got)
	}
}
