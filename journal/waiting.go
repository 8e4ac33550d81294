package journal

import "guidecoat/journal/source"

// mostSteps bounds the ways of waiting that are followed in search of circles.
const mostSteps = 100_000

// waits takes what the snag waits for, and rejects a circle where it closes.
func (f *judge) waits(it *Item, s *standing) bool {
	for _, c := range it.Clauses {
		id, ok := c.Value.(string)
		if c.Word != "waits for" || !ok {
			continue
		}
		if f.circle[it.ID] && f.circle[id] && f.leadsTo(id, it.ID) {
			f.fault(it, source.Fault{Flaw: WaitsInCircle, Span: c.Arg.Whole(), Word: id, Near: []string{it.ID}})
			return false
		}
		s.WaitsFor = append(s.WaitsFor, id) // may be said twice; a state tells it once
	}
	return true
}

// leadsTo tells whether waiting for id means waiting for target in the end.
func (f *judge) leadsTo(id, target string) bool {
	seen := map[string]bool{id: true}
	for ids := []string{id}; len(ids) > 0 && f.steps > 0; f.steps-- {
		last := ids[len(ids)-1]
		if last == target {
			return true
		}
		ids = ids[:len(ids)-1]
		if s := f.byID[last]; s != nil {
			for _, next := range s.WaitsFor {
				if f.circle[next] && !seen[next] {
					seen[next] = true
					ids = append(ids, next)
				}
			}
		}
	}
	return false
}

// circling are the ids that circles of waiting go through, and what lies between two
// circles: what is left when ids that wait for none of the others, and then those that
// none waits for, are taken away until there are no more.
func circling(items []*Item) map[string]bool {
	var edges [2]map[string][]string // what an id waits for, and what waits for it
	edges[0], edges[1] = map[string][]string{}, map[string][]string{}
	left := map[string]bool{}
	for _, it := range items {
		for _, c := range it.Clauses {
			if id, _ := c.Value.(string); c.Word == "waits for" && it.ID != "" {
				edges[0][it.ID], edges[1][id] = append(edges[0][it.ID], id), append(edges[1][id], it.ID)
				left[it.ID], left[id] = true, true
			}
		}
	}
	for way := range edges {
		count := map[string]int{}
		var free []string
		for id := range left {
			for _, next := range edges[way][id] {
				if left[next] {
					count[id]++
				}
			}
			if count[id] == 0 {
				free = append(free, id)
			}
		}
		for ; len(free) > 0; free = free[1:] {
			delete(left, free[0])
			for _, next := range edges[1-way][free[0]] {
				if count[next]--; count[next] == 0 {
					free = append(free, next)
				}
			}
		}
	}
	return left
}
