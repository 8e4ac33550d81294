package render

import (
	"cmp"
	"slices"
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/view"
)

// The readings stand by what they tell: outside limits, came right, and the rest by system in pairs.

// Ranks of a series of readings. From bySystem on they are its system's place in the list.
const (
	outOfLimits = iota
	cameRight
	bySystem
)

func seriesRank(x *view.ReadingSeries) int {
	switch {
	case x.Newest().Outside.Some():
		return outOfLimits
	case slices.ContainsFunc(x.Readings, func(r view.JudgedReading) bool { return r.Outside.Some() }):
		return cameRight
	}
	if at := slices.Index(note.Systems, x.Newest().System); at >= 0 {
		return bySystem + at
	}
	return bySystem + len(note.Systems)
}

func (s *voice) seriesHeading(x *view.ReadingSeries) string {
	switch rank := seriesRank(x); {
	case rank == outOfLimits:
		return s.Say("Outside the limits")
	case rank == cameRight:
		return s.Say("Was outside the limits, came right")
	case rank == bySystem+len(note.Systems):
		return s.Say("Everything else")
	}
	return title(s.Name(x.Newest().System))
}

// sides are the words in which the names of a pair differ. Common practice, no source.
var sides = map[string]bool{"left": true, "right": true, "nearside": true, "offside": true, "driver": true, "passenger": true}

// unsided is a name without the side of the vehicle.
func unsided(name string) string {
	return strings.Join(slices.DeleteFunc(strings.Split(name, "-"), func(w string) bool { return sides[w] }), "-")
}

// seriesByRank are the readings as the page tells them; pairs stand together.
func (s *site) seriesByRank() []*view.ReadingSeries {
	list := slices.Clone(s.series)
	first, pairs := map[string]int{}, map[string]int{}
	for i, x := range list {
		key := unsided(x.Name)
		if _, ok := first[key]; !ok {
			first[key] = i
		}
		pairs[key]++
	}
	single := func(x *view.ReadingSeries) int { return pairs[unsided(x.Name)] % 2 }
	slices.SortStableFunc(list, func(a, b *view.ReadingSeries) int {
		return cmp.Or(cmp.Compare(seriesRank(a), seriesRank(b)), cmp.Compare(single(a), single(b)), cmp.Compare(first[unsided(a.Name)], first[unsided(b.Name)]))
	})
	return list
}

// twins are the other sides of what a series measured, where both have one kind of unit.
func (s *site) twins(x *view.ReadingSeries) []*view.ReadingSeries {
	var list []*view.ReadingSeries
	for _, o := range s.series {
		if o != x && unsided(o.Name) == unsided(x.Name) && o.Newest().Value.Comparable(x.Newest().Value) {
			list = append(list, o)
		}
	}
	return list
}
