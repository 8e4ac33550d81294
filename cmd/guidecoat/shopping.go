package main

import (
	"fmt"
	"maps"
	"slices"

	"guidecoat/journal"
)

// shoppingList prints what is to be bought, by supplier, with what it may cost.
// What names no supplier comes last.
func shoppingList(s *screen, st *journal.State) {
	bySupplier := map[string][]*journal.Part{}
	for _, p := range st.Parts {
		bySupplier[p.Supplier] = append(bySupplier[p.Supplier], p)
	}
	names := slices.Sorted(maps.Keys(bySupplier))
	if len(names) == 0 {
		s.say("", "Nothing is to be bought.")
		return
	}
	if names[0] == "" {
		names = append(names[1:], "")
	}
	for _, name := range names {
		parts := bySupplier[name]
		title := name
		if title == "" {
			title = "No supplier named"
		}
		s.heading(title)
		printParts(s, st.Build, parts, []field{fieldPart, fieldWords, fieldBest, fieldLikely, fieldWorst, fieldDue})
		if len(names) > 1 {
			s.say("", estimates(st.Build, parts))
		}
		s.gap()
	}
	s.say("", "In all: "+estimates(st.Build, st.Parts))
}

// estimates adds up what parts may cost.
func estimates(b *journal.Build, parts []*journal.Part) string {
	var sum journal.Three
	without := 0
	for _, p := range parts {
		if p.Estimate == nil {
			without++
			continue
		}
		for i := range sum {
			sum[i] = sum[i].Add(p.Estimate[i])
		}
	}
	text := fmt.Sprintf("%s, likely %s, best %s, worst %s", count(len(parts), "part"), b.ShowMoney(sum[1]), b.ShowMoney(sum[0]), b.ShowMoney(sum[2]))
	if without > 0 {
		text += fmt.Sprintf("; %d of them without an estimate", without)
	}
	return text + "."
}
