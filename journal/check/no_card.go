package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var noCard = &Check{
	Name:     journal.NoCard,
	Severity: problem.Error,
	Summary:  "a build without its job card, build.md",
	Explain: "The job card names the build and its currency, and without it no figure can be worked out. " +
		"Write a build.md in the folder of the notes; `guidecoat note --build NAME` starts one.",
	Bad:       "the folder of the notes has no build.md\n",
	Good:      "---\nstage: rear axle\n---\n",
	Elsewhere: true,
	Say: func(f source.Fault) (string, string) {
		return "this build has no job card, build.md", "Start one with `guidecoat note --build NAME`."
	},
}
