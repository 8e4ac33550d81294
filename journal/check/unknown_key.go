package check

import (
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var unknownKey = &Check{
	Name:     note.UnknownKey,
	Severity: problem.Error,
	Summary:  "a key that such a file does not have",
	Explain: "What stands below an unknown key counts nowhere. " +
		"Spell it as in the manual; what has no key of its own goes into the prose.",
	Bad:  "---\nstage: rear axle\ncosts: 12.00 copper grease\n---\n",
	Good: "---\nstage: rear axle\ncost: 12.00 copper grease\n---\n",
	Say: func(f source.Fault) (string, string) {
		return "no key called " + quote(f.Word), Nearest(f.Word, f.Near, "The keys are "+strings.Join(f.Near, ", ")+".")
	},
}
