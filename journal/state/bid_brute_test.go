package state

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"guidecoat/journal/trial"
)

// A naiveFee is a line of fees as the generator made it up: sums and limits in
// hundredths, percentages in tenths.
type naiveFee struct {
	limits, sums []int64 // sums has one more; of a band without limit it is the last
	percents     []int64 // of the band's price instead, where it is not zero
	vat          int64   // in tenths of a percent; 0: none
}

func roundedDiv(n, d int64) int64 { return (2*n + d) / (2 * d) } // half up; both positive

func (f naiveFee) at(price int64) int64 {
	band := 0
	for band < len(f.limits) && price > f.limits[band] {
		band++
	}
	fee := f.sums[band]
	if f.percents[band] != 0 {
		fee = roundedDiv(price*f.percents[band], 1000)
	}
	return fee + roundedDiv(fee*f.vat, 1000)
}

func (f naiveFee) String() string {
	text := ""
	for i := range f.sums {
		one := fmt.Sprintf("%d.%02d", f.sums[i]/100, f.sums[i]%100)
		if f.percents[i] != 0 {
			one = fmt.Sprintf("%d.%d%%", f.percents[i]/10, f.percents[i]%10)
		}
		switch {
		case i < len(f.limits):
			text += fmt.Sprintf("%s to %d.%02d, ", one, f.limits[i]/100, f.limits[i]%100)
		case i == 0:
			text += one
		default:
			text += one + " above"
		}
	}
	switch {
	case f.vat == 200:
		text += "; plus vat"
	case f.vat > 0:
		text += fmt.Sprintf("; plus vat %d.%d%%", f.vat/10, f.vat%10)
	}
	return text
}

func randomFee(rng *rand.Rand, high int64) naiveFee {
	var f naiveFee
	limit := int64(0)
	for range rng.IntN(4) {
		limit += 1 + rng.Int64N(high/2)
		f.limits = append(f.limits, limit)
	}
	for range len(f.limits) + 1 {
		f.sums = append(f.sums, rng.Int64N(high/4)) // falling as often as rising
		p := int64(0)
		if rng.IntN(3) == 0 {
			p = 1 + rng.Int64N(300)
		}
		f.percents = append(f.percents, p)
	}
	f.vat = []int64{0, 0, 200, 55}[rng.IntN(4)]
	return f
}

// The bid over ten thousand random tables of fees, against every multiple of the
// increment up to the resale's high value, worked out in whole numbers.
func TestBidAgainstEveryIncrement(t *testing.T) {
	t.Parallel()
	tables := 10_000
	if testing.Short() {
		tables = 500
	}
	none, beyondEdge := 0, 0
	for seed := range tables {
		rng := rand.New(rand.NewPCG(uint64(seed), 11))
		increment := []int64{100, 500, 2500, 50}[rng.IntN(4)] // 1, 5, 25, 0.5
		low := 5000 + rng.Int64N(15000)
		resale := [3]int64{low, low + rng.Int64N(5000), low + 5000 + rng.Int64N(8000)}
		if rng.IntN(4) == 0 {
			resale = [3]int64{low, low, low}
		}
		profit, confidence := rng.Int64N(8000), []int64{1, 50, 90, 99, 1 + rng.Int64N(98)}[rng.IntN(5)]
		text := fmt.Sprintf("resale: %s %s %s\nprofit: %s\nconfidence: %d%%\nbid increment: %s\n", pounds(resale[0]), pounds(resale[1]), pounds(resale[2]), pounds(profit), confidence, pounds(increment))
		var fees []naiveFee
		for range rng.IntN(4) {
			fees = append(fees, randomFee(rng, resale[2]))
		}
		if len(fees) > 0 {
			text += "fees:\n"
		}
		for i, f := range fees {
			text += fmt.Sprintf("  fee %d: %s\n", i, f)
		}
		sixfold, spread := resale[0]+4*resale[1]+resale[2]-6*profit, int64(0)
		text += "stages:\n  buying: budget 1000000; purchase\n"
		for i := range rng.IntN(3) {
			b := [3]int64{rng.Int64N(900), 900 + rng.Int64N(900), 1800 + rng.Int64N(3000)}
			if rng.IntN(3) == 0 {
				b[0], b[2] = b[1], b[1]
			}
			sixfold, spread = sixfold-b[0]-4*b[1]-b[2], spread+b[2]-b[0]
			text += fmt.Sprintf("  stage %c: budget %s %s %s\n", 'a'+i, pounds(b[0]), pounds(b[1]), pounds(b[2]))
		}
		sd := math.Hypot(float64(spread), float64(resale[2]-resale[0])) // six times
		best, tie, fell := int64(0), false, false
		for price := increment; price <= resale[2]; price += increment {
			total := price
			for _, f := range fees {
				total += f.at(price)
			}
			margin := sixfold - 6*total
			enough := margin >= 0
			if sd > 0 {
				chance := math.Erfc(-float64(margin)/sd/math.Sqrt2) / 2
				enough, tie = chance >= float64(confidence)/100, tie || math.Abs(chance-float64(confidence)/100) < 1e-12 && margin != 0
			}
			if enough {
				beyondEdge += map[bool]int{true: 1}[fell]
				best, fell = price, false
			} else {
				fell = best > 0
			}
		}
		if tie {
			continue // floating point cannot tell
		}
		if best == 0 {
			none++
		}
		b := trial.Compile(t, trial.Card("vat: 20%\n"+text))
		if b.LinesLeftOut > 0 {
			t.Fatalf("card %d: %q\n%s", seed, trial.FaultsOf(b), text)
		}
		answer, ok := BestBid(b.Card)
		got := int64(0)
		if answer.Highest != nil {
			got = answer.Highest.Price.Shift(2).IntPart()
			want := int64(0)
			for _, f := range fees {
				want += f.at(got)
			}
			trial.WantEqual(t, fmt.Sprintf("card %d: fees at %d", seed, got), answer.Highest.Fees.Shift(2).IntPart(), want)
		}
		if !ok || got != best {
			t.Fatalf("card %d: the highest bid is %d, want %d\n%s", seed, got, best, text)
		}
	}
	if none == 0 || beyondEdge == 0 {
		t.Errorf("the tables are too tame: %d without a bid, %d times dearer was cheaper", none, beyondEdge)
	}
}

func pounds(hundredths int64) string { return fmt.Sprintf("%d.%02d", hundredths/100, hundredths%100) }

// The extremes of what a card can say.
func TestBidExtremes(t *testing.T) {
	for _, c := range []struct{ what, card, highest string }{
		{"a hundred million million multiples", "resale: 999999999999\nbid increment: 0.01\nfees:\n  fee: 10% to 1, 0.01 to 999999999998.5, 12.5% above", "999999999998.5"},
		{"the same without fees", "resale: 999999999999\nbid increment: 0.01", "999999999999"},
		{"an increment over the resale", "resale: 100\nbid increment: 101", ""},
		{"no fees, no stages", "resale: 1000\nprofit: 100", "900"},
		{"certain, and exactly enough", "resale: 1000\nprofit: 100\nstages:\n  x: budget 400", "500"},
		{"certain, and a penny short", "resale: 1000\nprofit: 100.01\nstages:\n  x: budget 400", "499"},
		{"half sure is the mean itself", "resale: 800 1000 1200\nconfidence: 50%", "1000"},
		{"nearly nothing asked", "resale: 800 1000 1200\nconfidence: 0.0001%", "1200"}, // 1000 + 4.75 × 66.7 is over the high value, which bounds it
		{"nearly certain", "resale: 800 1000 1200\nconfidence: 99.9999%", "683"},       // 1000 - 4.7534 × 66.667 = 683.1
		{"none possible", "resale: 100 200 300\nprofit: 5000", ""},
		{"all fee", "resale: 100\nfees:\n  fee: 100", ""},
		{"a fee of everything", "resale: 100\nfees:\n  fee: 100%", "50"},
	} {
		start := time.Now()
		b := trial.Compile(t, trial.Card(c.card))
		if b.LinesLeftOut > 0 {
			t.Errorf("%s: %q", c.what, trial.FaultsOf(b))
		}
		answer, ok := BestBid(b.Card)
		got := ""
		if answer.Highest != nil {
			got = answer.Highest.Price.String()
		}
		if !ok {
			t.Errorf("%s: no answer", c.what)
		}
		trial.WantEqual(t, c.what, got, c.highest)
		for _, bid := range answer.Table {
			if math.IsNaN(bid.Chance) || bid.Chance < 0 || bid.Chance > 1 {
				t.Errorf("%s: a chance of %v", c.what, bid.Chance)
			}
		}
		if spent := time.Since(start); spent > time.Second {
			t.Errorf("%s: took %v", c.what, spent)
		}
	}
}
