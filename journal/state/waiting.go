package state

import (
	"cmp"
	"slices"
)

// WaitingFor returns the open snags that wait for a part or snag, directly or
// through others, worst first.
func (st *State) WaitingFor(id string) []*Snag {
	if id == "" {
		return nil
	}
	seen := map[*Snag]bool{}
	for ids := []string{id}; len(ids) > 0; ids = ids[1:] {
		for _, s := range st.Snags {
			if s.Open && s.ID != id && !seen[s] && slices.Contains(s.WaitsFor, ids[0]) {
				seen[s] = true
				if s.ID != "" {
					ids = append(ids, s.ID)
				}
			}
		}
	}
	var list []*Snag
	for _, s := range st.Snags {
		if seen[s] {
			list = append(list, s)
		}
	}
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
	for _, p := range st.Parts {
		if p.InHand() {
			continue
		}
		if snags := st.WaitingFor(p.ID); snags != nil {
			list = append(list, Holdup{p, snags})
		}
	}
	slices.SortStableFunc(list, func(a, b Holdup) int {
		return cmp.Or(-cmp.Compare(len(a.Snags), len(b.Snags)), -cmp.Compare(a.Snags[0].Severity, b.Snags[0].Severity), cmp.Compare(a.Part.ID, b.Part.ID))
	})
	return list
}
