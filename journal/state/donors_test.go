package state

import (
	"fmt"
	"strings"
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/trial"
)

// borne shows what each part has cost, and what the build has spent.
func borne(st *State) string {
	var out []string
	for _, p := range st.Parts {
		out = append(out, p.ID+" "+st.Build.FormatMoney(*p.Paid))
	}
	return strings.Join(out, ", ") + "; spent " + st.Build.FormatMoney(st.Costs().Spent)
}

func TestDonors(t *testing.T) {
	take := func(lines string) string { return "stage: body\nparts:\n  " + lines }
	for _, c := range []struct{ name, donor, first, second, asOf, want string }{
		// Joint cost by sales value at splitoff: Horngren, Cost Accounting, chapter 16, the
		// example of raw milk (from memory): 400,000 over cream worth 200,000 and skim worth
		// 300,000 gives 160,000 and 240,000.
		{"cream and skim", "400,000.00", take("cream: arrived cream; donor lark-17; worth 200000\n  skim: fitted skim; donor lark-17; worth 300000"), "", "", "cream 160000.00, skim 240000.00; spent 400000.00"},
		{"what it still holds stays in the garage", "580.00; worth 300", take("door: arrived door; donor lark-17; worth 120\n  wing: needed wing; donor lark-17; worth 80"), "", "", "door 165.71, wing 0.00; spent 165.71"},
		{"a part counts from the day it is here", "580.00", take("door: needed door; donor lark-17; worth 120"), take("door: arrived"), "2026-04-30", "door 0.00; spent 0.00"},
		{"and then whole", "580.00", take("door: needed door; donor lark-17; worth 120"), take("door: arrived"), "", "door 580.00; spent 580.00"},
		{"of equal remainders the first mentioned gets the penny", "100.00", take("b: needed b; donor lark-17; worth 5\n  a: arrived a; donor lark-17; worth 5\n  c: arrived c; donor lark-17; worth 5"), take("b: fitted"), "", "b 33.34, a 33.33, c 33.33; spent 100.00"},
		{"the largest remainder gets it", "0.05", take("a: arrived a; donor lark-17; worth 30\n  b: arrived b; donor lark-17; worth 70"), "", "", "a 0.02, b 0.03; spent 0.05"},
		{"a credit for it lowers its price and is none of the build's", "580.00", take("door: arrived door; donor lark-17; worth 1") + "\ncredit: 80.00 its wheels; as spares; for lark-17", "", "", "door 500.00; spent 500.00"},
		{"from its day on", "580.00", take("door: arrived door; donor lark-17; worth 1"), "credit: 80.00 its wheels; for lark-17", "2026-04-30", "door 580.00; spent 580.00"},
		{"so does a cost for it raise it", "580.00", take("door: arrived door; donor lark-17; worth 1") + "\ncost: 20 fetching it; for lark-17; as transport", "", "", "door 600.00; spent 600.00"},
		{"one that has earned more than it cost gives its parts for nothing", "80.00", take("door: arrived door; donor lark-17; worth 1") + "\ncredit: 90.00 its engine; for lark-17", "", "", "door 0.00; spent 0.00"},
		{"a part that goes back bears its share still", "90.00", take("door: arrived door; donor lark-17; worth 1\n  wing: arrived wing; donor lark-17; worth 2"), take("door: sold"), "", "door 30.00, wing 60.00; spent 90.00"},
		{"what is bought in its place does not", "90.00", take("- door: arrived door; donor lark-17; worth 1\n  - door: returned rusty\n  - door: arrived a better one"), "", "", "door 90.00; spent 90.00"},
		{"but another one of the same donor bears a share of its own", "80.00", take("- door: arrived door; donor lark-17; worth 1\n  - door: returned rusty\n  - door: arrived a better one; donor lark-17; worth 3\n  - wing: arrived wing; donor lark-17; worth 4"), "", "", "door 40.00, wing 40.00; spent 80.00"},
		{"the newest worth counts", "90.00", take("door: arrived door; donor lark-17; worth 1\n  wing: arrived wing; donor lark-17; worth 2"), take("door: fitted; worth 7"), "", "door 70.00, wing 20.00; spent 90.00"},
		{"it was taken from the donor named first", "90.00\n  heron-2: 40.00", take("door: arrived door; donor lark-17; worth 1"), take("door: fitted; donor heron-2; worth 2"), "", "door 90.00; spent 90.00"},
		{"a price in another currency, with tax", "100.00 EUR; plus vat; rate 0.855", take("door: arrived door; donor lark-17; worth 1"), "", "", "door 102.60; spent 102.60"},
		{"words for a vehicle that nobody keeps account of", "90.00", take("door: arrived door; donor a red hatchback"), "", "", "door 0.00; spent 0.00"},
	} {
		archive := trial.Card("vat: 20%\nstages:\n  body: all\ndonors:\n  lark-17: "+c.donor) + trial.Session("2026-04-01.md", c.first, "")
		if c.second != "" {
			archive += trial.Session("2026-05-01.md", c.second, "")
		}
		b := trial.Compile(t, archive)
		trial.WantFaults(t, c.name, b)
		day := trial.Day("2026-12-31")
		if c.asOf != "" {
			day = trial.Day(c.asOf)
		}
		trial.WantEqual(t, c.name, borne(At(b, day, trial.Today)), c.want)
	}
}

// A share belongs to the part's stage, is a cost of parts, and counts as paid.
func TestDonorShare(t *testing.T) {
	b := trial.Compile(t, trial.Card("stages:\n  body: budget 400\n  doors: all\ndonors:\n  lark-17: 580.00")+
		trial.Session("2026-04-01.md", "stage: body\nparts:\n  door: needed door; estimate 100; donor lark-17; worth 5; stage doors", "")+trial.Session("2026-05-01.md", "parts:\n  door: arrived; from Tidewell", ""))
	st := At(b, 0, trial.Today)
	c := st.Costs()
	trial.WantEqual(t, "stages", stagesOf(c), "body 0.00-0.00 0min, doors 580.00-0.00 0min")
	trial.WantEqual(t, "categories", named(b, c.Categories), "parts 580.00")
	trial.WantEqual(t, "suppliers", named(b, c.Suppliers), "")
	trial.WantEqual(t, "nothing more is to be paid for it", c.Stages[1].Remaining[1].String(), "0")
	m := st.Money[0]
	trial.WantEqual(t, "the line", fmt.Sprint(m.Date, m.Part, m.Description(), m.Supplier(), m.Line.HeadSpan().Begin().Line), "2026-05-01doorshare of lark-173")
}

const garageOfDonors = `-- garage.md --
---
garage: The yard
currency: GBP
donors:
  lark-17: 100.00 hatchback; category N; worth 10
---
-- a/build.md --
---
build: A
currency: GBP
---
-- a/2026-04-02.md --
---
stage: body
parts:
  wing: arrived wing; donor lark-17; worth 10
credit: 10 its radio; for lark-17
---
-- b/build.md --
---
build: B
currency: GBP
donors:
  heron-2: 50.00 estate
---
-- b/2026-04-01.md --
---
stage: body
parts:
  door: arrived door; donor lark-17; worth 10
  seat: arrived seat; donor heron-2; worth 10
---
-- c/build.md --
---
build: C
currency: EUR
---
-- c/2026-04-01.md --
---
stage: body
parts:
  lamp: arrived lamp; donor lark-17; worth 10
---
`

// A donor of the garage is shared by its builds, of which each bears what it took; one in
// another currency has no part in it. A build read by itself bears the same.
func TestDonorsOfAGarage(t *testing.T) {
	fsys := trial.Files(garageOfDonors)
	delete(fsys, "build.md")
	g, err := journal.ReadGarage(fsys)
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]string{"a": "wing 30.00; spent 30.00", "b": "door 30.00, seat 50.00; spent 80.00"}
	for _, b := range g.Builds {
		if b.Path == "c" {
			trial.WantFaults(t, "in another currency", b, "unknown-donor c/2026-04-01.md:4:29 |lark-17|")
			continue
		}
		trial.WantFaults(t, b.Path, b)
		trial.WantEqual(t, b.Path, borne(At(b, 0, trial.Today)), want[b.Path])
		sub, err := fsys.Sub(b.Path)
		if err != nil {
			t.Fatal(err)
		}
		alone, err := (*journal.Reader)(nil).ReadBuildIn(sub, b.Path, func() (*journal.Garage, error) { return journal.ReadGarage(fsys) })
		if err != nil {
			t.Fatal(err)
		}
		trial.WantFaults(t, b.Path+" by itself", alone)
		trial.WantEqual(t, b.Path+" by itself", borne(At(alone, 0, trial.Today)), want[b.Path])
	}
	// 100.00 before the radio was sold, over the door and what is left.
	trial.WantEqual(t, "a day earlier", borne(At(g.Builds[1], trial.Day("2026-04-01"), trial.Today)), "door 50.00, seat 50.00; spent 100.00")
}

func TestBadDonors(t *testing.T) {
	b := trial.Compile(t, trial.Card("stages:\n  body: all; system structure\n  rest: all\ndonors:\n  lark-17: 580.00; category B\n  heron-2: 90; category A\n  owl-3: 12,50\n  owl-4: 5; worth 0")+
		trial.Session("2026-04-01.md", `stage: rest
parts:
  a: arrived a; donor lark-71; worth 5
  b: arrived b; worth 5
  c: arrived c; donor lark-17
  d: arrived d; donor lark-17; worth 0
  e: arrived e; donor heron-2; worth 5
  f: arrived f; donor lark-17; worth 5; stage body
  g: arrived g; donor lark-17; worth 5; system restraints
  h: arrived h; donor owl-3; worth 5
  i: arrived i; donor larkk-17
  lark-17: arrived what is left of it
  k: needed k; donor lark-17
cost:
  - 5.00 clips; for owl-3
  - 5.00 more; for c`, ""))
	trial.WantFaults(t, "donors", b, "bad-amount build.md:10:10 |12,50|", "bad-amount build.md:11:19 |0|",
		"unknown-donor 2026-04-01.md:4:23 |lark-71|", "unknown-donor 2026-04-01.md:5:17 |worth 5|", "no-worth 2026-04-01.md:6:23 |lark-17|", "bad-amount 2026-04-01.md:7:38 |0|",
		"donor-refused 2026-04-01.md:8:23 |heron-2|", "donor-refused 2026-04-01.md:9:23 |lark-17|", "donor-refused 2026-04-01.md:10:23 |lark-17|",
		"unknown-donor 2026-04-01.md:12:23 |larkk-17|", "id-taken 2026-04-01.md:13:3 |lark-17|")
}

// Restraints from a donor that stood in water are outstanding, dangerous, until they are off again.
func TestFloodedRestraints(t *testing.T) {
	for _, c := range []struct{ name, donor, later, want string }{
		{"from a dry one", "90", "", ""},
		{"from a wet one", "90; flood", "", "belt-flooded dangerous 2026-04-01 |belt comes from lark-17, which stood in water: restraints of it are not to be used|"},
		{"taken out again", "90; flood", "- belt: returned", ""},
		{"and a new one in its place", "90; flood", "- belt: returned\n  - belt: fitted a new one; new", ""},
		{"a door is no belt", "90; flood", "door: arrived door; donor lark-17; worth 5; system body", "belt-flooded dangerous 2026-04-01 |belt comes from lark-17, which stood in water: restraints of it are not to be used|"},
	} {
		archive := trial.Card("donors:\n  lark-17: "+c.donor) + trial.Session("2026-04-01.md", "stage: x\nparts:\n  belt: arrived belt; system restraints; donor lark-17; worth 5", "")
		if c.later != "" {
			archive += trial.Session("2026-04-02.md", "stage: x\nparts:\n  "+c.later, "")
		}
		st := At(trial.Compile(t, archive), 0, trial.Today)
		var got []string
		for _, s := range st.Snags {
			if s.Source == fact.FromDamage && s.Open {
				got = append(got, fmt.Sprintf("%s %s %s |%s|", s.ID, s.Severity, s.Opened, s.Words))
			}
		}
		trial.WantEqual(t, c.name, strings.Join(got, ", "), c.want)
	}
}
