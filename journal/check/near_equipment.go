package check

import (
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/near"
	"guidecoat/journal/problem"
)

var nearEquipment = &Check{
	Name: "near-equipment", Severity: problem.Warning,
	Summary: "equipment in other words than the one that turns checks on",
	Explain: "Work on a vehicle with a camera, radar, stability control, tyre sensors or high-voltage asks for more checks, if `equipment` has exactly that word. " +
		"With a slip in it, or by another name, they are not asked for, and nobody notices.",
	Example: `-- 2026-04-11.md --
A long day.
-- build.md --
---
build: Halden Fjord estate
currency: GBP
vehicle:
wrong|  equipment: stability controll, sun roof
right|  equipment: stability control, tyre sensors, sun roof
---
`,
	Run: func(p *Pass) {
		d, ok := p.State.Build.Card.Detail("equipment")
		if !ok {
			return
		}
		has := p.State.Build.Card.Equipment()
		at := 0
		for word := range strings.SplitSeq(d.Value, ",") {
			typed := strings.TrimSpace(word)
			begin := at + strings.Index(word, typed)
			at += len(word) + 1
			plain := strings.Join(strings.Fields(strings.ToLower(typed)), " ")
			meant := journal.EquipmentIn(plain)
			for _, known := range journal.KnownEquipment {
				if near.IsSlip(plain, known) {
					meant = known
				}
			}
			if meant != "" && !slices.Contains(has, meant) {
				span := d.Line.Text.Whole()
				span.Start, span.End = span.Start+int32(begin), span.Start+int32(begin+len(typed))
				p.Report(span, "no checks follow from "+quote(typed), "Nearest: "+quote(meant)+". Only that word turns its checks on.")
			}
		}
	},
}
