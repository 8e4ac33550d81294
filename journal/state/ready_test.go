package state

import (
	"fmt"
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"

	"guidecoat/journal/measure"
	"guidecoat/journal/trial"
)

// A madeBuild is a build as its generator knows it, apart from what the program reads.
type madeBuild struct {
	text   string
	pace   int                  // minutes a week
	away   map[int]bool         // days off, from today
	stages [][3]int             // hours to come in minutes, without snags
	tasks  []madeTask           // the open snags
	parts  map[string]madeDates // that are still to come
	tenth  bool                 // worst: 1 in 10
	weekly int                  // what holding costs, in pence
}

type madeTask struct {
	id      string
	stage   int // -1: none
	minutes int
	waits   []string
}

type madeDates struct{ comes int } // in how many days, 0 where it is late or nobody knows

const madeToday = "2026-05-20"

func randomMade(rng *rand.Rand) madeBuild {
	m := madeBuild{away: map[int]bool{}, parts: map[string]madeDates{}, tenth: rng.IntN(3) == 0}
	today := trial.Day(madeToday)
	m.pace = []int{30, 60, 390, 420, 1000, 2400}[rng.IntN(6)]
	card := fmt.Sprintf("resale: 5000\npace: %dm a week\n", m.pace)
	if m.pace == 420 {
		card = "resale: 5000\npace: 1h a day\n"
	}
	if m.tenth {
		card += "worst: 1 in 10\n"
	}
	m.weekly = rng.IntN(3) * 700
	if m.weekly > 0 {
		card += fmt.Sprintf("holding:\n  yard: %s a week\n", pounds(int64(m.weekly)))
	}
	if n := rng.IntN(4); n > 0 {
		card += "away:\n"
		for range n {
			from := rng.IntN(60) - 10
			to := from + rng.IntN(12)
			for d := from; d <= to; d++ {
				m.away[d] = true
			}
			card += fmt.Sprintf("  - %s..%s\n", today.AddDays(from), today.AddDays(to))
		}
	}
	card += "stages:\n"
	var work, left string
	for s := range 1 + rng.IntN(4) {
		hours := [3]int{rng.IntN(10) * 60, 0, 0}
		hours[1] = hours[0] + rng.IntN(300)
		hours[2] = hours[1] + rng.IntN(900)
		clause := fmt.Sprintf("hours %dm %dm %dm", hours[0], hours[1], hours[2])
		done := rng.IntN(3) * 100
		card += fmt.Sprintf("  stage %d: words", s)
		switch rng.IntN(4) {
		case 0: // nothing is said
			hours, done = [3]int{}, 0
		case 1: // the card alone, less all that was worked
			card += "; " + clause
		case 2: // a fresh estimate holds from its day on
			card += "; hours 99"
			left += fmt.Sprintf("  stage %d: 100; %s\n", s, clause)
			done = 0 // the work is of the same day
		case 3: // the stage is closed
			card += "; hours 99"
			left += fmt.Sprintf("  stage %d: nothing\n", s)
			hours, done = [3]int{}, 0
		}
		if done > 0 {
			work += fmt.Sprintf("  - %dm; stage stage %d\n", done, s)
		}
		for i := range hours {
			hours[i] = max(hours[i]-done, 0)
		}
		m.stages = append(m.stages, hours)
		card += "\n"
	}
	front := "stage: stage 0\n"
	if work != "" {
		front += "time:\n" + work
	}
	if left != "" {
		front += "remaining:\n" + left
	}
	parts, body := "", ""
	for p := range rng.IntN(5) {
		id := fmt.Sprintf("part-%d", p)
		state := []string{"needed", "ordered", "arrived"}[rng.IntN(3)]
		parts += fmt.Sprintf("  %s: %s a thing", id, state)
		due := 0
		if rng.IntN(3) > 0 {
			due = rng.IntN(50) - 10
			parts += "; due " + today.AddDays(due).String()
		}
		parts += "\n"
		if state == "arrived" {
			due = 0
		}
		m.parts[id] = madeDates{max(due, 0)}
	}
	if parts != "" {
		front += "parts:\n" + parts
	}
	var ids []string
	for id := range m.parts {
		ids = append(ids, id)
	}
	for i := range rng.IntN(7) {
		task := madeTask{id: fmt.Sprintf("job-%d", i), stage: rng.IntN(len(m.stages)), minutes: 60}
		line := fmt.Sprintf("- [ ] %s: do it; stage stage %d", task.id, task.stage)
		if rng.IntN(3) > 0 {
			task.minutes = 10 + rng.IntN(500)
			line += fmt.Sprintf("; takes %dm", task.minutes)
		}
		for range rng.IntN(3) {
			if len(ids) > 0 {
				id := ids[rng.IntN(len(ids))]
				task.waits = append(task.waits, id)
				line += "; waits for " + id
			}
		}
		ids = append(ids, task.id)
		switch rng.IntN(8) {
		case 0: // told to the buyer, so no work
			line += "; minor; disclose"
			task.minutes = 0
		case 1:
			line = strings.Replace(line, "[ ]", "[x]", 1)
			line = strings.Replace(line, task.id, "job "+task.id, 1)
			task = madeTask{id: task.id, stage: -1}
		}
		m.tasks = append(m.tasks, task)
		body += line + "\n"
	}
	// The work is of an earlier day, the estimates of the later.
	m.text = trial.Card(card) + trial.Session("2026-05-01.md", front, body)
	return m
}

// begin is the day on which a task can begin, by looking at all that it waits for.
func (m madeBuild) begin(id string) int {
	day := 0
	for _, task := range m.tasks {
		if task.id != id || task.stage < 0 {
			continue
		}
		for _, w := range task.waits {
			if p, ok := m.parts[w]; ok {
				day = max(day, p.comes)
			} else {
				day = max(day, m.begin(w))
			}
		}
	}
	return day
}

// days goes through the calendar day by day: each day that is not away is worth a seventh
// of the pace, and is spent on whatever has come by the day before, the latest comers
// first kept for last. It tells the day on which nothing is left, and how much of that
// day was needed.
func (m madeBuild) days(stageMinutes func(stage [3]int) *big.Rat) (day int, exact *big.Rat) {
	free := new(big.Rat) // what can be done at once
	comes := map[int]*big.Rat{}
	last := 0
	for _, p := range m.parts {
		last = max(last, p.comes)
	}
	for i, hours := range m.stages {
		takes := 0
		for _, task := range m.tasks {
			if task.stage == i {
				takes += task.minutes
			}
		}
		for j := range hours {
			hours[j] = max(hours[j], takes)
		}
		free.Add(free, new(big.Rat).Sub(stageMinutes(hours), big.NewRat(int64(takes), 1)))
	}
	for _, task := range m.tasks {
		if task.stage < 0 {
			continue
		}
		d := m.begin(task.id)
		if comes[d] == nil {
			comes[d] = new(big.Rat)
		}
		comes[d].Add(comes[d], big.NewRat(int64(task.minutes), 1))
	}
	left := new(big.Rat).Set(free)
	for _, c := range comes {
		left.Add(left, c)
	}
	exact = new(big.Rat)
	if comes[0] != nil {
		free.Add(free, comes[0])
	}
	for day = 0; left.Sign() > 0 || day < last; {
		day++
		worth := big.NewRat(int64(m.pace), 7)
		if m.away[day] {
			worth = new(big.Rat)
		}
		if free.Cmp(worth) < 0 {
			worth = new(big.Rat).Set(free)
		}
		free.Sub(free, worth)
		left.Sub(left, worth)
		if worth.Sign() > 0 { // the end of this day's work
			exact = new(big.Rat).Add(big.NewRat(int64(day-1), 1), new(big.Rat).Quo(worth, big.NewRat(int64(m.pace), 7)))
		}
		if comes[day] != nil {
			free.Add(free, comes[day])
		}
	}
	if whole := big.NewRat(int64(last), 1); exact.Cmp(whole) < 0 {
		exact = whole
	}
	return day, exact
}

// The dates, and what holding costs until then, of a thousand random builds against a
// walk through the days.
func TestReadyAgainstPlainDays(t *testing.T) {
	t.Parallel()
	waited, passed := 0, 0
	for seed := range 1000 {
		m := randomMade(rand.New(rand.NewPCG(uint64(seed), 16)))
		b := trial.Compile(t, m.text)
		if faults := trial.FaultsOf(b); b.LinesLeftOut > 0 {
			t.Fatalf("build %d: %q\n%s", seed, faults, m.text)
		}
		c := At(b, trial.Day(madeToday), trial.Today).Costs()
		got := c.Ready
		if got == nil {
			t.Fatalf("build %d: not ready\n%s", seed, m.text)
		}
		for i, date := range []measure.Date{got.Early, got.Likely, got.Late} {
			want, _ := m.days(func(stage [3]int) *big.Rat { return big.NewRat(int64(stage[i]), 1) })
			if date != trial.Day(madeToday).AddDays(want) {
				t.Fatalf("build %d: date %d is %s, want %d days on\n%s", seed, i, date, want, m.text)
			}
			if want == 0 {
				passed++
			}
		}
		_, exact := m.days(func(stage [3]int) *big.Rat {
			mean := big.NewRat(int64(stage[0]+4*stage[1]+stage[2]), 6)
			if m.tenth {
				mean = big.NewRat(int64(3*stage[0]+4*stage[1]+3*stage[2]), 10)
			}
			return mean
		})
		want := new(big.Rat).Mul(exact, big.NewRat(int64(m.weekly), 700)).FloatString(10)
		holding := "0.0000000000"
		if c.Forecast.Holding != nil {
			holding = c.Forecast.Holding.Rat().FloatString(10)
		}
		trial.WantEqual(t, fmt.Sprintf("build %d: holding\n%s", seed, m.text), holding, want)
		for _, task := range m.tasks {
			if m.begin(task.id) > 0 {
				waited++
			}
		}
	}
	if waited < 400 || passed > 1500 {
		t.Errorf("the builds are too tame: %d snags wait, %d dates are today", waited, passed)
	}
}

// The heads and lengths of the example of seven jobs in Carlier, The one-machine
// sequencing problem, European Journal of Operational Research 11 (1982), from memory.
// Without the tails one machine is done after 37: idle from 6 to 10, then never.
func TestReadyByDeliveries(t *testing.T) {
	heads, lengths := []int{10, 13, 11, 20, 30, 0, 30}, []int{5, 6, 7, 4, 3, 6, 2}
	parts, body := "parts:\n", ""
	for i := range heads {
		parts += fmt.Sprintf("  part-%d: ordered a thing; due %s\n", i, trial.Day(madeToday).AddDays(heads[i]))
		body += fmt.Sprintf("- [ ] job-%d: do it; waits for part-%d; takes %dh\n", i, i, lengths[i])
	}
	b := trial.Compile(t, trial.Card("pace: 1h a day\nstages:\n  body: all")+trial.Session("2026-05-01.md", "stage: body\n"+parts, body))
	r := At(b, trial.Day(madeToday), trial.Today).Costs().Ready
	trial.WantEqual(t, "ready", r.Likely, trial.Day(madeToday).AddDays(37))
}

func TestReadyByHand(t *testing.T) {
	for _, c := range []struct{ what, card, front, body, want string }{
		{"a week and a day", "pace: 7h a week\nstages:\n  body: hours 8", "", "", "2026-05-28 2026-05-28 2026-05-28"},
		{"a minute more is a day more", "pace: 7h a week\nstages:\n  body: hours 8h01", "", "", "2026-05-29 2026-05-29 2026-05-29"},
		{"nothing to do", "pace: 7h a week\nstages:\n  body: all", "", "", "2026-05-20 2026-05-20 2026-05-20"},
		{"away passes", "pace: 1h a day\naway:\n  - 2026-05-22..2026-05-23\n  - 2026-05-23..2026-05-24\nstages:\n  body: hours 1 2 3", "", "", "2026-05-21 2026-05-25 2026-05-26"},
		{"away from today on", "pace: 1h a day\naway: 2026-05-01..2026-05-21\nstages:\n  body: hours 1", "", "", "2026-05-22 2026-05-22 2026-05-22"},
		{"a delivery that nothing waits for", "pace: 1h a day\nstages:\n  body: hours 1", "parts:\n  hose: ordered hose; due 2026-06-01", "", "2026-06-01 2026-06-01 2026-06-01"},
		{"a delivery in the past", "pace: 1h a day\nstages:\n  body: hours 1", "parts:\n  hose: ordered hose; due 2026-05-01", "- [ ] fit-hose: fit; waits for hose; takes 1h", "2026-05-21 2026-05-21 2026-05-21"},
		{"through another snag", "pace: 1h a day\nstages:\n  body: hours 1", "parts:\n  hose: ordered hose; due 2026-06-01",
			"- [ ] fit-hose: fit; waits for hose; takes 2h\n- [ ] bleed-it: bleed; waits for fit-hose; takes 30m", "2026-06-04 2026-06-04 2026-06-04"},
		{"beyond all dates", "pace: 1m a year\nstages:\n  body: hours 1 1 999", "", "", "2086-03-06 2086-03-06 "},
		{"never", "pace: 1m a year\nstages:\n  body: hours 999999999", "", "", "  "},
	} {
		b := trial.Compile(t, trial.Card(c.card)+trial.Session("2026-05-02.md", "stage: body\n"+c.front, c.body))
		trial.WantFaults(t, c.what, b)
		r := At(b, trial.Day(madeToday), trial.Today).Costs().Ready
		trial.WantEqual(t, c.what, fmt.Sprintf("%s %s %s", r.Early, r.Likely, r.Late), c.want)
	}
	for what, archive := range map[string]string{
		"without a pace": trial.Card("stages:\n  body: hours 8"),
		"once sold":      trial.Card("pace: 7h a week\nstages:\n  body: hours 8") + trial.Session("2026-05-02.md", "stage: body\nsold: 500", ""),
	} {
		if r := At(trial.Compile(t, archive), 0, trial.Today).Costs().Ready; r != nil {
			t.Errorf("%s it is ready: %v", what, r)
		}
	}
}

// Who says nothing of when it comes is named, and what says no time is counted.
func TestReadyNames(t *testing.T) {
	b := trial.Compile(t, trial.Card("pace: 7h a week\npapers:\n  insurance: laid up; until 2026-05-25\nstages:\n  body: all")+trial.Session("2026-05-02.md", `
stage: body
parts:
  hose: needed hose
  clip: ordered clip; due 2026-06-01
  seal: arrived seal
  ring: cancelled ring
`, "- [ ] fit-ring: fit; waits for ring\n- [ ] fit-hose: fit; waits for hose; takes 1h\n- [ ] tell-it: scratch; minor; disclose\n"))
	r := At(b, trial.Day(madeToday), trial.Today).Costs().Ready
	trial.WantEqual(t, "undated", strings.Join(r.Undated, " "), "hose ring")
	trial.WantEqual(t, "guessed, but not for a paper that runs out", r.Guessed, 1)
	trial.WantEqual(t, "hours", fmt.Sprint(At(b, trial.Day(madeToday), trial.Today).Costs().Forecast.HoursLeft), "[2h 2h 2h]")
}

// Without a pace, holding is paid for the weeks that are left of those on the card.
func TestHoldingByWeeks(t *testing.T) {
	card := trial.Card("holding:\n  yard: 10.00 a week\n  cover: 26.00 a month\nweeks: 14 18 28\nstages:\n  body: budget 100")
	for day, want := range map[string]string{ // (14 + 72 + 28)/6 = 19 weeks at 16.00
		"2026-05-02": "304.00", "2026-05-09": "288.00", "2026-05-10": "285.71", "2027-05-09": "0.00",
	} {
		c := At(trial.Compile(t, card+trial.Session("2026-05-02.md", "stage: body", "")), trial.Day(day), trial.Today).Costs()
		f := c.Forecast
		trial.WantEqual(t, "holding on "+day, f.Holding.StringFixed(2), want)
		trial.WantEqual(t, "cost on "+day, f.Cost[0].StringFixed(2)+" "+f.Cost[2].StringFixed(2)+" "+f.Mean.StringFixed(2)+" "+f.SDTogether.String(),
			trial.Dec(want).Add(trial.Dec("100")).StringFixed(2)+" "+trial.Dec(want).Add(trial.Dec("100")).StringFixed(2)+" "+trial.Dec(want).Add(trial.Dec("100")).StringFixed(2)+" 0")
	}
}
