package state

import (
	"fmt"
	"math/big"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"guidecoat/journal/trial"
)

// A random garage of one build with a donor, a sale and quotes, and what they come to, added
// up in whole pennies by plain integers. It shares no code with the program.

type tradePart struct {
	id, arrived string // the day; "" where it never came
	donor       bool
	worth       int64
}

type tradeStep struct {
	what, date string
	sum        int64
}

type tradeQuote struct {
	part                                string
	price, rate, freight                int64 // rate in ten-thousandths, 0 at home
	duty, tax                           int64 // in tenths of a percent
	clearance                           int64
	wait                                int64
	value, dutySum, taxSum, clearingSum int64
}

type tradeBuild struct {
	rng          *rand.Rand
	price, holds int64
	back         []tradeStep // credits for the donor
	parts        []tradePart
	costs        []tradeStep
	steps        []tradeStep
	quotes       []tradeQuote
	weekly       int64
	lines        map[string][]string // by day and key
}

func pence(n int64) string { return figure{n, 2}.String() }

func (b *tradeBuild) day() string {
	return time.Date(2026, 3, 1+b.rng.IntN(80), 0, 0, 0, 0, time.UTC).Format(time.DateOnly)
}

func (b *tradeBuild) add(day, key, line string) {
	b.lines[day+" "+key] = append(b.lines[day+" "+key], line)
}

func newTradeBuild(seed uint64) *tradeBuild {
	b := &tradeBuild{rng: rand.New(rand.NewPCG(seed, 17)), lines: map[string][]string{}}
	n := b.rng.Int64N
	b.price, b.weekly = 1+n(90000), n(3000)
	if n(2) == 0 {
		b.holds = 1 + n(30000)
	}
	for i := range 1 + n(5) {
		p := tradePart{id: fmt.Sprintf("part-%c", 'a'+i), donor: n(3) > 0, worth: 1 + n(20000)}
		first := b.day()
		clause := ""
		if p.donor {
			clause = "; donor lark-17; worth " + pence(p.worth)
		}
		if b.rng.IntN(4) == 0 {
			p.arrived = first
			b.add(first, "parts", p.id+": arrived a part"+clause)
		} else {
			b.add(first, "parts", p.id+": needed a part"+clause)
			if p.arrived = b.day(); p.arrived > first {
				b.add(p.arrived, "parts", p.id+": fitted")
			} else {
				p.arrived = ""
			}
		}
		b.parts = append(b.parts, p)
	}
	for range n(3) {
		s := tradeStep{date: b.day(), sum: 1 + n(30000)}
		b.back = append(b.back, s)
		b.add(s.date, "credit", pence(s.sum)+" a piece of it; for lark-17")
	}
	for range n(4) {
		s := tradeStep{date: b.day(), sum: 1 + n(50000)}
		b.costs = append(b.costs, s)
		b.add(s.date, "cost", pence(s.sum)+" something")
	}
	b.sell()
	for range n(4) {
		b.quote()
	}
	return b
}

// sell makes up some sales: each but the last falls through or comes back.
func (b *tradeBuild) sell() {
	day := time.Date(2026, 6, 1, 0, 0, 0, 0, time.UTC)
	step := func(what string, sum int64) {
		s := tradeStep{what, day.Format(time.DateOnly), sum}
		b.steps = append(b.steps, s)
		line := what
		if what != "returned" {
			line += " " + pence(sum)
		}
		b.add(s.date, "sale", line)
		day = day.AddDate(0, 0, b.rng.IntN(3))
	}
	n := b.rng.Int64N
	for range n(4) {
		agreed := 10000 + n(900000)
		deposit := 1 + n(agreed/4)
		step("asked", agreed+n(5000))
		step("floor", agreed)
		step("deposit", deposit)
		if n(3) == 0 {
			step("kept", 1+n(deposit))
			continue
		}
		step("agreed", agreed)
		if n(2) == 0 {
			step("part exchange", 1+n(agreed/4))
		}
		if n(2) == 0 {
			step("paid", 1+n(agreed/4))
		}
		if n(2) == 0 {
			step("claim", 1+n(20000))
		}
		if n(2) == 0 {
			return
		}
		step("returned", 0)
		day = day.AddDate(0, 0, 1)
	}
}

// quote makes up one for a part that is still needed, worked out as it is written.
func (b *tradeBuild) quote() {
	n := b.rng.Int64N
	p := b.parts[n(int64(len(b.parts)))]
	q := tradeQuote{part: p.id, price: 1 + n(80000), freight: n(9000), duty: n(200), tax: n(300), clearance: n(5000), wait: n(60)}
	line, value, code := pence(q.price), q.price, ""
	mul := func(sum, rate, by int64) int64 {
		return half(new(big.Int).Mul(big.NewInt(sum), big.NewInt(rate)), big.NewInt(by)).Int64()
	}
	if n(2) == 0 {
		q.rate, code = 1+n(20000), " EUR"
		value = mul(q.price, q.rate, 10000)
	}
	line += code + fmt.Sprintf("; from supplier %d; wait %d days", len(b.quotes), q.wait)
	if code != "" {
		line += "; rate " + figure{q.rate, 4}.String()
	}
	if q.freight > 0 {
		freight := q.freight
		if code != "" {
			freight = mul(freight, q.rate, 10000)
		}
		value += freight
		line += "; freight " + pence(q.freight) + code
	}
	q.value = value
	if q.duty > 0 {
		q.dutySum = mul(value, q.duty, 1000)
		line += "; duty " + figure{q.duty, 1}.String() + "%"
	}
	if q.tax > 0 {
		q.taxSum = mul(value+q.dutySum, q.tax, 1000)
		line += "; import vat " + figure{q.tax, 1}.String() + "%"
	}
	if q.clearance > 0 {
		q.clearingSum = q.clearance + mul(q.clearance, 200, 1000)
		line += "; clearance " + pence(q.clearance) + " plus vat"
	}
	if code != "" && value == 0 || mul(q.price, max(q.rate, 1), map[bool]int64{true: 10000, false: 1}[code != ""]) == 0 {
		return // works out to zero, which is a mistake
	}
	b.quotes = append(b.quotes, q)
	b.add("2026-05-25", "quotes", q.part+": "+line)
}

func (b *tradeBuild) archive() string {
	card := fmt.Sprintf("vat: 20%%\npace: 5h a week\nholding:\n  yard: %s a week\nstages:\n  all: the lot\ndonors:\n  lark-17: %s", pence(b.weekly+1), pence(b.price))
	if b.holds > 0 {
		card += "; worth " + pence(b.holds)
	}
	days := map[string]string{}
	for _, key := range slices.Sorted(func(yield func(string) bool) {
		for k := range b.lines {
			if !yield(k) {
				return
			}
		}
	}) {
		day, name, _ := strings.Cut(key, " ")
		days[day] += name + ":\n  - " + strings.Join(b.lines[key], "\n  - ") + "\n"
	}
	out := trial.Card(card)
	for day, front := range days {
		out += trial.Session(day+".md", "stage: all\n"+front, "")
	}
	return out
}

// shares spreads the donor as of a day: whole pennies first, then one each to the largest
// remainders.
func (b *tradeBuild) shares(day string) map[string]int64 {
	whole := b.price
	for _, s := range b.back {
		if s.date <= day {
			whole -= s.sum
		}
	}
	whole = max(whole, 0)
	var who []string
	var weight []int64
	for _, p := range b.mentioned() {
		if p.donor && p.arrived != "" && p.arrived <= day {
			who, weight = append(who, p.id), append(weight, p.worth)
		}
	}
	who, weight = append(who, ""), append(weight, b.holds)
	var total int64
	for _, w := range weight {
		total += w
	}
	out := map[string]int64{}
	if total == 0 { // nothing has been taken, and nothing is told of what it holds
		out[""] = whole
		return out
	}
	left := whole
	for i, w := range weight {
		out[who[i]] = whole * w / total
		left -= whole * w / total
	}
	order := make([]int, len(who))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(x, y int) int { return int(whole*weight[y]%total - whole*weight[x]%total) })
	for _, i := range order[:left] {
		out[who[i]]++
	}
	return out
}

// mentioned are the parts in the order of their first lines.
func (b *tradeBuild) mentioned() []tradePart {
	first := map[string]string{}
	for key, lines := range b.lines {
		day, name, _ := strings.Cut(key, " ")
		for i, l := range lines {
			id, _, _ := strings.Cut(l, ":")
			if at := fmt.Sprintf("%s %03d", day, i); name == "parts" && (first[id] == "" || at < first[id]) {
				first[id] = at
			}
		}
	}
	list := slices.Clone(b.parts)
	slices.SortStableFunc(list, func(x, y tradePart) int { return strings.Compare(first[x.id], first[y.id]) })
	return list
}

// told says what the build comes to on a day.
func (b *tradeBuild) told(day string) string {
	var out strings.Builder
	var spent int64
	shares := b.shares(day)
	for _, p := range b.mentioned() {
		if b.known(p.id, day) {
			fmt.Fprintf(&out, "%s %s; ", p.id, pence(shares[p.id]))
		}
		spent += shares[p.id]
	}
	for _, s := range b.costs {
		if s.date <= day {
			spent += s.sum
		}
	}
	fmt.Fprintf(&out, "spent %s; left %s", pence(spent), pence(shares[""]))
	var agreed, received, kept, claims int64
	for _, s := range b.steps {
		if s.date > day {
			continue
		}
		switch s.what {
		case "deposit", "paid", "part exchange":
			received += s.sum
		case "agreed":
			agreed = s.sum
		case "claim":
			claims += s.sum
		case "kept":
			kept += s.sum
			agreed, received = 0, 0
		case "returned":
			agreed, received = 0, 0
		}
	}
	if agreed > 0 {
		owed := agreed - received
		profit := agreed - spent - claims + kept
		fmt.Fprintf(&out, "; owed %s; profit %s", minorUnits(big.NewInt(owed), 2), minorUnits(big.NewInt(profit), 2))
	}
	return out.String()
}

func (b *tradeBuild) known(id, day string) bool {
	for key, lines := range b.lines {
		on, name, _ := strings.Cut(key, " ")
		if name == "parts" && on <= day && slices.ContainsFunc(lines, func(l string) bool { return strings.HasPrefix(l, id+":") }) {
			return true
		}
	}
	return false
}

func TestTradeOracle(t *testing.T) {
	t.Parallel()
	builds := 1000
	if testing.Short() {
		builds = 100
	}
	seen := map[string]int{}
	for seed := range builds {
		made := newTradeBuild(uint64(seed))
		b := trial.Compile(t, made.archive())
		if b.LinesLeftOut > 0 {
			t.Fatalf("build %d: %v\n%s", seed, trial.FaultsOf(b), made.archive())
		}
		for _, day := range []string{"2026-03-10", made.day(), made.day(), "2026-06-03", "2026-06-06", "2026-12-31"} {
			st := At(b, trial.Day(day), 0)
			c := st.Costs()
			var got strings.Builder
			for _, p := range st.Parts {
				fmt.Fprintf(&got, "%s %s; ", p.ID, b.FormatMoney(*p.Paid))
			}
			left := st.Donors()[0].Left
			fmt.Fprintf(&got, "spent %s; left %s", b.FormatMoney(c.Spent), b.FormatMoney(*left))
			if c.Sold != nil {
				fmt.Fprintf(&got, "; owed %s; profit %s", b.FormatMoney(*c.Account.Owed), b.FormatMoney(c.Sold.Profit))
				seen["sold"]++
			}
			if want := made.told(day); got.String() != want {
				t.Fatalf("build %d on %s:\n got %s\nwant %s\n%s", seed, day, got.String(), want, made.archive())
			}
		}
		st := At(b, trial.Day("2026-05-30"), 0)
		for _, q := range st.Quotes() {
			i := slices.IndexFunc(made.quotes, func(m tradeQuote) bool {
				return m.part == q.Part && q.From == fmt.Sprintf("supplier %d", slices.Index(made.quotes, m))
			})
			m := made.quotes[i]
			want := fmt.Sprint(pence(m.value), pence(m.dutySum), pence(m.taxSum), pence(m.clearingSum), pence(m.value+m.dutySum+m.taxSum+m.clearingSum),
				minorUnits(half(big.NewInt((made.weekly+1)*m.wait), big.NewInt(7)), 2))
			f := b.FormatMoney
			if got := fmt.Sprint(f(q.Price.Add(q.Freight)), f(q.Duty), f(q.Tax), f(q.Clearance), f(q.Landed), f(*q.Holding)); got != want {
				t.Fatalf("build %d, a quote: got %s, want %s\n%s", seed, got, want, made.archive())
			}
			seen["quotes"]++
		}
		seen["shares"] += len(made.shares("2026-12-31"))
	}
	if seen["sold"] < builds/4 || seen["quotes"] < builds/8 || seen["shares"] < builds {
		t.Errorf("too little was tried: %v", seen)
	}
}
