package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var missingCurrency = &Check{
	Name:     journal.MissingCurrency,
	Severity: problem.Error,
	Summary:  "a job card or garage that names no currency",
	Explain: "Every figure is in the currency of the build or garage, and nothing can be added up before it is known. " +
		"Sums of the notes are not judged until then.",
	Bad:  "-- 2026-04-11.md --\nA long day.\n-- build.md --\n---\nbuild: Halden Fjord estate\n---\n",
	Good: "-- 2026-04-11.md --\nA long day.\n-- build.md --\n---\nbuild: Halden Fjord estate\ncurrency: GBP\n---\n",
	Say: func(f source.Fault) (string, string) {
		return "no \"currency\" is named", "Write a code of ISO 4217, such as \"currency: GBP\"."
	},
}
