package check

import (
	"regexp"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/problem"
)

var surchargeAsRefund = &Check{
	Name: "surcharge-as-refund", Severity: problem.Warning,
	Summary: "a credit in the words of a surcharge that is still open, counted as a refund",
	Explain: "A credit without `as` is a refund of the price, and leaves the surcharge of the part outstanding. " +
		"`as surcharge` settles it.",
	Example: `---
stage: rear axle
parts:
  caliper-left: ordered rear caliper, left
cost: 120.00 caliper, exchange; for caliper-left; surcharge 40.00
wrong|credit: 40.00 surcharge back; for caliper-left
right|credit: 40.00 surcharge back; as surcharge; for caliper-left
---
`,
	Run: func(p *Pass) {
		open := map[string]bool{}
		for _, s := range p.State.Snags {
			if s.Source == fact.FromSurcharge && s.Open {
				open[s.ID] = true
			}
		}
		for _, m := range p.State.Money {
			if m.Credit && !m.Line.Has("as") && open[journal.SurchargeID(m.Part)] && ofSurcharge.MatchString(m.Description()) {
				p.Report(m.Line.HeadSpan(), "this is counted as a refund, and the surcharge of "+quote(m.Part)+" stays open",
					"Write \"; as surcharge\" if it is the surcharge that came back.")
			}
		}
	},
}

// ofSurcharge are words for a surcharge or for the old part that it is paid back for.
var ofSurcharge = regexp.MustCompile(`(?i)\b(?:surcharge|exchange|core|old)\b`)
