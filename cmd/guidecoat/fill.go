package main

import (
	"cmp"
	"fmt"
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/measure"
)

// fillRule is how a day is filled, in words.
const fillRule = "With --hours a day is filled from what can be done now: " + fillOrder + "; each is taken if it still fits. " +
	"What says no time (\"takes 40m\") cannot be planned."

const fillOrder = "the worst first, then what is overdue, then what most others wait for, then the oldest"

// fill chooses what to do on a day by that rule, and counts what no longer fits and
// what says no time. The entries are what can be done, worst and then oldest first,
// and stay in that order.
func fill(doable []entry, day measure.Minutes) (chosen []entry, left, untimed int) {
	blocking := map[*journal.Snag]int{}
	for _, e := range doable {
		blocking[e.Snag] = len(e.st.WaitingFor(e.ID))
	}
	order := slices.Clone(doable)
	slices.SortStableFunc(order, func(a, b entry) int {
		return cmp.Or(-cmp.Compare(a.Severity, b.Severity), -cmp.Compare(one(a.Overdue), one(b.Overdue)), -cmp.Compare(blocking[a.Snag], blocking[b.Snag]))
	})
	taken := map[*journal.Snag]bool{}
	for _, e := range order {
		switch {
		case e.Takes == 0:
			untimed++
		case e.Takes > day:
			left++
		default:
			day -= e.Takes
			taken[e.Snag] = true
		}
	}
	for _, e := range doable {
		if taken[e.Snag] {
			chosen = append(chosen, e)
		}
	}
	return chosen, left, untimed
}

// filled says how full the day is.
func (ask snagsAsked) filled(entries []entry) string {
	var time measure.Minutes
	for _, e := range entries {
		time += e.Takes
	}
	text := fmt.Sprintf("%s in %s of %s: %s.", count(len(entries), "snag"), time, ask.hours, fillOrder)
	if ask.left > 0 {
		text += fmt.Sprintf(" Too long for what is left: %d.", ask.left)
	}
	if ask.untimed > 0 {
		text += fmt.Sprintf(" Without a time: %d.", ask.untimed)
	}
	return text
}
