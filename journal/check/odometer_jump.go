package check

import (
	"github.com/shopspring/decimal"

	"guidecoat/journal/measure"
	"guidecoat/journal/problem"
)

var odometerJump = &Check{
	Name: "odometer-jump", Severity: problem.Warning,
	Summary: "an odometer that is far ahead of the note before",
	Explain: "No vehicle in the workshop is driven 50,000 miles or kilometres between two notes. " +
		"A digit too many makes every later reading go backwards, and settles checks that ask for a distance.",
	Example: "-- 2026-04-11.md --\n---\nodometer: 10010 mi\n---\n-- 2026-04-12.md --\n---\nwrong|odometer: 100100 mi\nright|odometer: 10100 mi\n---\n",
	Run: func(p *Pass) {
		var last *measure.Quantity
		for _, s := range p.State.Build.Sessions {
			if s.Odometer == nil {
				continue
			}
			l := s.Note.Line("odometer")
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
