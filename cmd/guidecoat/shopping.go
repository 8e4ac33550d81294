package main

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/money"
	"guidecoat/journal/view"
)

// A wanted part is one with the build that it is for.
type wanted struct {
	*view.PartView
	v    *view.View
	name string // of the build; "" where there is only one
}

// showShopping prints what is to be bought by supplier, over all builds at once,
// since one trip serves them all. What names no supplier comes last.
func (w *world) showShopping(p *place, views []*view.View) error {
	s := newScreen(w.stdout, w.getenv)
	bySupplier := map[string][]wanted{}
	var all, paid []wanted
	for _, v := range views {
		for _, part := range v.Parts {
			want := wanted{PartView: part, v: v}
			if p.garage != nil {
				want.name = p.name(v)
			}
			if part.PaidInRound { // bought, and the note forgot to say so
				paid = append(paid, want)
				continue
			}
			bySupplier[part.Supplier] = append(bySupplier[part.Supplier], want)
			all = append(all, want)
		}
	}
	names := slices.SortedFunc(maps.Keys(bySupplier), func(a, b string) int {
		if (a == "") != (b == "") {
			return cmp.Compare(b, a)
		}
		return cmp.Compare(a, b)
	})
	for _, name := range names {
		s.heading(cmp.Or(name, "No supplier named"))
		printWanted(s, bySupplier[name], []field{fieldPart, fieldWords, fieldBest, fieldLikely, fieldWorst, fieldDue})
		if len(names) > 1 {
			s.say("", estimates(bySupplier[name]))
		}
		s.gap()
	}
	if len(all) == 0 {
		s.say("", "Nothing is to be bought.")
	} else {
		s.say("", "In all: "+estimates(all))
	}
	if len(paid) > 0 {
		s.gap()
		s.heading("Paid for, but still noted as needed")
		printWanted(s, paid, []field{fieldPart, fieldWords})
		s.say("", "Note that they are ordered or here, and they leave this list.")
	}
	if left := p.leftOut(); left != "" {
		s.gap()
		s.say("", left)
	}
	return s.flush()
}

// printWanted prints parts, which may be for several builds.
func printWanted(s *screen, parts []wanted, fields []field) {
	var t table
	for _, f := range fields {
		t.columns = append(t.columns, f.column)
	}
	t.columns = append(t.columns, column{head: "for", least: 8})
	for _, p := range parts {
		var r row
		for _, f := range fields {
			r.cells = append(r.cells, f.of(p))
		}
		r.cells = append(r.cells, p.name)
		if p.Late {
			r.style = red
		}
		t.rows = append(t.rows, r)
	}
	t.print(s)
}

// estimates adds up what parts may cost, each currency on its own.
func estimates(parts []wanted) string {
	var currencies []money.Currency
	sums := map[string]*fact.Three{}
	without := 0
	for _, p := range parts {
		c := p.v.Currency
		if sums[c.Code] == nil {
			currencies, sums[c.Code] = append(currencies, c), &fact.Three{}
		}
		if p.Estimate == nil {
			without++
			continue
		}
		for i, sum := range sums[c.Code] {
			sums[c.Code][i] = sum.Add(p.Estimate[i])
		}
	}
	said := []string{count(len(parts), "part")}
	for i, c := range currencies {
		sum := sums[c.Code]
		if sum[2].IsZero() {
			continue // nothing is known of it
		}
		text := fmt.Sprintf("likely %s, best %s, worst %s", money.Show(sum[1], c), money.Show(sum[0], c), money.Show(sum[2], c))
		if i > 0 {
			text = "and " + text
		}
		said = append(said, text)
	}
	text := strings.Join(said, ", ")
	if without > 0 {
		text += "; without an estimate: " + strconv.Itoa(without)
	}
	return text + "."
}
