package check

import (
	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/problem"
)

var secondScan = &Check{
	Name: "second-scan", Severity: problem.Information,
	Summary: "a second fault scan of one control unit on one day",
	Explain: "Both are kept, and the later one tells what is outstanding. Later is the one further down in the note, or in the note " +
		"that comes later by its path: see that this is the one that was read last.",
	Example: "---\nstage: body\n---\nwrong|```scan abs\nwrong|C0035 left front wheel speed\nwrong|```\nwrong|\nwrong|Cleared, driven round the block, read again:\nright|Before: C0035, left front wheel speed. Cleared, driven round the block, read again:\n\n```scan abs\nno faults\n```\n",
	Run: func(p *Pass) {
		type unitOnDay struct {
			unit string
			day  measure.Date
		}
		before := map[unitOnDay]*journal.Scan{}
		for _, s := range p.State.Build.Scans {
			key := unitOnDay{s.Name, s.Session.Date}
			if first := before[key]; first != nil {
				p.Report(s.Span, "a second scan of "+quote(s.Name)+" on "+s.Session.Date.String(), "This one counts, since it comes after the one at "+place(first.Span)+".")
			}
			before[key] = s
		}
	},
}
