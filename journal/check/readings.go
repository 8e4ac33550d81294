package check

import (
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// Readings and the odometer.

var nearLimit = &Check{
	Name: "near-limit", Severity: problem.Information,
	Summary: "a reading that is still within its limits, but near to one",
	Explain: "Near is within 10 % of the limit; where there are a least and a most, within 10 % of what lies between them, so that a value " +
		"in the middle is never near. The newest reading of each name counts. What wears will soon be outside: plan for it, or tell the buyer.",
	Example: "---\nstage: rear axle\nreadings:\nwrong|  disc-left: 8.7 mm; min 8.0 mm\nright|  disc-left: 9.7 mm; min 8.0 mm\n---\n",
	Run: func(p *Pass) {
		for _, r := range p.State.Newest() {
			if near := r.Limits.Near(r.Value); near.Some() {
				p.Report(r.Line.HeadSpan(), quote(r.Name)+" is "+r.Value.String()+", "+near.String(), "It counts as within its limits.")
			}
		}
	},
}

var fineTolerance = &Check{
	Name: "fine-tolerance", Severity: problem.Warning,
	Summary: "a torque that is to be held more closely than a torque wrench can",
	Explain: "ISO 6789-1:2017 lets a torque wrench be off by 4 %, and by 6 % up to 10 N·m (from memory). " +
		"Within less nobody can tell whether a fastener is right. Write a wider tolerance, or none for the usual 5 %.",
	Example: `-- 2026-04-11.md --
---
parts:
  arm-left: ordered lower arm, left; new
---
-- build.md --
---
build: Halden Fjord estate
currency: GBP
fasteners:
wrong|  arm-pinch: 60 Nm; of arm-left; ±1%
right|  arm-pinch: 60 Nm; of arm-left; ±4%
---
`,
	Run: func(p *Pass) {
		ten, _ := measure.ParseQuantity("10 Nm")
		for _, f := range p.State.Build.Card.Fasteners {
			own := f.Line.Choice("tolerance")
			least := decimal.NewFromInt(4)
			if f.Torque.Compare(ten) <= 0 {
				least = decimal.NewFromInt(6)
			}
			width := f.Max.In(f.Torque.Unit).Sub(f.Torque.Value)
			if own != nil && width.Shift(2).LessThan(f.Torque.Value.Mul(least)) {
				p.Report(own.Span, quote(f.ID)+" is to be held more closely than a torque wrench can", "Write \"±"+least.String()+"%\" or more.")
			}
		}
	},
}

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

var odometerJump = &Check{
	Name: "odometer-jump", Severity: problem.Warning,
	Summary: "an odometer that is far ahead of the note before, or shows thousandths",
	Explain: "No vehicle in the workshop is driven 50,000 miles or kilometres between two notes, and no instrument shows thousandths of one: " +
		"146.900 km is less than a hundred and fifty. A digit too many makes every later reading go backwards, and settles checks that ask for a distance.",
	Example: "-- 2026-04-11.md --\n---\nodometer: 10010 mi\n---\n-- 2026-04-12.md --\n---\nwrong|odometer: 100100 mi\nright|odometer: 10100 mi\n---\n",
	Run: func(p *Pass) {
		var last *measure.Quantity
		for _, s := range p.State.Build.Sessions {
			if s.Odometer == nil {
				continue
			}
			l := s.Note.Line("odometer")
			if s.Odometer.Value.Exponent() == -3 && s.Odometer.Value.LessThan(thousand) && p.looks(s) {
				typed := l.HeadSpan().Text()
				p.Report(l.HeadSpan(), quote(typed)+" has thousandths", "Write "+strings.Replace(typed, ".", ",", 1)+" if these are thousands.")
			}
			if last != nil && p.looks(s) && !l.Has("new cluster") {
				far := measure.AddDistance(*last, measure.Quantity{Value: decimal.NewFromInt(50_000), Unit: s.Odometer.Unit})
				if s.Odometer.Compare(far) > 0 {
					p.Report(l.HeadSpan(), quote(l.HeadSpan().Text())+" is more than 50,000 "+s.Odometer.Unit.Symbol+" further than "+last.String()+", in the note before", "Count the digits, or write \"; new cluster\" behind it if the instrument was changed.")
				}
			}
			last = s.Odometer
		}
	},
}
