package check

import (
	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var odometerUnit = &Check{
	Name: "odometer-unit", Severity: problem.Warning,
	Summary: "an odometer in another unit than before",
	Explain: "A vehicle's instrument counts either miles or kilometres, and a slip moves every distance by more than half. " +
		"Where the instrument was changed, say so with `new cluster`.",
	Example: `-- 2026-04-11.md --
---
odometer: 91252 mi
---
-- 2026-04-12.md --
---
wrong|odometer: 146,900 km
right|odometer: 146,900 km; new cluster
---
`,
	Run: func(p *Pass) {
		var usual measure.Unit
		var first source.Span
		backwards := map[source.Span]bool{} // which tells of the unit too
		for _, f := range p.State.Build.Faults {
			if f.Flaw == journal.OdometerBackwards {
				backwards[f.Span] = true
			}
		}
		differs := func(q measure.Quantity, at source.Span) {
			if usual != q.Unit && usual != (measure.Unit{}) && !backwards[at] {
				p.Report(at, quote(at.Text())+" is in another unit than "+place(first), "Write it in "+usual.Symbol+", as "+measure.Quantity{Value: q.In(usual).Round(0), Unit: usual}.String()+", or \"; new cluster\" behind the odometer if the instrument was changed.")
			}
		}
		for _, s := range p.State.Build.Sessions {
			if l := s.Note.Line("odometer"); l != nil && s.Odometer != nil {
				if usual == (measure.Unit{}) || l.Has("new cluster") {
					usual, first = s.Odometer.Unit, l.HeadSpan()
				}
				differs(*s.Odometer, l.HeadSpan())
			}
			for _, l := range s.Note.Lines {
				if at, ok := note.Arg[measure.Quantity](l, "at"); ok && !p.leftOut(l) {
					differs(at, l.Clause("at").Arg.Whole())
				}
			}
		}
	},
}
