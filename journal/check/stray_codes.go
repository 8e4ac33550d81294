package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var strayCodes = &Check{
	Name:     note.StrayCodes,
	Severity: problem.Warning,
	Summary:  "a block of fault codes that does not say which control unit was read",
	Explain: "Fault codes are outstanding only where their block is a scan, so that a later scan of the same control unit can clear them. " +
		"A list of codes that is none says `text` behind the marks that open its block.",
	Bad:  "~~~\nC0035 left front wheel speed\n~~~\n",
	Good: "~~~ scan abs\nC0035 left front wheel speed\n~~~\n",
	Say: func(source.Fault) (string, string) {
		return "these fault codes are in no scan, and are not outstanding", "Write \"scan\" and the name of the control unit behind the marks that open the block, or \"text\" if it is no scan."
	},
}
