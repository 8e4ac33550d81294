package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var unknownPart = &Check{
	Name:     journal.UnknownPart,
	Severity: problem.Error,
	Summary:  "a cost or credit for a part that no note declares",
	Explain: "Behind `for` stands the id of a part, so that what it cost is known. " +
		"A part is declared by its first line under `parts`, in any note of the build.",
	Bad:  "---\nstage: rear axle\nparts:\n  rear-beam: ordered rear axle beam\ncost: 138.00 rear axle beam; for rear-baem\n---\n",
	Good: "---\nstage: rear axle\nparts:\n  rear-beam: ordered rear axle beam\ncost: 138.00 rear axle beam; for rear-beam\n---\n",
	Say: func(f source.Fault) (string, string) {
		return "no part called " + quote(f.Word), Nearest(f.Word, f.Near, "A part is declared by its first line under \"parts\".")
	},
}
