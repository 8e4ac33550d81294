package check

import (
	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var deniedResult = &Check{
	Name: "denied-result", Severity: problem.Warning,
	Summary: "a result or a tick whose next words take it back",
	Explain: "Words such as `no`, `tomorrow`, `result pending` and `on one side only`, right behind the result, take it back: the check settles nothing. " +
		"A check that found a fault has failed, even where it was carried out.",
	Example: "---\nchecks:\nwrong|  fume-check: done, weeps at the left union\nright|  fume-check: failed, weeps at the left union\n---\n",
	Run: func(p *Pass) {
		look := func(l *note.Line, name string) {
			if words := journal.Denial(l, l.Words()); words.S != "" {
				p.Report(words.Whole(), quote(name)+" settles nothing: these words take back that it was "+l.HeadSpan().Text(),
					"Write \"failed\" if it did not pass, the line when it is done, or \"; sure\" at the end if it counts as it stands.")
			}
		}
		for _, a := range p.State.Build.Acts {
			if !a.Ticked || !p.looks(a.Session) {
				continue
			}
			if words := journal.Denial(a.Line, a.Item.Words()); words.S != "" {
				p.Report(words.Whole(), "the tick clears this, and these words take back that it is done", "Leave the box empty while it is not, or write \"; sure\" at the end.")
			}
		}
		for _, c := range p.State.Build.Checks {
			look(c.Line, c.Name)
		}
		for _, i := range p.State.Build.Inspections {
			if i.Line.Name == "" { // one that is a check was looked at
				look(i.Line, i.Line.Kind.Key)
			}
		}
	},
}
