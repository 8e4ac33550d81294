package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var missingName = &Check{
	Name:     journal.MissingName,
	Severity: problem.Error,
	Summary:  "a job card that does not name the build, or a garage without a name",
	Explain:  "The name heads every page and list. Write `build` at the top of build.md, or `garage` at the top of garage.md.",
	Bad:      "-- 2026-04-11.md --\nA long day.\n-- build.md --\n---\ncurrency: GBP\n---\n",
	Good:     "-- 2026-04-11.md --\nA long day.\n-- build.md --\n---\nbuild: Halden Fjord estate\ncurrency: GBP\n---\n",
	Say: func(f source.Fault) (string, string) {
		if f.Span.File.Path == journal.GarageName {
			return "the garage has no \"garage\"", "Write its name, such as \"garage: The old dairy\"."
		}
		return "the job card has no \"build\"", "Write the build's name, such as \"build: Halden Fjord estate\"."
	},
}
