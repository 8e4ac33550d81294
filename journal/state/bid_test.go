package state

import (
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/trial"
)

func TestFees(t *testing.T) {
	c := trial.Compile(t, trial.Card("vat: 20%\nfees:\n  buyer's fee: 75 to 500, 130 to 1000, 195 to 2000, 12% above; plus vat\n  storage: 2.5%\n  delivery: 120; plus vat 5%")).Card
	for price, want := range map[string]string{
		// 75 + 15 tax; 2.5 % rounded; 120 + 6.
		"500": "228.50", "500.01": "294.50", "1": "216.03", "1000": "307.00",
		"2000":    "410.00", // 195 + 39 + 50 + 126
		"2000.01": "464.00", // 240.00 (12 % of 2000.01 is 240.0012) + 48 + 50 (50.00025) + 126
		"2001":    "464.17", // 240.12 + 48.02 + 50.03 (50.025) + 126
	} {
		trial.WantEqual(t, "fees at "+price, FeesAt(c, trial.Dec(price)).StringFixed(2), want)
	}
}

// The bid, found by trying every multiple with plain integers and floating point.
func TestBidAgainstEveryMultiple(t *testing.T) {
	cards := 400
	if testing.Short() {
		cards = 60
	}
	for seed := range cards {
		rng := rand.New(rand.NewPCG(uint64(seed), 3))
		whole := func(n int) int64 { return int64(rng.IntN(n)) }
		increment := []int64{1, 5, 25, 10, 100}[rng.IntN(5)]
		low := 1000 + whole(1000)
		resale := [3]int64{low, low + whole(500), low + 500 + whole(500)}
		profit, confidence := whole(600), int64(5+rng.IntN(90))
		limits := [2]int64{200 + whole(300), 600 + whole(600)}
		fixed := [2]int64{whole(300), whole(300)}
		percent := int64(1 + rng.IntN(25))
		vat := rng.IntN(2) == 0
		var budgets [][3]int64
		text := fmt.Sprintf("vat: 20%%\nresale: %d %d %d\nprofit: %d\nconfidence: %d%%\nbid increment: %d\nfees:\n  fee: %d to %d, %d to %d, %d%% above%s\nstages:\n  buying: budget 999; purchase\n",
			resale[0], resale[1], resale[2], profit, confidence, increment, fixed[0], limits[0], fixed[1], limits[1], percent, map[bool]string{true: "; plus vat"}[vat])
		for i := range rng.IntN(4) {
			b := [3]int64{whole(200), 200 + whole(200), 400 + whole(200)}
			if rng.IntN(4) == 0 {
				b = [3]int64{b[1], b[1], b[1]}
			}
			budgets = append(budgets, b)
			text += fmt.Sprintf("  stage %c: budget %d %d %d\n", 'a'+i, b[0], b[1], b[2])
		}
		fees := func(price int64) int64 { // in pence
			fee := half(big.NewInt(price*100*percent), big.NewInt(100)).Int64()
			for i := len(limits) - 1; i >= 0; i-- {
				if price <= limits[i] {
					fee = fixed[i] * 100
				}
			}
			if vat {
				fee += half(big.NewInt(fee*20), big.NewInt(100)).Int64()
			}
			return fee
		}
		mean := float64(resale[0]+4*resale[1]+resale[2]) / 6
		together := 0.0
		for _, b := range budgets {
			mean -= float64(b[0]+4*b[1]+b[2]) / 6
			together += float64(b[2]-b[0]) / 6
		}
		sigma := math.Hypot(together, float64(resale[2]-resale[0])/6)
		chance := func(price int64) float64 {
			margin := mean - float64(price) - float64(fees(price))/100 - float64(profit)
			if sigma == 0 {
				return map[bool]float64{true: 1, false: 0}[margin >= 0]
			}
			return math.Erfc(-margin/sigma/math.Sqrt2) / 2
		}
		best := int64(0)
		for price := increment; price <= resale[2]; price += increment {
			if c := chance(price); math.Abs(c-float64(confidence)/100) < 1e-9 {
				best = -1 // a tie that floating point cannot tell
				break
			} else if c >= float64(confidence)/100 {
				best = price
			}
		}
		if best < 0 {
			continue
		}
		b := trial.Compile(t, trial.Card(text))
		if b.LinesLeftOut > 0 {
			t.Fatalf("%q", trial.FaultsOf(b))
		}
		answer, ok := BestBid(b.Card)
		got := int64(0)
		if answer.Highest != nil {
			got = answer.Highest.Price.IntPart()
			if h := answer.Highest; math.Abs(h.Chance-chance(got)) > 1e-9 || h.Fees.StringFixed(2) != minorUnits(big.NewInt(fees(got)), 2) || !h.Total.Equal(h.Price.Add(h.Fees)) {
				t.Errorf("card %d: the bid %+v has the chance %v and the fees %d", seed, h, chance(got), fees(got))
			}
		}
		if !ok || got != best {
			t.Fatalf("card %d: the highest bid is %d, want %d\n%s", seed, got, best, text)
		}
	}
}

func TestBidTable(t *testing.T) {
	b := trial.Compile(t, trial.Card("resale: 2000\nprofit: 100\nbid increment: 100\nstages:\n  work: budget 500\n  buying: budget 1300; purchase"))
	answer, _ := BestBid(b.Card)
	var prices []string
	for _, bid := range answer.Table {
		prices = append(prices, bid.Price.String())
	}
	trial.WantEqual(t, "highest", answer.Highest.Price.String(), "1400") // 2000 - 500 - 100, for sure
	trial.WantEqual(t, "table", strings.Join(prices, " "), "900 1000 1100 1200 1300 1400 1500 1600 1700 1800 1900")
	if _, ok := BestBid(trial.Compile(t, trial.Card("")).Card); ok {
		t.Error("a bid without a resale")
	}
	if answer, ok := BestBid(trial.Compile(t, trial.Card("resale: 300\nprofit: 500")).Card); !ok || answer.Highest != nil || len(answer.Table) > 0 {
		t.Errorf("none is an answer too: %+v", answer)
	}
	// A band's edge makes a higher price cheaper: at 1001 and above the fee is 1 only.
	answer, _ = BestBid(trial.Compile(t, trial.Card("resale: 2000\nprofit: 900\nbid increment: 1\nfees:\n  fee: 10 to 500, 400 to 1000, 1 above")).Card)
	trial.WantEqual(t, "beyond the edge", answer.Highest.Price.String(), "1099")
}

func TestGarage(t *testing.T) {
	fsys := trial.Files(`
-- garage.md --
---
garage: Lowfield
currency: GBP
vat: 20%
rates:
  EUR: 0.86
tools:
  - 100.00 impact wrench; over 3 builds; on 2026-02-01; from Mill Lane
  - 10.00 EUR gauge; over 2 builds; on 2026-03-15; plus vat
  - 50 jack; on 2026-01-01
  - 60 press; over 2 builds
  - 70 stand; over 0 builds; on 2026-01-01
---
-- b/build.md --
---
build: B
currency: GBP
---
-- b/2026-03-01.md --
---
stage: x
cost: 10
time: 1h
sold: 500
---
-- a/build.md --
---
build: A
currency: GBP
---
-- a/2026-03-01.md --
---
stage: x
cost: 20
---
-- early/build.md --
---
build: Early
currency: GBP
---
-- early/2026-01-31.md --
---
stage: x
cost: 30
---
-- euro/build.md --
---
build: Euro
currency: EUR
---
-- euro/2026-04-01.md --
---
stage: x
cost: 40
---
-- none/build.md --
---
build: None yet
currency: GBP
---
`)
	g, err := journal.ReadGarage(fsys)
	if err != nil {
		t.Fatal(err)
	}
	var faults []string
	for _, f := range g.Faults {
		faults = append(faults, trial.FaultLine(f))
	}
	trial.WantList(t, "faults", faults, []string{"bad-number garage.md:12:20 |0|", "tool-needs-over garage.md:10:5 |50|", "tool-needs-on garage.md:11:5 |60|"})
	show := func(date string) string {
		asOf := trial.Day(date)
		if date == "2099-01-01" {
			asOf = 0
		}
		var out []string
		for _, tool := range GarageAt(g, asOf, trial.Today).Tools {
			line := tool.Name + " " + tool.Price.StringFixed(2) + ":"
			for _, s := range tool.Shares {
				line += " " + s.Name + " " + s.Amount.StringFixed(2)
			}
			out = append(out, line+" rest "+tool.Unassigned.StringFixed(2))
		}
		return strings.Join(out, "; ")
	}
	// 100/3 is 33.34, 33.33, 33.33; 12 EUR are 10.32. Early began before; ties go by path.
	trial.WantEqual(t, "all", show("2099-01-01"), "impact wrench 100.00: A 33.34 B 33.33 Euro 33.33 rest 0.00; gauge 10.32: Euro 5.16 rest 5.16")
	trial.WantEqual(t, "in March", show("2026-03-01"), "impact wrench 100.00: A 33.34 B 33.33 rest 33.33")
	trial.WantEqual(t, "in February", show("2026-02-01"), "impact wrench 100.00: rest 100.00")
	trial.WantEqual(t, "before", show("2026-01-31"), "")
	c := GarageAt(g, 0, trial.Today)
	var others []string
	for _, b := range c.Others() {
		others = append(others, b.Name)
	}
	trial.WantList(t, "left out of the sums", others, []string{"Euro"})
	trial.WantEqual(t, "totals", c.Totals.Spent.String()+" "+c.Totals.Carried.String()+" "+fmt.Sprint(c.Totals.Sold)+" "+c.Totals.Earned.String(), "60 66.67 1 456.67") // 490 - 33.33
}
