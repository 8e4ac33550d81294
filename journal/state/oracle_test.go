package state

import (
	"fmt"
	"maps"
	"math/big"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/trial"
)

// The oracle: random builds whose figures are added up at the same time in whole
// minor units, with plain integers and the one rounding rule written out here. It
// shares no code with the program: neither its decimals, nor its reader, nor its sums.

// half rounds n/d half away from zero to a whole number; both are positive.
func half(n, d *big.Int) *big.Int {
	two := big.NewInt(2)
	sum := new(big.Int).Add(new(big.Int).Mul(n, two), d)
	return sum.Div(sum, new(big.Int).Mul(d, two))
}

func ten(n int) *big.Int { return new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil) }

// figure is a decimal number: value / 10^places.
type figure struct{ value, places int64 }

func (f figure) String() string {
	s := fmt.Sprintf("%0*d", f.places+1, f.value)
	if f.places == 0 {
		return s
	}
	return s[:len(s)-int(f.places)] + "." + s[len(s)-int(f.places):]
}

func (f figure) big() *big.Int { return big.NewInt(f.value) }

// oracleLine is one line of money as the generator made it up.
type oracleLine struct {
	credit             bool
	quantity           *figure
	price              figure
	digits             int // of the currency it is written in
	vat, rate          *figure
	shareNum, shareDen int64
	tools              bool
	date               string
	stage, category    string
	part, supplier     string
}

// sums works the line out in the four steps: the build's part and the garage's.
func (l *oracleLine) sums(home int) (build, garage *big.Int) {
	n, places := l.price.big(), l.price.places
	if l.quantity != nil {
		n, places = new(big.Int).Mul(n, l.quantity.big()), places+l.quantity.places
	}
	sum := half(new(big.Int).Mul(n, ten(l.digits)), ten(int(places))) // in minor units
	if l.vat != nil {
		tax := half(new(big.Int).Mul(sum, l.vat.big()), new(big.Int).Mul(big.NewInt(100), ten(int(l.vat.places))))
		sum = new(big.Int).Add(sum, tax)
	}
	if l.rate != nil {
		sum = half(new(big.Int).Mul(new(big.Int).Mul(sum, l.rate.big()), ten(home)), new(big.Int).Mul(ten(l.digits), ten(int(l.rate.places))))
	}
	switch {
	case l.shareDen != 0:
		build = half(new(big.Int).Mul(sum, big.NewInt(l.shareNum)), big.NewInt(l.shareDen))
	case l.tools:
		build = new(big.Int)
	default:
		build = sum
	}
	return build, new(big.Int).Sub(sum, build)
}

type oracleWork struct {
	date, stage string
	minutes     int
}

// An oracle is a build as the generator knows it.
type oracle struct {
	rng    *rand.Rand
	home   string
	digits map[string]int
	stages []string
	parts  []string
	staged map[string]string // the stage a part's lines name
	since  string            // when the parts are declared
	money  []*oracleLine
	work   []oracleWork
	left   int
	files  string
}

// tally is what an oracle or the program has added up, as text.
type tally map[string]string

// tally adds up everything dated on or before date, "" for everything.
func (o *oracle) tally(date string) tally {
	sums, minutes := map[string]*big.Int{}, map[string]int{}
	add := func(key string, n *big.Int) {
		if sums[key] == nil {
			sums[key] = new(big.Int)
		}
		sums[key].Add(sums[key], n)
	}
	for _, key := range []string{"spent", "credits", "net", "garage"} {
		add(key, new(big.Int))
	}
	for _, l := range o.money {
		if date != "" && l.date > date {
			continue
		}
		build, garage := l.sums(o.digits[o.home])
		stage := l.stage
		if stage == "" {
			stage = "unstaged"
		}
		if l.credit {
			add("credits", build)
			add("net", new(big.Int).Neg(build))
			add("stage "+stage+" credits", build)
			if l.category == "refund" && l.part != "" {
				add("paid "+l.part, new(big.Int).Neg(build))
			}
			continue
		}
		add("spent", build)
		add("net", build)
		add("garage", garage)
		add("stage "+stage+" spent", build)
		add("category "+l.category, build)
		if l.supplier != "" {
			add("supplier "+l.supplier, build)
		}
		if l.part != "" {
			add("paid "+l.part, build)
		}
	}
	for _, w := range o.work {
		if date == "" || w.date <= date {
			minutes["minutes"] += w.minutes
			stage := w.stage
			if stage == "" {
				stage = "unstaged"
			}
			minutes["stage "+stage+" minutes"] += w.minutes
		}
	}
	out := tally{}
	for key, n := range sums {
		if strings.HasPrefix(key, "paid ") && date != "" && date < o.since {
			continue // the part is not known yet
		}
		if n.Sign() != 0 || !strings.Contains(key, " ") {
			out[key] = minorUnits(n, o.digits[o.home])
		}
	}
	for key, n := range minutes {
		if n != 0 {
			out[key] = fmt.Sprint(n)
		}
	}
	return out
}

// minorUnits writes minor units as an amount.
func minorUnits(n *big.Int, digits int) string {
	s := new(big.Int).Abs(n).String()
	for len(s) <= digits {
		s = "0" + s
	}
	if digits > 0 {
		s = s[:len(s)-digits] + "." + s[len(s)-digits:]
	}
	if n.Sign() < 0 {
		s = "-" + s
	}
	return s
}

// tallyOf takes the same figures from the program.
func tallyOf(st *State) tally {
	c, b := st.Costs(), st.Build
	out := tally{"spent": b.FormatMoney(c.Spent), "credits": b.FormatMoney(c.Credits), "net": b.FormatMoney(c.Net), "garage": b.FormatMoney(c.ToGarage)}
	set := func(key, value string, zero bool) {
		if !zero {
			out[key] = value
		}
	}
	set("minutes", fmt.Sprint(int(c.Minutes)), c.Minutes == 0)
	for _, s := range c.Stages {
		set("stage "+s.Name+" spent", b.FormatMoney(s.Spent), s.Spent.IsZero())
		set("stage "+s.Name+" credits", b.FormatMoney(s.Credits), s.Credits.IsZero())
		set("stage "+s.Name+" minutes", fmt.Sprint(int(s.Minutes)), s.Minutes == 0)
		if !s.Net.Equal(s.Spent.Sub(s.Credits)) {
			out["stage "+s.Name+" net"] = b.FormatMoney(s.Net)
		}
	}
	for _, n := range c.Categories {
		out["category "+n.Name] = b.FormatMoney(n.Sum)
	}
	for _, n := range c.Suppliers {
		out["supplier "+n.Name] = b.FormatMoney(n.Sum)
	}
	for _, p := range st.Parts {
		set("paid "+p.ID, b.FormatMoney(*p.Paid), p.Paid.IsZero())
	}
	return out
}

func compareTallies(t *testing.T, what string, got, want tally, o *oracle) {
	t.Helper()
	if maps.Equal(got, want) {
		return
	}
	for _, key := range slices.Sorted(maps.Keys(want)) {
		if got[key] != want[key] {
			t.Errorf("%s: %s is %q, want %q", what, key, got[key], want[key])
		}
	}
	for _, key := range slices.Sorted(maps.Keys(got)) {
		if _, ok := want[key]; !ok {
			t.Errorf("%s: %s is %q, want nothing", what, key, got[key])
		}
	}
	if o != nil {
		t.Fatalf("%s", o.files)
	}
}

func TestOracle(t *testing.T) {
	t.Parallel()
	builds := 1000
	if testing.Short() {
		builds = 100
	}
	for seed := range builds {
		o := newOracle(uint64(seed))
		b := trial.Compile(t, o.files)
		for _, date := range append([]string{""}, o.someDates()...) {
			asOf := measure.Date(0)
			if date != "" {
				asOf = trial.Day(date)
			}
			compareTallies(t, fmt.Sprintf("build %d as of %q", seed, date), tallyOf(At(b, asOf, trial.Today)), o.tally(date), o)
		}
		if b.LinesLeftOut != o.left {
			t.Fatalf("build %d: %d lines left out, want %d\n%s\n%q", seed, b.LinesLeftOut, o.left, o.files, trial.FaultsOf(b))
		}
	}
}

// The oracle itself is held to figures worked out by hand.
func TestOracleByHand(t *testing.T) {
	l := oracleLine{quantity: &figure{15, 1}, price: figure{3333, 2}, digits: 2, vat: &figure{20, 0}, rate: &figure{8612, 4}, shareNum: 1, shareDen: 8}
	build, garage := l.sums(2)
	if build.String() != "646" || garage.String() != "4521" {
		t.Errorf("1.5 x 33.33 EUR; plus vat 20%%; rate 0.8612; share 1/8 = %s + %s", build, garage)
	}
	for _, c := range []struct{ n, d, want int64 }{{5, 10, 1}, {4, 10, 0}, {15, 10, 2}, {25, 10, 3}, {1, 3, 0}, {2, 3, 1}} {
		if got := half(big.NewInt(c.n), big.NewInt(c.d)); got.Int64() != c.want {
			t.Errorf("%d/%d rounds to %s", c.n, c.d, got)
		}
	}
	if (figure{5, 3}).String() != "0.005" || minorUnits(big.NewInt(-5), 2) != "-0.05" || minorUnits(big.NewInt(12), 0) != "12" {
		t.Error("figures are not written well")
	}
	if len(note.Categories) != 9 {
		t.Error("the generator knows nine categories")
	}
}
