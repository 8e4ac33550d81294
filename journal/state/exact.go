package state

import (
	"math/big"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"

	"github.com/shopspring/decimal"
)

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
