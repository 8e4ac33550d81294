package check

import (
	"guidecoat/journal/picture"
	"guidecoat/journal/problem"
)

var keptInFile = &Check{
	Name: "kept-in-file", Severity: problem.Warning, Privacy: true,
	Summary: "a PDF, text, table or track, which goes out with all that is written in it",
	Explain: "A picture is made anew, but these are copied as they are: a PDF may name who made it and where, " +
		"a track shows where you were. Look into it, and write `; sure` on the line if it may be read.",
	Example: "-- 2026-04-11.md --\n---\nstage: rear axle\nwrong|cost: 138.00 rear axle beam; receipt beam.pdf\nright|cost: 138.00 rear axle beam; receipt beam.pdf; private\n---\n-- beam.pdf --\n%PDF-1.7\n",
	Run: func(p *Pass) {
		said := map[string]bool{}
		for _, x := range p.files() {
			if x.hidden || said[x.path] || !picture.AsItIs(x.path) {
				continue
			}
			said[x.path] = true
			if h, err := p.State.Build.Picture(x.path); h == nil && err == nil {
				p.reportFile(x, quote(x.target)+" goes out as it is, with all that is written in it: who made it, where, and more than is seen",
					"Look into it; in a line or item \"; sure\" says that it may be read.")
			}
		}
	},
}
