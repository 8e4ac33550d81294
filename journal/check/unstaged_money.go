package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var unstagedMoney = &Check{
	Name:     journal.UnstagedMoney,
	Severity: problem.Warning,
	Summary:  "money that belongs to no stage",
	Explain: "It counts in the total but in no stage, so budgets look better than they are. " +
		"Give the note a stage, or the line one of its own. It is said once for each note.",
	Bad:  "---\ncost: 6.49 copper grease\n---\n",
	Good: "---\nstage: rear axle\ncost: 6.49 copper grease\n---\n",
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " belongs to no stage", "Write \"stage: NAME\" in the note, or \"; stage NAME\" on the line."
	},
}
