package check

import (
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var outsideBuild = &Check{
	Name:     "outside-build",
	Severity: problem.Warning,
	Summary:  "a picture, link or receipt outside the build's folder",
	Explain: "Only files in the build's own folder are published, so that nothing else on your computer can ever get onto a page. " +
		"Copy the file into the build.",
	Bad:  "![the beam](../phone/beam.jpg)\n",
	Good: "-- 2026-04-11.md --\n![the beam](photos/beam.jpg)\n-- photos/beam.jpg --\n",
	Run: func(p *Pass) {
		files := newFiles(p.State.Build)
		for _, w := range p.notes() {
			references(w.note, func(target string, at source.Span) {
				if files.find(w.note, target) == outside {
					p.Report(at, quote(target)+" is outside the build's folder and is not published", "Copy the file into the build.")
				}
			})
		}
	},
}
