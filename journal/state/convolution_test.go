package state

import (
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/trial"
)

// A density is a distribution over whole steps: the mass of each is that of half a
// step on both sides of it.
type density struct {
	from int // the first step
	p    []float64
}

// betaOf is the PERT-beta distribution of an estimate: between best and worst, with
// the shapes 1 + 4(m-a)/(b-a) and 1 + 4(b-m)/(b-a), whose mean is (a + 4m + b)/6.
func betaOf(t fact.Three, step float64) density {
	a, m, b := t[0].InexactFloat64()/step, t[1].InexactFloat64()/step, t[2].InexactFloat64()/step
	if a == b {
		return density{int(math.Round(a)), []float64{1}}
	}
	alpha, beta := 1+4*(m-a)/(b-a), 1+4*(b-m)/(b-a)
	d := density{from: int(math.Round(a))}
	sum := 0.0
	const fine = 20 // points of the midpoint rule in each step
	for x := d.from; float64(x)-.5 < b; x++ {
		mass := 0.0
		for i := range fine {
			u := (float64(x) - .5 + (float64(i)+.5)/fine - a) / (b - a)
			if u > 0 && u < 1 {
				mass += math.Pow(u, alpha-1) * math.Pow(1-u, beta-1)
			}
		}
		d.p, sum = append(d.p, mass), sum+mass
	}
	for i := range d.p {
		d.p[i] /= sum
	}
	return d
}

func (d density) plus(e density) density {
	out := density{d.from + e.from, make([]float64, len(d.p)+len(e.p)-1)}
	for i, p := range d.p {
		for j, q := range e.p {
			out.p[i+j] += p * q
		}
	}
	return out
}

// together adds distributions that are at the same quantile all at once.
func together(list []density) density {
	var out density
	for _, d := range list {
		out.from += d.from
	}
	at, left := make([]int, len(list)), make([]float64, len(list))
	for i, d := range list {
		left[i] = d.p[0]
		out.p = append(out.p, make([]float64, len(d.p))...)
	}
	for {
		take, sum := math.Inf(1), 0
		for i := range list {
			take, sum = min(take, left[i]), sum+at[i]
		}
		out.p[sum] += take
		for i, d := range list {
			for left[i] -= take; left[i] <= 0; left[i] += d.p[at[i]] {
				if at[i]++; at[i] == len(d.p) {
					return out
				}
			}
		}
	}
}

// minus is the distribution of the one less the other.
func (d density) minus(e density) density {
	mirrored := density{from: -(e.from + len(e.p) - 1), p: slices.Clone(e.p)}
	slices.Reverse(mirrored.p)
	return d.plus(mirrored)
}

// farthest is the largest difference between a distribution and the normal one.
func (d density) farthest(step, mean, sd float64) float64 {
	far, below := 0.0, 0.0
	for i, p := range d.p {
		below += p
		far = max(far, math.Abs(below-Phi(((float64(d.from+i)+.5)*step-mean)/sd)))
	}
	return far
}

// How far the chances are from those of the distributions that three-point estimates
// stand for: the PERT-beta distributions of the example's stages and resale as its
// card had them before anything was spent, added up numerically: what is spent moves the
// normal distribution, and the betas know nothing of it. The largest differences over
// every profit that one may ask for stand in the manual, in forecast.md.
func TestNormalAgainstBeta(t *testing.T) {
	b, err := journal.ReadBuild(os.DirFS("../../example-build"), ".")
	if err != nil {
		t.Fatal(err)
	}
	c := At(b, trial.Day("2026-03-24"), trial.Today).Costs()
	f := c.Forecast
	if !c.Spent.IsZero() {
		t.Fatalf("%s is spent already, so the two sides differ by that", c.Spent)
	}
	const step = 1
	cost := density{p: []float64{1}}
	var stages []density
	for _, s := range c.Stages {
		d := betaOf(s.Remaining, step)
		stages, cost = append(stages, d), cost.plus(d)
	}
	resale, shared := betaOf(*f.Resale, step), together(stages)
	// What holding costs has no spread; it moves both alike.
	holding := f.Holding.InexactFloat64()
	mean, asked := f.ProfitMean.InexactFloat64()+holding, b.Card.Profit.InexactFloat64()+holding
	manual, err := os.ReadFile("../../cmd/guidecoat/manual/forecast.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []struct {
		what       string
		profit     density
		sd, chance float64
		most, here float64
	}{
		{"stages independent", resale.minus(cost), spread(f.SD, f.ResaleSD), f.Chance, .0414, .0296},
		{"stages together", resale.minus(shared), spread(f.SDTogether, f.ResaleSD), f.ChanceShared, .0411, .0338},
	} {
		if got := x.profit.farthest(step, mean, x.sd); math.Abs(got-x.most) > .0005 {
			t.Errorf("%s: the largest difference is %.4f, want %.4f", x.what, got, x.most)
		}
		for _, told := range []string{fmt.Sprintf("%.3f", math.Ceil(x.most*1000)/1000), fmt.Sprintf("%.3f", x.here)} {
			if !strings.Contains(string(manual), told) {
				t.Errorf("%s: the manual does not say %s", x.what, told)
			}
		}
		chance := 0.0
		for i, p := range x.profit.p {
			if at := float64(x.profit.from+i) * step; at > asked {
				chance += p
			} else if at == asked {
				chance += p / 2
			}
		}
		if got := x.chance - chance; math.Abs(got-x.here) > .0005 {
			t.Errorf("%s: the chance of %v is %.4f and %.4f by the betas, which is %.4f more", x.what, asked-holding, x.chance, chance, got)
		}
	}
}
