package journal

import (
	"cmp"
	"slices"

	"guidecoat/journal/source"
)

// mostSteps bounds the ways from snag to snag that are followed: where a thousand parts
// each hold up the same thousand snags, each would go all the way. Beyond it, what waits
// for a part or snag through others is no longer found, and no circle of waiting.
const mostSteps = 1_000_000

// A Waiting follows what waits for what, as it stood.
type Waiting struct {
	snags map[string][]*Snag // the open ones, by what they wait for
	steps int                // left
}

// Waiting is for asking which snags wait for something, however often.
func (st *State) Waiting() *Waiting {
	w := &Waiting{map[string][]*Snag{}, mostSteps}
	for _, s := range st.Snags {
		for _, id := range s.WaitsFor {
			if s.Open {
				w.snags[id] = append(w.snags[id], s)
			}
		}
	}
	return w
}

// For returns the open snags that wait for a part or snag, directly or through others,
// worst first.
func (w *Waiting) For(id string) []*Snag {
	seen := map[*Snag]bool{}
	var list []*Snag
	ids := []string{id}
	for i := 0; i < len(ids) && (i == 0 || w.steps > 0); i++ {
		for _, s := range w.snags[ids[i]] {
			if w.steps--; s.ID != id && !seen[s] {
				seen[s], list = true, append(list, s)
				if s.ID != "" {
					ids = append(ids, s.ID)
				}
			}
		}
	}
	slices.SortStableFunc(list, CompareSnags)
	return list
}

// A Holdup is a part that is still to come, and the snags that wait for it.
type Holdup struct {
	Part  *Part
	Snags []*Snag
}

// Holdups are the parts that hold up snags, the one that holds up most first, then
// the one with the worst of them, then by id.
func (st *State) Holdups() []Holdup {
	var list []Holdup
	waiting := st.Waiting()
	for _, p := range st.Parts {
		if p.InHand() {
			continue
		}
		if snags := waiting.For(p.ID); snags != nil {
			list = append(list, Holdup{p, snags})
		}
	}
	slices.SortStableFunc(list, func(a, b Holdup) int {
		return cmp.Or(-cmp.Compare(len(a.Snags), len(b.Snags)), -cmp.Compare(a.Snags[0].Severity, b.Snags[0].Severity), cmp.Compare(a.Part.ID, b.Part.ID))
	})
	return list
}

// waits takes what the snag waits for, and rejects a circle where it closes.
func (f *fold) waits(it *item, s *Snag) bool {
	for _, c := range it.Clauses {
		id, ok := c.Value.(string)
		if c.Word != "waits for" || !ok {
			continue
		}
		if f.circle[s.ID] && f.circle[id] && f.leadsTo(id, s.ID) {
			f.fault(it, source.Fault{Flaw: WaitsInCircle, Span: c.Arg.Whole(), Word: id, Near: []string{s.ID}})
			return false
		}
		s.WaitsFor = append(s.WaitsFor, id) // may be said twice; see run
	}
	return true
}

// leadsTo tells whether waiting for id means waiting for target in the end.
func (f *fold) leadsTo(id, target string) bool {
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
func circling(items []*item) map[string]bool {
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
