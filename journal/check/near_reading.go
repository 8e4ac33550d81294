package check

import (
	"guidecoat/journal/near"
	"guidecoat/journal/problem"
)

var nearReading = &Check{
	Name: "near-reading", Severity: problem.Warning,
	Summary: "a new reading, or a new control unit, whose name is a letter or two from a known one",
	Explain: "A later reading or scan settles what an earlier one left outstanding only under its exact name, and only then do its limits hold. " +
		"With a slip in the name it stands for itself.",
	Example: "---\nreadings:\n  - gas-pressure: 30 mbar; within 28..37 mbar\nwrong|  - gas-presure: 60 mbar\nright|  - gas-pressure: 31 mbar\n---\n",
	Run: func(p *Pass) {
		var readings, units near.Index
		for _, r := range p.State.Build.Readings {
			if like := readings.Slip(r.Name); like != "" {
				p.Report(r.Line.NameSpan(), "the reading "+quote(r.Name)+" is new, and close to "+quote(like), "Nearest: "+quote(like)+". Tell the two apart by more than a letter if they are not one.")
			}
		}
		for _, s := range p.State.Build.Scans {
			if like := units.Slip(s.Name); like != "" {
				p.Report(s.Span, "the control unit "+quote(s.Name)+" is new, and close to "+quote(like), "Nearest: "+quote(like)+". Tell the two apart by more than a letter if they are not one.")
			}
		}
	},
}
