package state

import (
	"cmp"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/trial"
)

// Random garages against the manual: parts differ by at most one minor
// unit, larger first, go to the first builds by first session and then path, and
// with what stays in the garage add up to the price.
func TestSharesAddUp(t *testing.T) {
	t.Parallel()
	for seed := range 300 {
		rng := rand.New(rand.NewPCG(uint64(seed), 17))
		date := func() string {
			return time.Date(2026, 4, 1+rng.IntN(12), 0, 0, 0, 0, time.UTC).Format(time.DateOnly)
		}
		type begun struct{ path, first string }
		var builds []begun
		text := ""
		for i := range rng.IntN(6) {
			path := fmt.Sprintf("%c%d", 'a'+rng.IntN(4), i)
			text += "-- " + path + "/build.md --\n---\nbuild: " + path + "\ncurrency: " + []string{"GBP", "EUR"}[rng.IntN(2)] + "\n---\n"
			first := ""
			for range rng.IntN(4) {
				d := date()
				text += "-- " + path + "/" + d + ".md --\nWords.\n"
				if first == "" || d < first {
					first = d
				}
			}
			if first != "" {
				builds = append(builds, begun{path, first})
			}
		}
		slices.SortFunc(builds, func(a, b begun) int { return cmp.Or(cmp.Compare(a.first, b.first), cmp.Compare(a.path, b.path)) })
		on, over, price := date(), 1+rng.IntN(9), 1+rng.Int64N(50000)
		asOf := date()
		g, err := journal.ReadGarage(trial.Files(fmt.Sprintf("-- garage.md --\n---\ngarage: G\ncurrency: GBP\ntools:\n  - %s press; over %d builds; on %s\n---\n", pounds(price), over, on) + text))
		if err != nil || len(g.Tools) != 1 {
			t.Fatalf("garage %d: %v, %v", seed, err, g.Faults)
		}
		shares, rest := shares(g, g.Tools[0], begunBy(g, trial.Day(asOf)))
		sum, taken := rest.Shift(2).IntPart(), 0
		for _, b := range builds {
			if b.first < on || b.first > asOf || taken == over {
				continue
			}
			want := price / int64(over)
			if int64(taken) < price%int64(over) {
				want++
			}
			if taken >= len(shares) || shares[taken].build.Path != b.path || shares[taken].amount.Shift(2).IntPart() != want {
				t.Fatalf("garage %d: share %d of %v is not %d of %s", seed, taken, shares, want, b.path)
			}
			sum += want
			taken++
		}
		if taken != len(shares) || sum != price {
			t.Errorf("garage %d: %d shares and the rest come to %d, want %d and %d", seed, len(shares), sum, taken, price)
		}
	}
}

// sidebyside is a garage of four builds: two sold in its currency, one sold in
// another, one at work.
const sidebyside = `
-- garage.md --
---
garage: Lowfield
currency: GBP
tools:
  - 100.00 wrench; over 3 builds; on 2026-01-01
---
-- a/build.md --
---
build: A
currency: GBP
stages:
  engine: budget 700 800 1000
  paint: budget 0
  extra: no budget
---
-- a/2026-03-01.md --
---
stage: engine
time: 2h
cost: 1000
sold: 1500
---
-- b/build.md --
---
build: B
currency: GBP
stages:
  paint: budget 200
  engine: budget 100
---
-- b/2026-03-02.md --
---
stage: engine
cost:
  - 130
  - 150; stage paint
sold: 250
---
-- c/build.md --
---
build: C
currency: EUR
stages:
  engine: budget 50
---
-- c/2026-03-03.md --
---
stage: engine
time: 1h
cost: 60
credit: 10; stage engine
sold: 90
---
-- d/build.md --
---
build: D
currency: GBP
stages:
  engine: budget 10
---
-- d/2026-03-04.md --
---
stage: engine
cost: 999
---
`

func TestTrackRecord(t *testing.T) {
	g, err := journal.ReadGarage(trial.Files(sidebyside))
	if err != nil {
		t.Fatal(err)
	}
	show := func(c *fact.Garage) string {
		var out []string
		for _, r := range c.TrackRecord() {
			out = append(out, fmt.Sprintf("%s %d %s", r.Stage, r.Builds, r.Ratio.StringFixed(4)))
		}
		return strings.Join(out, ", ")
	}
	// engine: 1000/800, 130/100 and 50/50; a paint budget of nothing gives no ratio.
	trial.WantEqual(t, "record", show(GarageAt(g, 0, trial.Today)), "engine 3 1.1833, paint 1 0.7500")
	trial.WantEqual(t, "record of the first", show(GarageAt(g, trial.Day("2026-03-01"), trial.Today)), "engine 1 1.2500")
	trial.WantEqual(t, "before any sale", show(GarageAt(g, trial.Day("2026-02-28"), trial.Today)), "")
}

func TestEarnings(t *testing.T) {
	g, err := journal.ReadGarage(trial.Files(sidebyside))
	if err != nil {
		t.Fatal(err)
	}
	c := GarageAt(g, 0, trial.Today)
	var out []string
	for _, b := range c.Builds {
		e, hour := b.Earned, "none"
		if e == nil {
			continue
		}
		if e.PerHour != nil {
			hour = e.PerHour.StringFixed(2)
		}
		out = append(out, fmt.Sprintf("%s %s %s %s", b.Path, b.Carried.StringFixed(2), e.Sum.StringFixed(2), hour))
	}
	// The third share of the wrench is borne by the build in euro, which is in no sum.
	trial.WantEqual(t, "earnings", strings.Join(out, ", "), "a 33.34 466.66 233.33, b 33.33 -63.33 none")
	trial.WantEqual(t, "in all", c.Totals.Earned.StringFixed(2)+" "+c.Totals.PerHour.StringFixed(2), "403.33 201.67")
}

// noListing is a file system with one folder that cannot be listed.
type noListing struct {
	fs.FS
	dir string
}

func (f noListing) ReadDir(name string) ([]fs.DirEntry, error) {
	if name == f.dir {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrPermission}
	}
	return fs.ReadDir(f.FS, name)
}

// A folder that cannot be listed hides none of the other builds.
func TestGarageWithABuildThatCannotBeRead(t *testing.T) {
	g, err := journal.ReadGarage(noListing{trial.Files(sidebyside), "b"})
	if err != nil {
		t.Fatal(err)
	}
	trial.WantEqual(t, "builds", len(g.Builds), 4)
	b := g.Builds[1]
	trial.WantEqual(t, "it", b.Card.Name+" "+fmt.Sprint(len(b.Sessions), trial.HasFault(b, journal.Unreadable)), "B 0 true")
	trial.WantEqual(t, "the others", GarageAt(g, 0, trial.Today).Totals.Net.String(), "1999")
}

// Shares and returns as accounting works them out, from memory.
func TestSharesAndReturns(t *testing.T) {
	// Straight-line: 100 000 over three in whole pounds is 33 334 + 33 333 + 33 333;
	// (17 000 - 2 000)/5 = 3 000; (38 000 - 7 000)/5 = 6 200.
	for _, c := range []struct{ price, over, want string }{
		{"100000", "3", "33333.34 33333.33 33333.33"}, {"15000", "5", "3000.00 3000.00 3000.00 3000.00 3000.00"}, {"31000", "5", "6200.00 6200.00 6200.00 6200.00 6200.00"},
	} {
		text := "-- garage.md --\n---\ngarage: G\ncurrency: GBP\ntools:\n  - " + c.price + " lathe; over " + c.over + " builds; on 2026-01-01\n---\n"
		for i := range 5 {
			text += fmt.Sprintf("-- b%d/build.md --\n---\nbuild: B\ncurrency: GBP\n---\n-- b%d/2026-03-01.md --\nWords.\n", i, i)
		}
		g, err := journal.ReadGarage(trial.Files(text))
		if err != nil {
			t.Fatal(err)
		}
		shares, rest := shares(g, g.Tools[0], begunBy(g, 0))
		var got []string
		for _, s := range shares {
			got = append(got, s.amount.StringFixed(2))
		}
		trial.WantEqual(t, c.price, strings.Join(got, " ")+" "+rest.StringFixed(0), c.want+" 0")
	}
	// Cost 100, price 125 is a markup of 25 % (which return on cost is) and
	// a margin of 20 %. Effective hourly rate: profit by hours, not defined at none.
	r := At(trial.Compile(t, trial.Card("")+trial.Session("2026-04-01.md", "stage: x\ncost: 100\ntime: 4h\nsold: 125", "")), 0, trial.Today).Costs().Sold
	trial.WantEqual(t, "markup and hourly rate", r.Return.String()+" "+r.PerHour.StringFixed(2), "0.25 6.25")
	trial.WantEqual(t, "margin", r.Profit.Div(r.Price).String(), "0.2")
	r = At(trial.Compile(t, trial.Card("")+trial.Session("2026-04-01.md", "sold: 125", "")), 0, trial.Today).Costs().Sold
	if r.Return != nil || r.PerHour != nil {
		t.Errorf("a return of %v and %v an hour on nothing", r.Return, r.PerHour)
	}
	// Nor is there a return where more came back than was spent.
	r = At(trial.Compile(t, trial.Card("")+trial.Session("2026-04-01.md", "stage: x\ncost: 100\ncredit: 150 spares; as spares\nsold: 125", "")), 0, trial.Today).Costs().Sold
	if r.Return != nil {
		t.Errorf("a return of %v on less than nothing", r.Return)
	}
	// Least price with a fee of 5 % that leaves 5 000: 5 263.157…; read as the most to
	// pay for 5 000 with a fee of 5 % on top it is 4 761.90 (5 000/1.05).
	answer, _ := BestBid(trial.Compile(t, trial.Card("resale: 5000\nbid increment: 0.01\nfees:\n  fee: 5%")).Card)
	trial.WantEqual(t, "break-even", answer.Highest.Price.String(), "4761.9")
}

// Hours still to come are used up by the time noted since, as money is by costs.
func TestHoursToCome(t *testing.T) {
	b := trial.Compile(t, trial.Card("stages:\n  paint: budget 100\n  body: budget 100")+
		trial.Session("2026-04-10.md", "stage: paint\ntime: 3h\nremaining:\n  paint: 50; hours 2 5 9", "")+
		trial.Session("2026-04-12.md", "stage: paint\ntime:\n  - 1h30; hands 2\n  - 5h; stage body", ""))
	for date, want := range map[string]string{"2026-04-09": "[0m 0m 0m]", "2026-04-10": "[2h 5h 9h]", "2026-04-12": "[0m 2h 6h]"} {
		trial.WantEqual(t, "hours on "+date, fmt.Sprint(At(b, trial.Day(date), trial.Today).Costs().Forecast.HoursLeft), want)
	}
}
