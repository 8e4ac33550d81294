package check

import (
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var oneSided = &Check{
	Name: "one-sided", Severity: problem.Warning,
	Summary: "a value below zero that has a limit on one side only",
	Explain: "An angle such as toe or thrust goes both ways: with a most alone, the worst error to the other side passes. " +
		"Name both limits, with `within A..B`, or with `spec V ±T`.",
	Example: "---\nstage: rear axle\nreadings:\nwrong|  thrust-angle: -0.9 deg; max 0.15 deg\nright|  thrust-angle: -0.1 deg; within -0.15..0.15 deg\n---\n",
	Run: func(p *Pass) {
		limits := map[string]note.Limits{}
		for _, r := range p.State.Build.Readings {
			lim := r.Limits.After(limits[r.Name])
			limits[r.Name] = lim
			one := lim.Min
			if one == nil {
				one = lim.Max
			}
			// A temperature is below zero by its scale, and may well have one limit.
			if one == nil || lim.Min != nil && lim.Max != nil || r.Value.Unit.Kind == measure.Temperature {
				continue
			}
			if r.Value.Value.IsNegative() || one.Value.IsNegative() {
				p.Report(r.Line.HeadSpan(), quote(r.Name)+" goes both ways, and has a limit on one side only", "Write both, such as \"within A..B\".")
			}
		}
	},
}
