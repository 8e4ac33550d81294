package check

import "guidecoat/journal/problem"

var fittedUnpaid = &Check{
	Name: "fitted-unpaid", Severity: problem.Warning,
	Summary: "a part that is fitted, with nothing paid for it",
	Explain: "A part on the vehicle mostly cost something, and a cost that is missing makes the build look cheaper than it was. " +
		"Write the cost with `for` and the part's id, or `free` on the part's line if it cost nothing. " +
		"A part that was taken off and put back is `refitted`.",
	Example: "---\nstage: rear axle\nparts:\n  rear-beam: fitted rear axle beam; new\nright|cost: 138.00 rear axle beam; for rear-beam\n---\n",
	Run: func(p *Pass) {
		var doubt map[string]bool
		for _, part := range p.State.Parts {
			if part.State != "fitted" || part.Free || part.Paid.IsPositive() {
				continue
			}
			if doubt == nil {
				doubt = p.doubtful()
			}
			if !doubt[part.ID] {
				p.Report(lastIn(part, "fitted").Line.HeadSpan(), quote(part.ID)+" is fitted, but nothing is paid for it",
					"Write \"; for "+part.ID+"\" on its cost, or \"; free\" here if it cost nothing.")
			}
		}
	},
}
