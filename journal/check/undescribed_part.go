package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var undescribedPart = &Check{
	Name:     journal.UndescribedPart,
	Severity: problem.Error,
	Summary:  "a part whose first line does not say what it is",
	Explain: "The first line that names a part describes it for every list and page. " +
		"That also catches an id that was meant to be another one. Lines about the part count again once it is described.",
	Bad:  "---\nstage: rear axle\nparts:\n  rear-beam: ordered\n---\n",
	Good: "---\nstage: rear axle\nparts:\n  rear-beam: ordered rear axle beam\n---\n",
	Say: func(f source.Fault) (string, string) {
		return "the first line of " + quote(f.Word) + " does not describe it", Nearest(f.Word, f.Near, "Write what it is behind the state, such as \"needed reluctor ring, left rear\".")
	},
}
