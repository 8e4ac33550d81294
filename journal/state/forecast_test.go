package state

import (
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"guidecoat/journal/trial"
)

// NIST/SEMATECH e-Handbook of Statistical Methods, §1.3.6.7.1, and Abramowitz and
// Stegun, Handbook of Mathematical Functions, table 26.1.
func TestPhi(t *testing.T) {
	for z, want := range map[float64]float64{
		0: .5, .25: .5987, .5: .6915, .57: .7157, .65: .7422, .67: .7486, 1: .8413, 1.28: .8997, 1.5: .9332, 1.64: .9495, 1.65: .9505, 1.96: .9750,
		2: .9772, 2.33: .9901, 2.5: .9938, 3: .9987, -2.5: .0062, -3: .0013,
	} {
		if got := Phi(z); math.Abs(got-want) > .00005 {
			t.Errorf("Phi(%v) = %.6f, want %.4f", z, got, want)
		}
	}
	for z, want := range map[float64]float64{1: .8413447461, 1.96: .9750021049, 2: .9772498681, 1.281551566: .9, .6744897502: .75, .8416212336: .8, 1.644853627: .95} {
		if got := Phi(z); math.Abs(got-want) > 1e-9 {
			t.Errorf("Phi(%v) = %.10f, want %.10f", z, got, want)
		}
	}
	if Phi(math.Inf(1)) != 1 || Phi(math.Inf(-1)) != 0 || Phi(9) != 1 || Phi(-40) != 0 {
		t.Error("far out")
	}
}

// Three-point networks of the sources named; of the first the three numbers are from
// memory, and all figures are worked out anew, without rounding z. The activities of
// the critical path are stages, the day asked about is a certain resale.
func TestNetworks(t *testing.T) {
	for _, c := range []struct {
		name, source string
		stages       []string // best likely worst
		mean         float64
		variance     float64
		by           string // the day asked about
		chance       float64
	}{
		{"paper mill", "Heizer and Render, Operations Management, project chapter, path A-C-E-G-H; printed 0.7157 by z rounded to 0.57",
			[]string{"1 2 3", "1 2 3", "1 4 7", "3 4 11", "1 2 3"}, 15, 28.0 / 9, "16", .7146},
		{"fourteen activities", "an exercise, from memory, path A-C-E-H-I-K-M-N; z = 0.65 in tables gives 0.7422",
			[]string{"5 5 7", "5 5 5", "1 10 17", "4 4 6", "2 7 10", "6 10 13", "2 2 3", "7 7 12"}, 305.0 / 6, 11.194444444444445, "53", .7414},
		{"tutorial", "PM Knowledge Center, PERT article, table 1, path A-B-E-F", []string{"2 5 8", "1 2 9", "1 2 9", "1 3 11"}, 15, 22.0 / 3, "18", .8660},
	} {
		lines := "resale: " + c.by + "\nstages:\n"
		for i, s := range c.stages {
			lines += fmt.Sprintf("  activity %d: budget %s\n", i, s)
		}
		f := At(trial.Compile(t, trial.Card(lines)), 0, trial.Today).Costs().Forecast
		near := func(what string, got, want, tolerance float64) {
			if math.Abs(got-want) > tolerance {
				t.Errorf("%s (%s): %s is %.10f, want %.10f", c.name, c.source, what, got, want)
			}
		}
		near("mean", f.Mean.InexactFloat64(), c.mean, 1e-12)
		near("variance", f.SD.Mul(f.SD).InexactFloat64(), c.variance, 1e-12)
		near("chance", f.Chance, c.chance, .00005)
	}
	// Means and variances of every activity of the first and the third.
	for budget, want := range map[string][2]float64{
		"1 2 3": {2, 1. / 9}, "2 3 4": {3, 1. / 9}, "2 4 6": {4, 4. / 9}, "1 4 7": {4, 1}, "1 2 9": {3, 16. / 9}, "3 4 11": {5, 16. / 9},
		"2 5 8": {5, 1}, "0.25 0.50 3.75": {1, 49. / 144}, "1 1 7": {2, 1}, "1 3 11": {4, 25. / 9},
	} {
		f := At(trial.Compile(t, trial.Card("stages:\n  x: budget "+budget)), 0, trial.Today).Costs().Forecast
		if math.Abs(f.Mean.InexactFloat64()-want[0]) > 1e-12 || math.Abs(f.SD.Mul(f.SD).InexactFloat64()-want[1]) > 1e-12 || !f.SD.Equal(f.SDTogether) {
			t.Errorf("%s: mean %v, sd %v and %v", budget, f.Mean, f.SD, f.SDTogether)
		}
	}
}

func TestForecastByHand(t *testing.T) {
	b := trial.Compile(t, trial.Card(`
resale: 4600 5200 5600
profit: 800
stages:
  buying: budget 1500; purchase
  axle: budget 260 340 520
  paint: budget 100 200 600
  extra: no budget`)+
		trial.Session("2026-04-01.md", "stage: buying\ncost: 1600 car; as vehicle\n", "")+
		trial.Session("2026-04-05.md", "stage: axle\ncost: 300\nparts:\n  hub: needed hub; estimate 50 60 70\n  ring: ordered ring; stage extra; estimate 9 14 30\n  bolt: ordered bolt; stage extra; estimate 5", "")+
		trial.Session("2026-04-10.md", "stage: paint\nremaining:\n  paint: 150 250 300; hours 4 6.5 9\ncost:\n  - 40; on 2026-04-11\n  - 7; on 2026-04-10", "")+
		trial.Session("2026-04-20.md", "stage: extra\ncost: 6; for bolt\nremaining:\n  axle: nothing\ncredit: 20; stage axle; on 2026-04-21", ""))
	trial.WantFaults(t, "forecast", b)
	show := func(date string) string {
		c := At(b, trial.Day(date), trial.Today).Costs()
		var out []string
		for _, s := range c.Stages {
			out = append(out, fmt.Sprintf("%s %v +%v", s.Name, s.Remaining, s.Overrun))
		}
		return strings.Join(out, ", ")
	}
	for _, c := range []struct{ date, want string }{
		{"2026-03-31", "buying [1500 1500 1500] +0, axle [260 340 520] +0, paint [100 200 600] +0, extra [0 0 0] +0"},
		{"2026-04-01", "buying [0 0 0] +100, axle [260 340 520] +0, paint [100 200 600] +0, extra [0 0 0] +0"},
		{"2026-04-05", "buying [0 0 0] +100, axle [50 60 220] +0, paint [100 200 600] +0, extra [14 19 35] +0"}, // the hub's estimate is more than 260 - 300
		{"2026-04-10", "buying [0 0 0] +100, axle [50 60 220] +0, paint [150 250 300] +0, extra [14 19 35] +0"}, // what was paid that day is in the estimate
		{"2026-04-11", "buying [0 0 0] +100, axle [50 60 220] +0, paint [110 210 260] +0, extra [14 19 35] +0"},
		{"2026-04-20", "buying [0 0 0] +100, axle [0 0 0] +0, paint [110 210 260] +0, extra [9 14 30] +0"}, // the bolt is paid
		{"2026-04-21", "buying [0 0 0] +100, axle [0 0 0] +0, paint [110 210 260] +0, extra [9 14 30] +0"}, // closed, whatever comes back
	} {
		trial.WantEqual(t, "remaining on "+c.date, show(c.date), c.want)
	}
	f := At(b, trial.Day("2026-04-20"), trial.Today).Costs().Forecast
	// Spent 1600 + 300 + 47 + 6 = 1953; paint (110 + 840 + 260)/6 = 201.666…, extra (9 + 56 + 30)/6 = 15.8333…
	trial.WantEqual(t, "cost", fmt.Sprint(f.Cost), "[2072 2177 2243]")
	trial.WantEqual(t, "mean", f.Mean.StringFixed(6), "2170.500000")
	trial.WantEqual(t, "resale mean", f.ResaleMean.StringFixed(6), "5166.666667") // 31000/6
	trial.WantEqual(t, "profit mean", f.ProfitMean.StringFixed(6), "2996.166667")
	trial.WantEqual(t, "deviations", fmt.Sprint(f.SD.StringFixed(6), " ", f.SDTogether.StringFixed(6), " ", f.ResaleSD.StringFixed(6)), "25.243811 28.500000 166.666667") // √(25² + 3.5²), 25 + 3.5, 1000/6
	trial.WantEqual(t, "hours left", fmt.Sprint(f.HoursLeft), "[4h 6h 30m 9h]")
	// z = (2996.1666… - 800)/√(25.2438² + 166.6667²) = 13.03: all but certain.
	if f.Chance < .999999 || f.ChanceShared < .999999 {
		t.Errorf("chances %v, %v", f.Chance, f.ChanceShared)
	}
}

// A deviation of exactly half a penny is rounded away from zero, like every figure:
// 745.65/6 is 124.275, for which there is no binary fraction.
func TestDeviationsAreExact(t *testing.T) {
	for _, c := range []struct{ stages, want string }{
		{"stages:\n  a: budget 1000 1000 1745.65", "124.275 124.275"},
		{"stages:\n  a: budget 0 0 447.39\n  b: budget 0 0 596.52", "124.275 173.985"}, // 3 and 4 parts of 149.13: together 5 and 7
	} {
		f := At(trial.Compile(t, trial.Card("resale: 1000 1000 1745.65\n"+c.stages)), 0, trial.Today).Costs().Forecast
		trial.WantEqual(t, c.stages, fmt.Sprint(f.SD, " ", f.SDTogether, " ", f.ResaleSD), c.want+" 124.275")
	}
}

// Of estimates of one day the later session's holds, and of one session the later
// line's. Overrun is what is over the worst budget, no less.
func TestRemainingOfOneDayAndOverrun(t *testing.T) {
	b := trial.Compile(t, trial.Card("stages:\n  axle: budget 100 200 300\n  paint: budget 100 200 300")+
		trial.Session("2026-04-10 b.md", "stage: axle\nremaining:\n  - axle: 30\n  - axle: 40\ncost: 250", "")+
		trial.Session("2026-04-10 a.md", "stage: paint\nremaining:\n  axle: 20\ncost: 300.01", "")+
		trial.Session("2026-04-09.md", "remaining:\n  axle: 10", ""))
	c := At(b, 0, trial.Today).Costs()
	trial.WantEqual(t, "remaining", c.Stages[0].Remaining[0].String(), "40")
	trial.WantEqual(t, "between likely and worst", c.Stages[0].Overrun.String(), "0")
	trial.WantEqual(t, "above the worst", c.Stages[1].Overrun.String(), "0.01")
}

// A stage that the card lists a second time is left out, as the error says, and nothing of it counts.
func TestRepeatedStageCountsOnce(t *testing.T) {
	b := trial.Compile(t, trial.Card("resale: 900\nstages:\n  - paint: budget 100 200 300; hours 1\n  - paint: budget 400 500 600; hours 2"))
	c := At(b, 0, trial.Today).Costs()
	if len(c.Stages) != 1 || exact(c.Stages[0].Remaining[1]) != "200.00" || exact(c.Forecast.Cost[1]) != "200.00" || len(b.StageNames()) != 1 {
		t.Errorf("stages %+v, in the end %v", c.Stages, c.Forecast.Cost)
	}
	if bid, _ := BestBid(b.Card); exact(bid.Hours) != "1.00" {
		t.Errorf("the bid counts %s hours", bid.Hours)
	}
}

// Without any spread a chance is 0 or 1; at equality 1. No division by nothing.
func TestChanceWithoutSpread(t *testing.T) {
	for resale, want := range map[string]float64{"1000": 1, "1000.01": 1, "999.99": 0, "5": 0} {
		f := At(trial.Compile(t, trial.Card("resale: "+resale+"\nprofit: 100\nstages:\n  x: budget 900")), 0, trial.Today).Costs().Forecast
		if f.Chance != want || f.ChanceShared != want {
			t.Errorf("resale %s: chances %v and %v, want %v", resale, f.Chance, f.ChanceShared, want)
		}
	}
	// Sixths that do not end: 0.13/6 + 0.23/6 is exactly 0.06, and equality is seen.
	f := At(trial.Compile(t, trial.Card("resale: 0.06\nstages:\n  a: budget 0.01 0.02 0.04\n  b: budget 0.02 0.04 0.05")), 0, trial.Today).Costs().Forecast
	if !f.ProfitMean.IsZero() || f.Chance != .5 {
		t.Errorf("profit %v, chance %v", f.ProfitMean, f.Chance)
	}
	if f := At(trial.Compile(t, trial.Card("stages:\n  x: budget 900")), 0, trial.Today).Costs().Forecast; f == nil || f.Resale != nil || f.Cost[1].String() != "900" {
		t.Errorf("without resale: %+v", f)
	}
	if c := At(trial.Compile(t, trial.Card("resale: 5000")+trial.Session("2026-04-01.md", "sold: 5000", "")), 0, trial.Today).Costs(); c.Forecast != nil {
		t.Error("a forecast once sold")
	}
}

// A build made up for the forecast: plain money by stage and day, estimates, rounds.
type forecastBuild struct {
	stages    []string
	budgets   [][]int64 // hundredths; nil: none
	money     []forecastMoney
	remaining []forecastRemaining
	parts     []forecastPart
	resale    []int64
	profit    int64
	archive   string
}

type forecastMoney struct {
	date   string
	stage  int
	amount int64 // negative: a credit
	part   int   // -1: none
}

type forecastRemaining struct {
	date   string
	stage  int
	amount []int64 // nil: nothing more
}

type forecastPart struct {
	stage int
	lines []forecastPartLine
}

type forecastPartLine struct {
	date, state string
	estimate    []int64
}

func newForecastBuild(seed uint64) *forecastBuild {
	rng := rand.New(rand.NewPCG(seed, 5))
	f := &forecastBuild{stages: []string{"buying", "rear axle", "paint"}[:1+rng.IntN(3)], profit: rng.Int64N(500000)}
	chance := func(n int) bool { return rng.IntN(n) == 0 }
	three := func() []int64 {
		v := []int64{rng.Int64N(50000), rng.Int64N(50000), rng.Int64N(50000)}
		slices.Sort(v)
		if chance(5) {
			v[1], v[2] = v[0], v[0]
		}
		return v
	}
	day := func(n int) string { return time.Date(2026, 4, 1+n, 0, 0, 0, 0, time.UTC).Format(time.DateOnly) }
	text := func(n int64) string { return fmt.Sprintf("%d.%02d", n/100, n%100) }
	threeText := func(v []int64) string {
		if v[0] == v[2] {
			return text(v[0])
		}
		return text(v[0]) + " " + text(v[1]) + " " + text(v[2])
	}
	lines := fmt.Sprintf("profit: %s\n", text(f.profit))
	if !chance(6) {
		f.resale = three()
		f.resale[0]++ // not zero
		slices.Sort(f.resale)
		for i := range f.resale {
			f.resale[i] += 300000
		}
		lines += "resale: " + threeText(f.resale) + "\n"
	}
	lines += "stages:\n"
	for _, s := range f.stages {
		if chance(4) {
			f.budgets = append(f.budgets, nil)
			lines += "  " + s + ": no budget\n"
			continue
		}
		v := three()
		f.budgets = append(f.budgets, v)
		lines += "  " + s + ": budget " + threeText(v) + "\n"
	}
	f.archive = trial.Card(lines)
	const days = 20
	for range rng.IntN(4) {
		f.parts = append(f.parts, forecastPart{stage: rng.IntN(len(f.stages))})
	}
	for i := range days {
		var parts, remaining, cost, credit []string
		date := day(i)
		for id := range f.parts {
			p := &f.parts[id]
			if i > 0 && !chance(5) {
				continue
			}
			l := forecastPartLine{date: date, state: []string{"needed", "ordered", "arrived", "fitted", "returned", "cancelled"}[rng.IntN(6)]}
			line := fmt.Sprintf("part-%c: %s a part", 'a'+id, l.state)
			if chance(3) {
				l.estimate = three()
				line += "; estimate " + threeText(l.estimate)
			}
			if i == 0 {
				line += "; stage " + f.stages[p.stage]
			}
			p.lines = append(p.lines, l)
			parts = append(parts, line)
		}
		for range rng.IntN(3) {
			m := forecastMoney{date: date, stage: rng.IntN(len(f.stages)), amount: 1 + rng.Int64N(20000), part: -1}
			line := text(m.amount) + "; stage " + f.stages[m.stage]
			if chance(3) {
				m.date = day(rng.IntN(days))
				line += "; on " + m.date
			}
			if len(f.parts) > 0 && chance(3) {
				m.part = rng.IntN(len(f.parts))
				line += fmt.Sprintf("; for part-%c", 'a'+m.part)
			}
			if chance(4) {
				m.amount = -m.amount
				credit = append(credit, line)
			} else {
				cost = append(cost, line)
			}
			f.money = append(f.money, m)
		}
		for range rng.IntN(5) / 3 {
			r := forecastRemaining{date: date, stage: rng.IntN(len(f.stages))}
			line := f.stages[r.stage] + ": nothing"
			if !chance(5) {
				r.amount = three()
				line = f.stages[r.stage] + ": " + threeText(r.amount)
			}
			f.remaining = append(f.remaining, r)
			remaining = append(remaining, line)
		}
		front := ""
		for key, list := range map[string][]string{"parts": parts, "remaining": remaining, "cost": cost, "credit": credit} {
			if len(list) > 0 {
				front += key + ":\n  - " + strings.Join(list, "\n  - ") + "\n"
			}
		}
		f.archive += trial.Session(date+".md", front, "")
	}
	return f
}

// expected is the forecast as the manual says it, in fractions and floating point.
func (f *forecastBuild) expected(date string) (remaining [][3]*big.Rat, mean, sd, together, profit, chance, chanceTogether float64) {
	net := make([]int64, len(f.stages))
	for _, m := range f.money {
		if m.date <= date {
			net[m.stage] += m.amount
		}
	}
	total, variance := 0.0, 0.0
	for stage := range f.stages {
		total += float64(net[stage]) / 100
		var left [3]*big.Rat
		for i := range left {
			left[i] = new(big.Rat)
		}
		newest := -1
		for i, r := range f.remaining {
			if r.stage == stage && r.date <= date && (newest < 0 || r.date >= f.remaining[newest].date) {
				newest = i
			}
		}
		switch {
		case newest >= 0 && f.remaining[newest].amount != nil:
			since := int64(0)
			for _, m := range f.money {
				if m.stage == stage && m.date > f.remaining[newest].date && m.date <= date {
					since += m.amount
				}
			}
			for i := range left {
				left[i].SetFrac64(max(f.remaining[newest].amount[i]-since, 0), 100)
			}
		case newest < 0:
			estimates := f.estimates(stage, date)
			for i := range left {
				budget := int64(0)
				if f.budgets[stage] != nil {
					budget = max(f.budgets[stage][i]-net[stage], 0)
				}
				left[i].SetFrac64(max(budget, estimates[i]), 100)
			}
		}
		best, _ := left[0].Float64()
		likely, _ := left[1].Float64()
		worst, _ := left[2].Float64()
		mean += (best + 4*likely + worst) / 6
		variance += (worst - best) / 6 * (worst - best) / 6
		together += (worst - best) / 6
		remaining = append(remaining, left)
	}
	mean, sd = mean+total, math.Sqrt(variance)
	if f.resale == nil {
		return
	}
	low, likely, high := float64(f.resale[0])/100, float64(f.resale[1])/100, float64(f.resale[2])/100
	profit = (low+4*likely+high)/6 - mean
	phi := func(spread float64) float64 {
		sigma := math.Sqrt(spread*spread + (high-low)*(high-low)/36)
		margin := profit - float64(f.profit)/100
		if sigma == 0 {
			return map[bool]float64{true: 1, false: 0}[margin >= 0]
		}
		return (1 + math.Erf(margin/sigma/math.Sqrt2)) / 2
	}
	return remaining, mean, sd, together, profit, phi(sd), phi(together)
}

// estimates sums what parts of a stage may cost that are needed or ordered in a
// round in which nothing is paid yet.
func (f *forecastBuild) estimates(stage int, date string) (sum [3]int64) {
	for id, p := range f.parts {
		state, round := "", ""
		var estimate []int64
		for _, l := range p.lines {
			if l.date > date {
				continue
			}
			ended := state == "returned" || state == "cancelled"
			ends := l.state == "returned" || l.state == "cancelled"
			if ended && !ends {
				round = l.date
			}
			state = l.state
			if l.estimate != nil {
				estimate = l.estimate
			}
		}
		if p.stage != stage || state != "needed" && state != "ordered" || estimate == nil {
			continue
		}
		paid := slices.ContainsFunc(f.money, func(m forecastMoney) bool {
			return m.part == id && m.amount > 0 && m.date >= round && m.date <= date
		})
		for i := range sum {
			if !paid {
				sum[i] += estimate[i]
			}
		}
	}
	return sum
}

func TestForecastAgainstItsText(t *testing.T) {
	t.Parallel()
	builds := 200
	if testing.Short() {
		builds = 30
	}
	for seed := range builds {
		f := newForecastBuild(uint64(seed))
		b := trial.Compile(t, f.archive)
		if b.LinesLeftOut > 0 {
			t.Fatalf("build %d: %q\n%s", seed, trial.FaultsOf(b), f.archive)
		}
		for _, date := range []string{"2026-03-01", "2026-04-04", "2026-04-09", "2026-04-15", "2026-12-01"} {
			remaining, mean, sd, together, profit, chance, chanceTogether := f.expected(date)
			c := At(b, trial.Day(date), trial.Today).Costs()
			for i, s := range c.Stages[:len(f.stages)] {
				for j := range 3 {
					if want := remaining[i][j].FloatString(2); s.Remaining[j].StringFixed(2) != want {
						t.Errorf("build %d on %s: %s still needs %v, want %s", seed, date, s.Name, s.Remaining, want)
					}
				}
			}
			for _, x := range []struct {
				what      string
				got, want float64
			}{
				{"mean", c.Forecast.Mean.InexactFloat64(), mean}, {"sd", c.Forecast.SD.InexactFloat64(), sd}, {"sd together", c.Forecast.SDTogether.InexactFloat64(), together},
				{"profit", c.Forecast.ProfitMean.InexactFloat64(), profit}, {"chance", c.Forecast.Chance, chance}, {"chance together", c.Forecast.ChanceShared, chanceTogether},
			} {
				if math.Abs(x.got-x.want) > 1e-9*max(1, math.Abs(x.want)) && math.Abs(x.got-x.want) > 1e-9 {
					t.Errorf("build %d on %s: %s is %v, want %v", seed, date, x.what, x.got, x.want)
				}
			}
		}
		if t.Failed() {
			t.Fatal(f.archive)
		}
	}
}
