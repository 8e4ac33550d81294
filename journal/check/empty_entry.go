package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var emptyEntry = &Check{
	Name:     note.EmptyEntry,
	Severity: problem.Error,
	Summary:  "a key, name or dash with nothing behind it",
	Explain: "Something was going to be written here, and nobody can know what. " +
		"Write it, leave the line out, or put # in front of it until you know.",
	Bad:  "---\nstage: rear axle\ncost:\n---\n",
	Good: "---\nstage: rear axle\n# cost:\n---\n",
	Say: func(f source.Fault) (string, string) {
		return "nothing is written for " + quote(f.Word), "Write what belongs there, or leave the line out."
	},
}
