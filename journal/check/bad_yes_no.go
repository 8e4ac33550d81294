package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var badYesNo = &Check{
	Name:     note.BadYesNo,
	Severity: problem.Error,
	Summary:  "something else where yes or no should stand",
	Explain: "Whether a note is private is never guessed, since the guess would show it to everybody. " +
		"Write yes, or leave the line out.",
	Bad:  "---\nprivate: true\n---\n",
	Good: "---\nprivate: yes\n---\n",
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " is neither yes nor no", f.Help
	},
}
