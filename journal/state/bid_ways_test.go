package state

import (
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"guidecoat/journal/fact"
	"guidecoat/journal/trial"
)

// A plainThree is three numbers as the generator made them up, in hundredths.
type plainThree [3]int64

func (p plainThree) String() string { return pounds(p[0]) + " " + pounds(p[1]) + " " + pounds(p[2]) }

// mean and variance by the words of the manual.
func (p plainThree) mean(tenth bool) *big.Rat {
	if tenth {
		return big.NewRat(3*p[0]+4*p[1]+3*p[2], 1000)
	}
	return big.NewRat(p[0]+4*p[1]+p[2], 600)
}

func (p plainThree) deviation(tenth bool) float64 {
	if !tenth {
		return float64(p[2]-p[0]) / 600
	}
	mean, _ := p.mean(true).Float64()
	sum := 0.0
	for i, w := range []float64{.3, .4, .3} {
		d := float64(p[i])/100 - mean
		sum += w * d * d
	}
	return math.Sqrt(sum)
}

func randomThree(rng *rand.Rand, most int64) plainThree {
	a := rng.Int64N(most)
	if rng.IntN(4) == 0 {
		return plainThree{a, a, a}
	}
	m := a + rng.Int64N(most)
	return plainThree{a, m, m + rng.Int64N(most)}
}

// All three bids, and what matters, against every multiple of the increment, worked out in
// fractions from what the generator made up.
func TestThreeBidsAgainstEveryBid(t *testing.T) {
	t.Parallel()
	cards := 600
	if testing.Short() {
		cards = 150
	}
	answers := map[string]int{}
	for seed := range cards {
		rng := rand.New(rand.NewPCG(uint64(seed), 17))
		tenth := rng.IntN(2) == 0
		increment := []int64{1000, 2500, 500, 10000}[rng.IntN(4)]
		low := 50000 + rng.Int64N(150000)
		resale := plainThree{low, low + rng.Int64N(50000), low + 50000 + rng.Int64N(80000)}
		profit, confidence := rng.Int64N(60000), 1+rng.Int64N(98)
		text := fmt.Sprintf("vat: 20%%\nresale: %s\nprofit: %s\nconfidence: %d%%\nbid increment: %s\n", resale, pounds(profit), confidence, pounds(increment))
		if tenth {
			text += "worst: 1 in 10\n"
		}
		var fees []naiveFee
		for i := range rng.IntN(3) {
			if i == 0 {
				text += "fees:\n"
			}
			f := randomFee(rng, resale[2])
			fees, text = append(fees, f), text+fmt.Sprintf("  fee %d: %s\n", i, f)
		}
		type spreadOf struct {
			name       string
			best, here *big.Rat // what the profit is worth more at its best; at its worst less
		}
		var spreads []spreadOf
		note := func(name string, p plainThree, by *big.Rat, up bool) {
			if p[0] == p[2] {
				return
			}
			ends := [2]*big.Rat{new(big.Rat).Sub(p.mean(tenth), big.NewRat(p[0], 100)), new(big.Rat).Sub(big.NewRat(p[2], 100), p.mean(tenth))}
			if up {
				slices.Reverse(ends[:])
			}
			spreads = append(spreads, spreadOf{name, new(big.Rat).Mul(ends[0], by), new(big.Rat).Mul(ends[1], by)})
		}
		left, together, hours := resale.mean(tenth), 0.0, new(big.Rat)
		text += "stages:\n  buying: budget 1 2 999; purchase; hours 77\n"
		for i := range rng.IntN(4) {
			b := randomThree(rng, 20000)
			left, together = new(big.Rat).Sub(left, b.mean(tenth)), together+b.deviation(tenth)
			name := fmt.Sprintf("stage %c", 'a'+i)
			note(name, b, big.NewRat(1, 1), false)
			text += fmt.Sprintf("  %s: budget %s", name, b)
			if rng.IntN(3) > 0 {
				h := randomThree(rng, 2000)
				minutes := plainThree{}
				for j := range h {
					h[j] -= h[j] % 50 // halves of an hour
					minutes[j] = h[j]
				}
				hours.Add(hours, minutes.mean(tenth))
				text += fmt.Sprintf("; hours %s", h)
			}
			text += "\n"
		}
		note("resale", resale, big.NewRat(1, 1), true)
		weekly := new(big.Rat)
		hasWeeks, hasPace := rng.IntN(2) == 0, rng.IntN(2) == 0
		if (hasWeeks || hasPace) && rng.IntN(3) > 0 {
			day, month, year := rng.Int64N(200)+1, rng.Int64N(3000)+1, rng.Int64N(9000)+1
			text += fmt.Sprintf("holding:\n  yard: %s a day\n  cover: %s a month\n  tax: %s a year\n", pounds(day), pounds(month), pounds(year))
			weekly.Add(weekly, big.NewRat(day*7, 100))
			weekly.Add(weekly, big.NewRat(month*12, 5200))
			weekly.Add(weekly, big.NewRat(year, 5200))
		}
		pace := 30 + rng.Int64N(2000)
		if hasPace {
			text += fmt.Sprintf("pace: %dm a week\n", pace)
		}
		switch {
		case hasWeeks:
			w := randomThree(rng, 2000)
			w[2]++
			text += "weeks: " + w.String() + "\n"
			left = new(big.Rat).Sub(left, new(big.Rat).Mul(weekly, w.mean(tenth)))
			by, _ := weekly.Float64()
			together += by * w.deviation(tenth)
			note("weeks", w, weekly, false)
		case hasPace:
			weeks := new(big.Rat).Quo(new(big.Rat).Mul(hours, big.NewRat(60, 1)), big.NewRat(pace, 1))
			left = new(big.Rat).Sub(left, new(big.Rat).Mul(weekly, weeks))
		}
		hourly := rng.Int64N(1500)
		if hourly > 0 {
			text += "hourly: " + pounds(hourly) + "\n"
		}
		sigma := math.Hypot(together, resale.deviation(tenth))
		var best, paid, even int64
		profitAt := map[int64]*big.Rat{}
		tie := false
		for price := increment; price <= resale[2]; price += increment {
			total := price
			for _, f := range fees {
				total += f.at(price)
			}
			mean := new(big.Rat).Sub(left, big.NewRat(total, 100))
			profitAt[price] = mean
			margin := new(big.Rat).Sub(mean, big.NewRat(profit, 100))
			over, _ := margin.Float64()
			chance := math.Erfc(-over/sigma/math.Sqrt2) / 2
			if math.Abs(chance-float64(confidence)/100) < 1e-9 {
				tie = true
			}
			if chance >= float64(confidence)/100 {
				best = price
			}
			if mean.Sign() >= 0 {
				even = price
			}
			if mean.Cmp(new(big.Rat).Mul(big.NewRat(hourly, 100), hours)) >= 0 && hourly > 0 && hours.Sign() > 0 {
				paid = price
			}
		}
		if tie {
			continue // floating point cannot tell
		}
		b := trial.Compile(t, trial.Card(text))
		if b.LinesLeftOut > 0 {
			t.Fatalf("card %d: %q\n%s", seed, trial.FaultsOf(b), text)
		}
		a, ok := BestBid(b.Card)
		if !ok {
			t.Fatalf("card %d: no answer", seed)
		}
		price := func(b *fact.Bid) int64 {
			if b == nil {
				return 0
			}
			return b.Price.Shift(2).IntPart()
		}
		trial.WantEqual(t, fmt.Sprintf("card %d: the three bids\n%s", seed, text), fmt.Sprint(price(a.Highest), price(a.Hourly), price(a.BreakEven)), fmt.Sprint(best, paid, even))
		if a.Highest != nil {
			trial.WantEqual(t, fmt.Sprintf("card %d: mean profit", seed), a.Highest.ProfitMean.Rat().FloatString(9), profitAt[best].FloatString(9))
		}
		at := best
		if at == 0 {
			at = even
		}
		var want, got []string
		if at > 0 {
			slices.SortStableFunc(spreads, func(x, y spreadOf) int {
				return new(big.Rat).Add(y.best, y.here).Cmp(new(big.Rat).Add(x.best, x.here))
			})
			for _, s := range spreads {
				want = append(want, fmt.Sprintf("%s %s %s", s.name, new(big.Rat).Add(profitAt[at], s.best).FloatString(9), new(big.Rat).Sub(profitAt[at], s.here).FloatString(9)))
			}
		}
		for _, m := range a.Matters {
			got = append(got, fmt.Sprintf("%s %s %s", m.Name, m.AtBest.Rat().FloatString(9), m.AtWorst.Rat().FloatString(9)))
		}
		trial.WantList(t, fmt.Sprintf("card %d: what matters\n%s", seed, text), got, want)
		answers[fmt.Sprint(best > 0, paid > 0, even > 0)]++
		if best > 0 && even > best && paid > 0 && paid != best {
			answers["all differ"]++
		}
	}
	for _, kind := range []string{"true true true", "false false true", "true false true", "false false false", "all differ"} {
		if answers[kind] == 0 {
			t.Errorf("the cards are too tame: no %q in %v", kind, answers)
		}
	}
}

func TestBidWaysByHand(t *testing.T) {
	// 5,000 - 1,000 of work; 100 hours at 8.00 are 800; 18 weeks at 10.00 + 6.00 are 288.
	card := "resale: 5000\nprofit: 500\nbid increment: 1\nhourly: 8.00\nholding:\n  yard: 10.00 a week\n  cover: 26.00 a month\nweeks: 18\nstages:\n  buying: budget 9 9 99; hours 50; purchase\n  work: budget 1000; hours 100"
	a, _ := BestBid(trial.Compile(t, trial.Card(card)).Card)
	trial.WantEqual(t, "three", fmt.Sprint(a.Highest.Price, a.Hourly.Price, a.BreakEven.Price, *a.Holding, a.Hours, len(a.Matters)), "3212 2912 3712 288 100 0")
	for what, change := range map[string][2]string{
		"no hours":       {"hours 100", "hours 0"},
		"no pay by hour": {"hourly: 8.00\n", ""},
		"not so much":    {"hourly: 8.00", "hourly: 80"},
	} {
		a, _ := BestBid(trial.Compile(t, trial.Card(strings.Replace(card, change[0], change[1], 1))).Card)
		if a.Hourly != nil || a.Highest == nil {
			t.Errorf("%s: %+v", what, a)
		}
	}
	// Half of 30 hours a week: 100 hours take 200/60 weeks, without a spread.
	a, _ = BestBid(trial.Compile(t, trial.Card(strings.Replace(card, "weeks: 18", "pace: 30h a week", 1))).Card)
	trial.WantEqual(t, "by pace", a.Holding.StringFixed(2)+" "+a.Weeks.StringFixed(4), "53.33 3.3333")
}

// The extended Swanson-Megill approximation (Keefer and Bodily, Three-point
// approximations for continuous random variables, Management Science 29, 1983) where
// the true mean and variance are known: fractiles of 0.1, 0.5, 0.9 from 1.281552 of the
// normal distribution, and by hand of the uniform and the exponential one.
func TestOneInTenAgainstKnownDistributions(t *testing.T) {
	card := trial.Compile(t, trial.Card("worst: 1 in 10")).Card
	for _, c := range []struct {
		name           string
		t              fact.Three
		mean, variance float64 // of the distribution
		off, offVar    float64 // by how much of the variance is told wrongly
	}{
		{"normal", fact.Three{trial.Dec("87.18448"), trial.Dec("100"), trial.Dec("112.81552")}, 100, 100, 0, -.0146},
		{"uniform", fact.Three{trial.Dec("0.1"), trial.Dec("0.5"), trial.Dec("0.9")}, .5, 1. / 12, 0, .152},
		{"exponential", fact.Three{trial.Dec("0.1053605"), trial.Dec("0.6931472"), trial.Dec("2.3025851")}, 1, 1, -.0004, -.2132},
	} {
		r := read(card, c.t)
		mean, _ := r.mean.Float64()
		variance, _ := r.variance.Float64()
		if got := mean/c.mean - 1; math.Abs(got-c.off) > .00005 {
			t.Errorf("%s: the mean is %.5f off, want %.5f", c.name, got, c.off)
		}
		if got := variance/c.variance - 1; math.Abs(got-c.offVar) > .0005 {
			t.Errorf("%s: the variance is %.5f off, want %.5f", c.name, got, c.offVar)
		}
	}
}

// betaFractiles are the fractiles of a beta distribution on 0 to 1, with its exact mean
// and variance, by adding up its density.
func betaFractiles(p, q float64, at [3]float64) (t fact.Three, mean, variance float64) {
	const steps = 200_000
	lg := func(x float64) float64 { v, _ := math.Lgamma(x); return v }
	scale := lg(p+q) - lg(p) - lg(q)
	below, next := 0.0, 0
	for i := range steps {
		x := (float64(i) + .5) / steps
		below += math.Exp(scale+(p-1)*math.Log(x)+(q-1)*math.Log(1-x)) / steps
		for next < 3 && below >= at[next] {
			t[next] = trial.Dec(fmt.Sprintf("%.7f", x))
			next++
		}
	}
	return t, p / (p + q), p * q / ((p + q) * (p + q) * (p + q + 1))
}

// Their table of errors over beta distributions: of the mean, hardly any; of the
// variance, a few per cent on average and 11 % at most, as against 29 % and more where
// one takes 1-in-10 numbers for best and worst cases (from memory: 0.02 % and 2.7 % on
// average, 0.33 % and 11.1 % at most, over 78 distributions from J to bell shapes).
func TestOneInTenOverBetas(t *testing.T) {
	tenth, pert := trial.Compile(t, trial.Card("worst: 1 in 10")).Card, trial.Compile(t, trial.Card("")).Card
	var worstMean, worstVariance, sum, naive float64
	n := 0
	for _, p := range []float64{2, 3, 4, 6, 8, 12} {
		for _, q := range []float64{2, 3, 4, 6, 8, 12, 20} {
			three, mean, variance := betaFractiles(p, q, [3]float64{.1, .5, .9})
			r := read(tenth, three)
			m, _ := r.mean.Float64()
			v, _ := r.variance.Float64()
			worstMean, worstVariance = max(worstMean, math.Abs(m/mean-1)), max(worstVariance, math.Abs(v/variance-1))
			sum, n = sum+math.Abs(v/variance-1), n+1
			v, _ = read(pert, three).variance.Float64()
			naive = max(naive, math.Abs(v/variance-1))
		}
	}
	if worstMean > .0033 || worstVariance > .111 || sum/float64(n) > .04 || naive < .29 {
		t.Errorf("over %d betas the mean is off by %.4f at most, the variance by %.4f, %.4f on average, the other reading's by %.4f", n, worstMean, worstVariance, sum/float64(n), naive)
	}
}

// Sell or process further, after Garrison, Managerial Accounting, the wool of the
// chapter on differential costs (from memory): what was spent before counts for nothing.
func TestProcessFurther(t *testing.T) {
	for _, c := range []struct{ finished, further, now, gain string }{
		{"160000", "50000", "120000", "-10000"}, {"240000", "60000", "150000", "30000"}, {"90000", "10000", "60000", "20000"},
	} {
		b := trial.Compile(t, trial.Card("resale: "+c.finished+"\noffers:\n  as it stands: "+c.now+"\nstages:\n  work: budget "+c.further+"\n  joint: budget 200000")+
			trial.Session("2026-05-01.md", "stage: joint\ncost: 200000 what is spent is spent", ""))
		choices := At(b, 0, trial.Today).Choices()
		o := choices.Offers[0]
		trial.WantEqual(t, c.finished, o.Gain.String()+" "+fmt.Sprint(o.Better()), c.gain+" "+fmt.Sprint(c.gain[0] == '-'))
	}
}

// Choices worked out from what the generator of ready dates made up.
func TestChoicesAgainstPlain(t *testing.T) {
	for seed := range 300 {
		rng := rand.New(rand.NewPCG(uint64(seed), 18))
		m := randomMade(rng)
		hourly := rng.Int64N(1500) + 1
		offers, offerHours := randomThree(rng, 200000), randomThree(rng, 6000)
		offers[2]++
		for i := range offerHours {
			offerHours[i] -= offerHours[i] % 50
		}
		resale := randomThree(rng, 300000)
		resale[2]++
		budget := randomThree(rng, 90000)
		text := strings.Replace(m.text, "resale: 5000", fmt.Sprintf("resale: %s\nhourly: %s\noffers:\n  gone: 5; until 2026-05-19\n  as it stands: %s; hours %s; until %s", resale, pounds(hourly), offers, offerHours, madeToday), 1)
		text = strings.Replace(text, "stages:\n", "stages:\n  more: budget "+budget.String()+"\n", 1)
		b := trial.Compile(t, text)
		if b.LinesLeftOut > 0 {
			t.Fatalf("build %d: %q\n%s", seed, trial.FaultsOf(b), text)
		}
		c := At(b, trial.Day(madeToday), trial.Today).Choices()
		mean := func(stage [3]int) *big.Rat {
			return plainThree{int64(stage[0]), int64(stage[1]), int64(stage[2])}.mean(m.tenth)
		}
		_, exact := m.days(func(stage [3]int) *big.Rat { return new(big.Rat).Mul(mean(stage), big.NewRat(100, 1)) })
		hours := new(big.Rat)
		for i, stage := range m.stages {
			takes := 0
			for _, task := range m.tasks {
				if task.stage == i {
					takes += task.minutes
				}
			}
			for j := range stage {
				stage[j] = max(stage[j], takes)
			}
			hours.Add(hours, new(big.Rat).Mul(mean(stage), big.NewRat(100, 60)))
		}
		brings := new(big.Rat).Sub(resale.mean(m.tenth), budget.mean(m.tenth))
		brings.Sub(brings, new(big.Rat).Mul(exact, big.NewRat(int64(m.weekly), 700)))
		for stage := range m.stages { // a fresh estimate asks for 100 more
			if strings.Contains(m.text, fmt.Sprintf("  stage %d: 100;", stage)) {
				brings.Sub(brings, big.NewRat(100, 1))
			}
		}
		more := new(big.Rat).Sub(hours, offerHours.mean(m.tenth))
		gain := new(big.Rat).Sub(brings, offers.mean(m.tenth))
		perHour := "none"
		if more.Sign() > 0 {
			perHour = new(big.Rat).Quo(gain, more).FloatString(9)
		}
		turns := new(big.Rat).Sub(brings, new(big.Rat).Mul(more, big.NewRat(hourly, 100)))
		want := []string{brings.FloatString(9), hours.FloatString(9), gain.FloatString(9), perHour, turns.FloatString(9)}
		if len(c.Offers) != 1 {
			t.Fatalf("build %d: %d offers stand", seed, len(c.Offers))
		}
		o := c.Offers[0]
		got := []string{c.Finish.Money.Rat().FloatString(9), c.Finish.Hours.Rat().FloatString(9), o.Gain.Rat().FloatString(9), "none", o.TurnsAt.Rat().FloatString(9)}
		if o.GainPerHour != nil {
			got[3] = o.GainPerHour.Rat().FloatString(9)
		}
		trial.WantList(t, fmt.Sprintf("build %d\n%s", seed, text), got, want)
	}
}
