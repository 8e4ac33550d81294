package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var noUntil = &Check{
	Name:     journal.NoUntil,
	Severity: problem.Error,
	Summary:  "a paper that does not say until when it holds",
	Explain:  "What never runs out needs no watching. Whatever does, such as insurance, tax or a permit, says `until` and its last day.",
	Bad:      "---\npapers:\n  insurance: laid up only; road no\n---\n",
	Good:     "---\npapers:\n  insurance: laid up only; until 2026-07-16; road no\n---\n",
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " does not say until when it holds", "Write \"until\" and its last day."
	},
}
