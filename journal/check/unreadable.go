package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var unreadable = &Check{
	Name:     journal.Unreadable,
	Severity: problem.Error,
	Summary:  "a file or folder that could not be read",
	Explain: "What stands in it counts nowhere, so every figure may be wrong. " +
		"Mostly it belongs to another user of the computer, or is a link to something that was moved away. " +
		"A link that leads out of the folder is not followed, so that nothing else on your computer can ever get onto a page.",
	Bad:       "notes/2026-04-11.md is a link to a file that is gone\n",
	Good:      "---\nstage: rear axle\n---\n",
	Elsewhere: true,
	Say: func(f source.Fault) (string, string) {
		if f.Help != "" {
			return quote(f.Word) + " cannot be read: " + f.Why, f.Help
		}
		return quote(f.Word) + " cannot be read: " + f.Why, "Allow it to be read, or take it out of the build."
	},
}
