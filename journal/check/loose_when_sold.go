package check

import "guidecoat/journal/problem"

var looseWhenSold = &Check{
	Name: "loose-when-sold", Severity: problem.Warning,
	Summary: "a part that was paid for and is not on the vehicle that was sold",
	Explain: "The vehicle is sold, and a part bought for it is still somewhere else. " +
		"Say what became of it: fitted, returned, or sold by itself.",
	Example: `---
stage: body
parts:
wrong|  door-left: arrived left door; new
right|  door-left: fitted left door; new
cost: 138.00 left door; for door-left
sold: 5150.00
---
`,
	Run: func(p *Pass) {
		if p.State.Sale == nil {
			return
		}
		var doubt map[string]bool
		for _, part := range p.State.Parts {
			ended := !part.Waited() && !part.InHand()
			if part.Fitted() || ended || !part.Paid.IsPositive() {
				continue
			}
			if doubt == nil {
				doubt = p.doubtful()
			}
			if !doubt[part.ID] {
				p.Report(part.Span(), quote(part.ID)+" was paid for and is only "+part.State+", but the vehicle is sold",
					"Write what became of it, such as \"fitted\", \"returned\" or \"sold\".")
			}
		}
	},
}
