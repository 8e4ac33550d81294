package check

import (
	"guidecoat/journal/measure"
	"guidecoat/journal/problem"

	"github.com/shopspring/decimal"
)

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
