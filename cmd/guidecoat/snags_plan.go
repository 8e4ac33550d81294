package main

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
)

func (s *screen) plan(p *place, v *view.View, plan *fact.Plan) {
	if plan != nil && len(plan.Jobs) > 0 {
		s.gap()
		days := fmt.Sprintf("The %d days from %s on, at %s a week, what is dangerous or due first:", plan.Days, v.Today, plan.Pace)
		s.say("", together(": ", p.nameAmong(v), days))
		t := table{columns: []column{{head: "done by"}, {head: "takes", right: true}, {head: "severity"}, {head: "snag", least: 12}}}
		for _, job := range plan.Jobs {
			time, said := job.Time()
			t.add(job.Done.String(), pick.Either(said, "", "about ")+time.String(), job.Severity.String(), cmp.Or(job.ID, note.PlainWords(job.Words)))
		}
		t.print(s)
		more := sentence(plan.More, "1 snag comes later.", "%d snags come later.")
		if plan.Rest > 0 {
			more = together(" ", more, fmt.Sprintf("The stages' other work, %s, comes on top.", plan.Rest))
		}
		s.sayIf(more)
	}
	if order := toOrder(v); order != "" {
		s.say("", "Order today, so that nothing waits: "+order+".")
	}
}

// toOrder names the parts that nobody has ordered and something waits for, what holds up most first.
func toOrder(v *view.View) string {
	needed := pick.Where(v.Holdups(), func(h view.Holdup) bool { return h.Part.State == "needed" })
	return idList(pick.Map(needed, func(h view.Holdup) string { return together(" from ", h.Part.ID, h.Part.Supplier) }))
}

// fillRule is how a day is filled, in words.
const fillRule = "With --hours a day is filled from what can be done now: the worst first, then what is overdue; " +
	"of what is alike in both, what leaves the least time over, then what most others wait for, then the oldest. " +
	"What says no time (\"takes 40m\") counts an hour."

// fill chooses for a day by that rule out of what can be done, and keeps its order.
func fill(doable []entry, day measure.Minutes) (chosen []entry, left int) {
	blocking, waiting := map[*view.SnagView]int{}, map[*view.View]*view.Waiting{}
	var order []entry
	for _, e := range doable {
		if e.time() == 0 {
			continue // a paper to renew
		}
		if waiting[e.v] == nil {
			waiting[e.v] = e.v.Waiting()
		}
		blocking[e.SnagView] = len(waiting[e.v].For(e.ID))
		order = append(order, e)
	}
	slices.SortStableFunc(order, func(a, b entry) int {
		return cmp.Or(byRank(a, b), -cmp.Compare(blocking[a.SnagView], blocking[b.SnagView]))
	})
	taken := map[*view.SnagView]bool{}
	left = len(order)
	for len(order) > 0 {
		alike := 1
		for alike < len(order) && byRank(order[0], order[alike]) == 0 {
			alike++
		}
		for _, e := range fullest(order[:alike], day) {
			taken[e.SnagView] = true
			day -= e.time()
		}
		order = order[alike:]
	}
	chosen = pick.Where(doable, func(e entry) bool { return taken[e.SnagView] })
	return chosen, left - len(chosen)
}

func byRank(a, b entry) int {
	return cmp.Or(-cmp.Compare(a.Severity, b.Severity), -cmp.Compare(one(a.Overdue), one(b.Overdue)))
}

// fullest chooses what together fills the time best, and of several ways the one with the earlier entries.
func fullest(entries []entry, time measure.Minutes) (chosen []entry) {
	// Of those that take equally long only the earliest can be chosen, as many as fit:
	// for a day of 24 hours some thousands, however many there are.
	together := map[measure.Minutes]measure.Minutes{}
	entries = slices.DeleteFunc(slices.Clone(entries), func(e entry) bool {
		together[e.time()] += e.time()
		return together[e.time()] > time
	})
	// Bit t of sums[i] tells that some of the entries from i on take just t minutes.
	sums := make([]*big.Int, len(entries)+1)
	none := big.NewInt(1)
	within := new(big.Int).Sub(new(big.Int).Lsh(none, uint(time)+1), none)
	sums[len(entries)] = none
	for i := len(entries) - 1; i >= 0; i-- {
		sum := new(big.Int).Lsh(sums[i+1], uint(entries[i].time()))
		sums[i] = sum.And(sum.Or(sum, sums[i+1]), within)
	}
	filled := sums[0].BitLen() - 1
	for i, e := range entries {
		if rest := filled - int(e.time()); rest >= 0 && sums[i+1].Bit(rest) == 1 {
			chosen, filled = append(chosen, e), rest
		}
	}
	return chosen
}

func (ask snagsAsked) filled(entries []entry) string {
	var time measure.Minutes
	for _, e := range entries {
		time += e.time()
	}
	return together(" ", fmt.Sprintf("%s in %s of %s.", count(len(entries), "snag"), time, ask.hours), hourEach(entries),
		some(ask.left, "Too long for what is left: %d."), some(ask.told, "Told to the buyer instead: %d."))
}

// hourEach says how many are planned for an hour because nothing says how long they take.
func hourEach(entries []entry) string {
	n := pick.Count(entries, func(e entry) bool {
		_, said := e.Time()
		return e.Open && !said
	})
	return sentence(n, "1 of them says no time and counts an hour.", "%d of them say no time and count an hour each.")
}
