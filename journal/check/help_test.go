package check

import (
	"strings"
	"testing"
)

// What the help says in cases that the checks' own examples do not show. The note is
// the only one of its build; want is a part of what is printed.
var helpCases = []struct{ note, want string }{
	{"- [ ] temporary exhausthanger: hung on wire\n", `such as "temporary exhausthanger-hung:".`},
	{"---\nstage: body\nparts:\n  - radiator: needed radiator\n  - raditor: fitted\n---\n", `Nearest: "radiator". Write what it is`},
	{"---\nstage: body\ncost:\n  – 12.00 hose\n---\n", `"–" is not the hyphen that begins a line`},
	{"---\nstage: body\ncost:\n  – 12.00 hose\n---\n", `Write "- " instead.`},
	{"---\nstage: body\ncost: 12.00 hose; for radiator, condenser\n---\n", `Write one line for each, or`},
	{"---\nstage: body\ncost: 12.00 hose; for Radiator, top\n---\n", `Write "radiator".`},
	{"---\nstage: body\nparts:\n  lamp: need left lamp\n---\n", `Corrected: lamp: needed left lamp`},
	{"-- 2026-04-11.md --\n- [ ] temporary exhaust-hanger: on wire\n-- 2026-04-12.md --\n- [x] exhaust hanger: rubber in\n", `Corrected: - [x] exhaust-hanger: rubber in`},
	{"-- 2026-04-11.md --\n- [ ] temporary exhaust-hanger: on wire\n-- 2026-04-12.md --\n- [x] Exhaust-Hanger rubber in\n", `Corrected: - [x] exhaust-hanger: rubber in`},
	{"---\nstage: body\ntime: 2h hose; hands 10\n---\n", `such as "hands 2", and more than 9 on a line of their own.`},
	{"---\nstage: body\ntime: 7pm-9pm hose\n---\n", `Write 19:00-21:00.`},
	{"---\nstage: rear axle\n---\n- [ ] door-scratch: left door; disclose\n", `is major, as all of "suspension" is that says no severity`},
	{"- [ ] temporary hose-clip: of wire; disclose\n", `Mend it for good: a temporary fix cannot be left for the buyer`},
	{"-- 2026-04-11.md --\n---\nodometer: 91,252 mi\n---\n-- 2026-04-12.md --\n---\nodometer: 9125.5 mi\n---\n", "A digit may be missing"},
	{"-- 2026-04-11.md --\n---\nodometer: 91252 mi\n---\n-- 2026-04-12.md --\n---\nodometer: 91152 mi\n---\n", `    Write "; new cluster" behind`},
	{"---\nstage: b\u043edy\n---\n", `, in which U+043E only looks like a Latin letter`},
	{"---\nstage: body\nparts:\n  h\u043ese: needed hose\n---\n", `Write "hose" with Latin letters.`},
	{"- [ ] job h\u043ese-clip: of wire\n", `U+043E in it only looks like a Latin letter`},
	{"---\ntitle: a\u202eb\n---\n", "    title: a<U+202E>b\n            ^^^^^^^^\n"},
	{"---\ntitle: a\u200db\n---\n", "    title: a<U+200D>b\n"},
	{"- [ ] temporay hose-clip: of wire\n", `no kind of snag called "temporay"`},
	{"- [ ] temporay hose-clip: of wire\n", `Nearest: "temporary".`},
	{"---\nstage: body\ncost: 12.00 hose; for radiator from Tidewell\n---\n", `nothing may follow here, but "from Tidewell" does`},
	{"---\nstage: body\ncost: 12.00 hose; on 2026-04-10 receipt 3\n---\n", `Write a semicolon before "receipt".`},
	{"---\nstage: body\nparts:\n  hose: needed brake hose; system brakes front\n---\n", `or write a semicolon before it if it is a clause.`},
	{"---\nstage: body\nparts:\n  hose: needed hose; estimate 10 20 30, due 2026-05-01\n---\n", `Write a semicolon before "due".`},
	{"---\nstage: body\nchecks:\n  lamp-aim: done; at 91310 mi by Bram\n---\n", `nothing may follow here, but "by Bram" does`},
	{"---\nodometer: 91310 mi new cluster\n---\n", `Write a semicolon before "new cluster".`},
	{"-- build.md --\n---\nbuild: Halden\ncurrency: GBP\nfees:\n  delivery: 120 plus vat\n---\n", `Write a semicolon before "plus vat".`},
	{"-- build.md --\n---\nbuild: Halden\ncurrency: GBP\nfees:\n  delivery: 5% + VAT\n---\n", `cannot read the fee at "+ VAT": tax is added by a clause`},
	{"-- build.md --\n---\nbuild: Halden\ncurrency: GBP\nfees:\n  delivery: 12% above 500\n---\n", `cannot read the fee at "above 500": a fee ends at its sign %`},
	{"-- build.md --\n---\nbuild: Halden\ncurrency: GBP\nfees:\n  delivery: 5% inc vat\n---\n", `cannot read the fee at "inc vat": a fee ends at its sign %`},
	{"-- build.md --\n---\nbuild: Halden\ncurrency: GBP\nresale: 3800-4500-5100\n---\n", `Write 3800 4500 5100.`},
	{"---\nremaining:\n  body: 100 - 200 - 300 both doors\n---\n", `Write 100 200 300.`},
	{"---\nremaining:\n  body: 100 200 300; hours 4-5-6\n---\n", `Write 4 5 6.`},
	{"---\nstage: body\ntitle: \"Beam out\n---\n", `the quote at one end of this value is not closed, and stays in it`},
	{"---\nstage: body\ncost: 20.00 oil; from: Tidewell\n---\n", `Write "from" without the colon.`},
	{"- [ ] job roof-seal: bent; waits for: roof-rail\n", `Write "waits for" without the colon.`},
	{"- [ ] job roof-lamp: bent; 2h\n", `Write "takes 2h".`},
	{"---\nstage: body\ncost: 20.00 oil; consumables\n---\n", `Write "as consumables".`},
	{"---\nstage: body\ncost: 20.00 oil; 2026-04-10\n---\n", `Write "on 2026-04-10".`},
	{"---\nstage: body\nparts:\n  clip: needed clip; £5\n---\n", `Write "estimate £5" or "worth £5".`},
	{"---\nstage: body\ncost: 20.00 oil; priv\n---\n", `    Nearest: "private". Write "; private" alone if the line is to be hidden.` + "\n"},
	{"---\nstage: body\ncost: 20.00 oil; Priv.\n---\n", `Corrected: cost: 20.00 oil; private`},
	{"---\nstage: body\ncost: 20.00 oil; privatesale\n---\n", `    Write "; private" alone if the line is to be hidden.` + "\n"},
	{"---\nstage: body\ncost: 20.00 oil; private of mine\n---\n", `    Leave it out: the clause hides the line alone.` + "\n"},
	{"---\ninspection: passed; priv\n---\n", `    This line cannot be hidden by itself: mark the note with "private: yes".` + "\n"},
	{"---\nstage: body\nparts:\n  hose: needed hose; sys brakes\n---\n", `Corrected: hose: needed hose; system brakes`},
	{"---\nstage: body\nparts:\n  hose: ord hose\n---\n", `Corrected: hose: ordered hose`},
	{"---\nstage: body\ncost: 20.00 oil; plus postage\n---\n", `    Write a comma if this is description.` + "\n"},
	{"---\nstage: body\ncost: 20.00 oil; tidewell\n---\n", `Write a comma if this is description.`},
	{"- [ ] **job roof-bow:** tied\n", `no kind of snag called "**job"`},
	{"- [ ] job roof-light: look; major\n  ![lamp](a.jpg)\n", `Leave an empty line above it if it is no part of the item.`},
	{"- [ ] job roof-light: look; takes 2h\nThe lamp is warm.\n", `nothing may follow here, but "The lamp is warm." does`},
	{"- [ ] job roof-light: look; takes 2h\nThe lamp is warm.\n", `Leave an empty line above it`},
	{"- [ ] job wiper-arm; bent\n", `Write "job wiper-arm: " if these are its words.`},
	{"- [x] wiper-arm; straight again\n", `Write "wiper-arm: " if these are its words.`},
	{"- [ ] decide; mend the arm or not\n", `Write "decide: " if these are its words.`},
	{"- [ ] wipe the arm; bent\n", `Write a comma if this is description.`},
	{"- [ ] job wiper-arm: bent; rusty\n", `Write a comma if this is description.`},
	{"---\nstage: body\n---\n- [ ] job roof-rail: bent\n- [x] inspect roof-rail: straight\n", `Write "- [x] roof-rail: " if this clears it.`},
	{"---\nstage: body\ncost: 12.00 hose; for radiator hose\n---\n", `Write "radiator-hose".`},
	{"---\nstage: body\nparts:\n  - wing-left arrived\n---\n", `Write "wing-left: " at its beginning.`},
	{"---\nstage: body\nreadings:\n  - disc-left 8.7 mm\n---\n", `Write "disc-left: " at its beginning.`},
	{"---\nstage: body\nparts:\n  wing-left needed: wing\n---\n", `Write "wing-left: needed".`},
	{"---\nstage: body\nparts:\n  - wing arriving\n---\n", `Write "NAME: " before it.`},
	{"---\nstage: body\ncost: 12.00 oil; +vat\n---\n", `Write "plus vat".`},
	{"---\nstage: body\ncost: 12.00 oil; + VAT 20%\n---\n", `begins with "+ VAT 20%"`},
	{"---\nstage: body\ncost: 12.00 oil; vat\n---\n", `Write "plus vat"`},
	{"---\nstage: body\ncost: 12.00 oil; tax disc\n---\n", `Write a comma if this is description.`},
	{"---\nstage: body\ncredit: 12.00 oil; plus vat\n---\n", `begins with "plus"`},
	{"- [ ] bodge on the exhaust\n", `Write "temporary" if it must not stay, or begin with another word.`},
	{"- [ ] provisional roof-bow: tied\n", `Write "temporary" if it must not stay`},
	{"- [ ] temporarily tied up\n", `Write "temporary" if it must not stay`},
	{"- [x] lamp-aim: on the wall\n", `Write "lamp-aim: done on the wall" under "checks".`},
	{"- [x] lamp-aim: passed, both sides\n", `Write "lamp-aim: passed, both sides" under "checks".`},
	{"- [x] alignment\n", `Write "alignment: done" under "checks".`},
	{"---\nstage: painting\n---\n", `Choose from buying, rear axle, body, or list it in build.md.`},
}

func TestHelp(t *testing.T) {
	for _, c := range helpCases {
		if got := printed(t, proofread(t, folder(c.note))); !strings.Contains(got, c.want) {
			t.Errorf("%s got:\n%s\nwant: %s", c.note, got, c.want)
		}
	}
}
