package check

import (
	"guidecoat/journal/problem"
)

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
