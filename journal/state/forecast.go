package state

import (
	"math"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"

	"github.com/shopspring/decimal"
)

var (
	four = decimal.NewFromInt(4)
	six  = decimal.NewFromInt(6)
)

// meanPlaces is how far a mean is worked out; sixths do not end.
const meanPlaces = 16

func sixfoldMean(t fact.Three) decimal.Decimal { return t[0].Add(t[1].Mul(four)).Add(t[2]) }

func sixfoldDeviation(t fact.Three) decimal.Decimal { return t[2].Sub(t[0]) }

func sixth(d decimal.Decimal) decimal.Decimal { return d.DivRound(six, meanPlaces) }

// root is the square root, cut off after twice meanPlaces. A root that ends is
// exact: binary fractions would round its half pennies by chance.
func root(d decimal.Decimal) decimal.Decimal {
	whole := d.Shift(4 * meanPlaces).BigInt()
	return decimal.NewFromBigInt(whole.Sqrt(whole), -2*meanPlaces)
}

// stageLines are what a state knows by the name of its stage.
type stageLines struct {
	left  map[string][]*journal.Remaining
	money map[string][]*journal.Money
	work  map[string][]*journal.Work
	parts map[string][]*Part
}

func (st *State) byStage() stageLines {
	return stageLines{
		by(st.Build.Left, func(r *journal.Remaining) string { return r.Stage }), by(st.Money, func(m *journal.Money) string { return m.Stage }),
		by(st.Work, func(w *journal.Work) string { return w.Stage }), by(st.Parts, func(p *Part) string { return p.Stage }),
	}
}

// by parts a list by a name.
func by[T any](list []T, name func(T) string) map[string][]T {
	parts := map[string][]T{}
	for _, x := range list {
		parts[name(x)] = append(parts[name(x)], x)
	}
	return parts
}

// forecastStage works out what a stage still needs and how far it is over budget.
func (st *State) forecastStage(s *fact.Stage, in stageLines) {
	if b := s.Budget; b != nil {
		s.Overrun = atLeastZero(s.Net.Sub(b[2]))
	}
	if r := st.newest(in.left[s.Name]); r != nil {
		s.HoursLeft = hoursLeft(r, in.work[s.Name])
		if r.Closed {
			return
		}
		since := netSince(in.money[s.Name], r.Session.Date)
		for i := range s.Remaining {
			s.Remaining[i] = atLeastZero(r.Cost[i].Sub(since))
		}
		return
	}
	var parts fact.Three
	for _, p := range in.parts[s.Name] {
		if p.Waited() && !p.PaidInRound && p.Estimate != nil {
			for i := range parts {
				parts[i] = parts[i].Add(p.Estimate[i])
			}
		}
	}
	for i := range s.Remaining {
		if b := s.Budget; b != nil {
			s.Remaining[i] = atLeastZero(b[i].Sub(s.Net))
		}
		s.Remaining[i] = decimal.Max(s.Remaining[i], parts[i])
	}
}

func atLeastZero(d decimal.Decimal) decimal.Decimal { return decimal.Max(d, decimal.Zero) }

// newest is the newest of the estimates for a stage, of one day the later session's.
func (st *State) newest(list []*journal.Remaining) *journal.Remaining {
	var newest *journal.Remaining
	for _, r := range list {
		if st.Counts(r.Session.Date) && (newest == nil || r.Session.Date >= newest.Session.Date) {
			newest = r
		}
	}
	return newest
}

// hoursLeft is what an estimate says in hours, used up by the person time that was
// noted for the stage after its day, as its money is by costs. Nil where it says none.
func hoursLeft(r *journal.Remaining, work []*journal.Work) *[3]measure.Minutes {
	if r.Hours == nil {
		return nil
	}
	left := *r.Hours
	for _, w := range work {
		if w.Session.Date > r.Session.Date {
			for i := range left {
				left[i] = max(left[i]-w.Minutes, 0)
			}
		}
	}
	return &left
}

// netSince is what the money of a stage comes to net after a day.
func netSince(money []*journal.Money, day measure.Date) decimal.Decimal {
	sum := decimal.Zero
	for _, m := range money {
		switch {
		case m.Date <= day:
		case m.Credit:
			sum = sum.Sub(m.Sum.Build)
		default:
			sum = sum.Add(m.Sum.Build)
		}
	}
	return sum
}

func (st *State) forecast(c *fact.Costs) *fact.Forecast {
	f := &fact.Forecast{Cost: fact.Three{c.Net, c.Net, c.Net}}
	means, variance, together := decimal.Zero, decimal.Zero, decimal.Zero
	for _, s := range c.Stages {
		for i := range f.Cost {
			f.Cost[i] = f.Cost[i].Add(s.Remaining[i])
			if s.HoursLeft != nil {
				f.HoursLeft[i] += s.HoursLeft[i]
			}
		}
		means = means.Add(sixfoldMean(s.Remaining))
		d := sixfoldDeviation(s.Remaining)
		variance = variance.Add(d.Mul(d))
		together = together.Add(d)
	}
	f.Mean = c.Net.Add(sixth(means))
	f.SD, f.SDTogether = sixth(root(variance)), sixth(together)
	card := st.Build.Card
	if card.Resale == nil {
		return f
	}
	f.Resale, f.Goal = card.Resale, card.Profit
	resale := sixfoldMean(*card.Resale)
	f.ResaleMean, f.ResaleSD = sixth(resale), sixth(sixfoldDeviation(*card.Resale))
	// One division for the whole keeps equality exact where the sixths would not end.
	sixfold := resale.Sub(means).Sub(c.Net.Mul(six))
	f.ProfitMean = sixth(sixfold)
	margin := sixfold.Sub(card.Profit.Mul(six))
	f.Chance = Chance(margin, spread(f.SD, f.ResaleSD))
	f.ChanceShared = Chance(margin, spread(f.SDTogether, f.ResaleSD))
	return f
}

// spread is the standard deviation of two things that vary independently.
func spread(a, b decimal.Decimal) float64 { return math.Hypot(a.InexactFloat64(), b.InexactFloat64()) }

// Chance is the probability that a normal variable whose mean is sixfold/6 and
// whose standard deviation is sd is at least zero. Without spread it is exactly 0 or
// 1; at equality 1.
func Chance(sixfold decimal.Decimal, sd float64) float64 {
	if sd == 0 {
		if sixfold.IsNegative() {
			return 0
		}
		return 1
	}
	return Phi(sixfold.InexactFloat64() / 6 / sd)
}

// Phi is the cumulative standard normal distribution.
func Phi(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
