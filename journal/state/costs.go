package state

import (
	"maps"
	"math"
	"math/big"
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"

	"github.com/shopspring/decimal"
)

func (st *State) Costs() *fact.Costs {
	all := sumUp(st.Money)
	c := &fact.Costs{Spent: all.Spent, Credits: all.Credits, Net: all.Net, Categories: all.Categories, SurchargeDue: st.SurchargeDue}
	suppliers := map[string]decimal.Decimal{}
	for _, m := range st.Money {
		if !m.Credit {
			c.ToGarage = c.ToGarage.Add(m.Garage)
			suppliers[m.Supplier()] = suppliers[m.Supplier()].Add(m.Sum.Build)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(suppliers)) {
		if sum := suppliers[name]; name != "" && !sum.IsZero() {
			c.Suppliers = append(c.Suppliers, fact.NamedSum{Name: name, Sum: sum})
		}
	}
	in := linesByStage(st)
	stage := func(name string) fact.Stage {
		s := sumUp(in.money[name])
		for _, w := range in.work[name] {
			s.Minutes += w.Minutes
		}
		c.Minutes += s.Minutes
		return s
	}
	for _, on := range st.Build.Stages {
		s := stage(on.Name)
		s.Name, s.Purchase, s.Budget = on.Name, on.Purchase, on.Budget
		forecastStage(st, &s, in)
		c.Stages = append(c.Stages, s)
	}
	if s := stage(""); !s.Spent.IsZero() || !s.Credits.IsZero() || s.Minutes != 0 {
		s.Name = fact.Unstaged
		c.Stages = append(c.Stages, s)
	}
	c.Account = accountOf(st.Account)
	if st.Sale != nil {
		c.Sold = st.sold(c)
	} else {
		c.Forecast = st.forecast(c)
	}
	return c
}

// stageLines are what stages have, by their names; "" is of none that there is. There may be many stages.
type stageLines struct {
	money map[string][]*journal.Money
	work  map[string][]*journal.Work
	left  map[string][]*journal.Remaining
	parts map[string][]*Part
	snags map[string][]*Snag
}

func linesByStage(st *State) stageLines {
	known := func(stage string) string { return pick.Either(st.Build.StageNamed(stage) == nil, "", stage) }
	return stageLines{
		pick.By(st.Money, func(m *journal.Money) string { return known(m.Stage) }), pick.By(st.Work, func(w *journal.Work) string { return known(w.Stage) }),
		pick.By(st.Build.Left, func(r *journal.Remaining) string { return r.Stage }),
		pick.By(st.Parts, func(p *Part) string { return p.Stage }), pick.By(st.Snags, func(s *Snag) string { return s.Stage }),
	}
}

// sumUp adds up lines of money, of which a stage has these figures. Sums of categories that are zero are left out.
func sumUp(lines []*journal.Money) (s fact.Stage) {
	categories := map[string]decimal.Decimal{}
	for _, m := range lines {
		if m.Credit {
			s.Credits = s.Credits.Add(m.Sum.Build)
		} else {
			s.Spent = s.Spent.Add(m.Sum.Build)
			categories[m.Category] = categories[m.Category].Add(m.Sum.Build)
		}
	}
	s.Net = s.Spent.Sub(s.Credits)
	for _, name := range note.Categories {
		if sum := categories[name]; !sum.IsZero() {
			s.Categories = append(s.Categories, fact.NamedSum{Name: name, Sum: sum})
		}
	}
	return s
}

func (st *State) sold(c *fact.Costs) *fact.Sold {
	r := &fact.Sold{Price: st.Sale.Price, Date: st.Sale.Date, Profit: st.Account.Profit(c.Net)}
	r.PerHour = perHour(r.Profit, c.Minutes, st.Build.Card.Currency.Digits)
	if c.Net.IsPositive() {
		r.Return = new(r.Profit.DivRound(c.Net, 8))
	}
	return r
}

// perHour is a sum by the hour, in minor units; nil where no time is noted.
func perHour(sum decimal.Decimal, time measure.Minutes, digits int32) *decimal.Decimal {
	if time <= 0 {
		return nil
	}
	return new(sum.Mul(decimal.NewFromInt(60)).DivRound(decimal.NewFromInt(int64(time)), digits))
}

func accountOf(a *journal.Account) *fact.Account {
	if a == nil {
		return nil
	}
	price := func(s *journal.Sale) *decimal.Decimal {
		if s == nil {
			return nil
		}
		return &s.Price
	}
	return &fact.Account{Asked: price(a.Asked), Floor: price(a.Floor), Agreed: price(a.Agreed), Deposit: &a.Deposit, PartExchange: &a.PartExchange,
		Paid: &a.Paid, Owed: a.Owed(), Claims: &a.Claims, Kept: &a.Kept,
		Told: slices.ContainsFunc(a.Lines, func(s *journal.Sale) bool { return s.Line.Kind.Key == "sale" })}
}

// forecastStage works out what a stage still needs and how far it is over budget.
func forecastStage(st *State, s *fact.Stage, in stageLines) {
	if b := s.Budget; b != nil {
		s.Overrun = atLeastZero(s.Net.Sub(b[2]))
	}
	hoursToCome(st, s, in)
	if r := st.newest(in.left[s.Name], func(*journal.Remaining) bool { return true }); r != nil {
		if r.Closed {
			return
		}
		since := sumUp(pick.Where(in.money[s.Name], func(m *journal.Money) bool { return m.Date > r.Session.Date })).Net
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

// newest is the newest estimate for a stage that tells what is asked, of one day the later session's.
func (st *State) newest(list []*journal.Remaining, tells func(*journal.Remaining) bool) *journal.Remaining {
	var newest *journal.Remaining
	for _, r := range list {
		if st.Counts(r.Session.Date) && tells(r) && (newest == nil || r.Session.Date >= newest.Session.Date) {
			newest = r
		}
	}
	return newest
}

type outlook struct {
	work
	money   *big.Rat // to be paid, holding included
	holding *big.Rat // nil where nothing is paid
	hours   *big.Rat
}

func outlookOf(st *State, c *fact.Costs) outlook {
	o := outlook{work: workToCome(st, c), money: new(big.Rat)}
	for _, s := range c.Stages {
		o.money = plus(o.money, read(st.Build.Card, s.Remaining).mean)
	}
	if weekly := st.Build.Card.Holding; weekly != nil {
		o.holding = times(weekly, weeksToCome(st, o.work))
		o.money = plus(o.money, o.holding)
	}
	o.hours = over(o.mean, sixty)
	return o
}

func (st *State) forecast(c *fact.Costs) *fact.Forecast {
	card, o := st.Build.Card, outlookOf(st, c)
	c.Ready = whenReady(st, o.work)
	f := &fact.Forecast{Cost: fact.Three{c.Net, c.Net, c.Net}, HoursLeft: o.minutes}
	if o.holding != nil {
		f.Holding = new(rounded(o.holding))
		for i := range f.Cost {
			f.Cost[i] = f.Cost[i].Add(*f.Holding)
		}
	}
	variance, together, known := new(big.Rat), new(big.Rat), false
	for _, s := range c.Stages {
		for i := range f.Cost {
			f.Cost[i] = f.Cost[i].Add(s.Remaining[i])
		}
		needs := read(card, s.Remaining)
		variance, together, known = plus(variance, needs.variance), plus(together, needs.deviation()), known || s.HoursKnown
	}
	f.Mean = rounded(plus(c.Net.Rat(), o.money))
	f.SD, f.SDTogether = rounded(root(variance)), rounded(together)
	if card.Resale == nil {
		return f
	}
	f.Resale, f.Goal = card.Resale, card.Profit
	resale := read(card, *card.Resale)
	f.ResaleMean, f.ResaleSD = rounded(resale.mean), rounded(resale.deviation())
	profit := minus(minus(resale.mean, o.money), c.Net.Rat())
	f.ProfitMean = rounded(profit)
	margin := minus(profit, card.Profit.Rat())
	f.Chance = Chance(margin, spread(f.SD, f.ResaleSD))
	f.ChanceShared = Chance(margin, spread(f.SDTogether, f.ResaleSD))
	if all := plus(o.hours, big.NewRat(int64(c.Minutes), 60)); known && all.Sign() > 0 {
		f.PerHour = new(rounded(over(profit, all)))
	}
	return f
}

// spread is the standard deviation of two things that vary independently.
func spread(a, b decimal.Decimal) float64 { return math.Hypot(a.InexactFloat64(), b.InexactFloat64()) }

// Chance is the probability that a normal variable of that mean and deviation is at least zero; 1 at equality.
func Chance(mean *big.Rat, sd float64) float64 {
	if sd == 0 {
		if mean.Sign() < 0 {
			return 0
		}
		return 1
	}
	m, _ := mean.Float64()
	return Phi(m / sd)
}

// Phi is the cumulative standard normal distribution.
func Phi(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// Fractions lose nothing: a third of a week's storage has no last decimal.

// meanPlaces is how far a figure without a last decimal is kept, for one rounding where it is printed.
const meanPlaces = 16

func rounded(r *big.Rat) decimal.Decimal { return decimal.NewFromBigRat(r, meanPlaces) }

func plus(a, b *big.Rat) *big.Rat  { return new(big.Rat).Add(a, b) }
func minus(a, b *big.Rat) *big.Rat { return new(big.Rat).Sub(a, b) }
func times(a, b *big.Rat) *big.Rat { return new(big.Rat).Mul(a, b) }
func over(a, b *big.Rat) *big.Rat  { return new(big.Rat).Quo(a, b) }

// root is the square root, exact where it ends: binary fractions would round its half pennies by chance.
func root(r *big.Rat) *big.Rat {
	const digits = 2 * meanPlaces
	ten := new(big.Int).Exp(big.NewInt(10), big.NewInt(digits), nil)
	whole := new(big.Int).Mul(r.Num(), r.Denom())
	whole.Mul(whole, ten).Mul(whole, ten)
	return new(big.Rat).SetFrac(whole.Sqrt(whole), ten.Mul(ten, r.Denom()))
}

// A threesome is the mean and the variance that best, likely and worst stand for.
type threesome struct{ mean, variance *big.Rat }

func (s threesome) deviation() *big.Rat { return root(s.variance) }

// read tells what three numbers stand for: where best and worst are met hardly ever,
// mean (best + 4 likely + worst)/6 and deviation (worst - best)/6; where each is met 1
// time in 10, the weights 0.3, 0.4, 0.3 for both mean and variance (the extended
// Swanson-Megill approximation; Keefer and Bodily 1983).
func read(c *journal.Card, t fact.Three) threesome {
	weights, of := [3]int64{1, 4, 1}, int64(6)
	if c.OneInTen {
		weights, of = [3]int64{3, 4, 3}, 10
	}
	mean, variance := new(big.Rat), new(big.Rat)
	for i, w := range weights {
		mean = plus(mean, times(t[i].Rat(), big.NewRat(w, of)))
	}
	if !c.OneInTen {
		d := over(t[2].Sub(t[0]).Rat(), big.NewRat(6, 1))
		return threesome{mean, times(d, d)}
	}
	for i, w := range weights {
		d := minus(t[i].Rat(), mean)
		variance = plus(variance, times(times(d, d), big.NewRat(w, of)))
	}
	return threesome{mean, variance}
}

func meanMinutes(c *journal.Card, m [3]measure.Minutes) *big.Rat {
	var t fact.Three
	for i := range m {
		t[i] = decimal.NewFromInt(int64(m[i]))
	}
	return read(c, t).mean
}
