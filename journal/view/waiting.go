package view

import (
	"cmp"
	"slices"
)

// mostSteps bounds the ways from snag to snag that are followed: where a thousand parts
// each hold up the same thousand snags, each would go all the way. Beyond it, what waits
// for a part or snag through others is no longer found.
const mostSteps = 100_000

// A Waiting follows what waits for what, as it stood.
type Waiting struct {
	snags map[string][]*SnagView // the open ones, by what they wait for
	steps int                    // left
}

// Waiting is for asking which snags wait for something, however often.
func (v *View) Waiting() *Waiting {
	w := &Waiting{map[string][]*SnagView{}, mostSteps}
	for _, s := range v.Snags {
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
func (w *Waiting) For(id string) []*SnagView {
	seen := map[*SnagView]bool{}
	var list []*SnagView
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
	Part  *PartView
	Snags []*SnagView
}

// Holdups are the parts that hold up snags, the one that holds up most first, then
// the one with the worst of them, then by id.
func (v *View) Holdups() []Holdup {
	var list []Holdup
	waiting := v.Waiting()
	for _, p := range v.Parts {
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
