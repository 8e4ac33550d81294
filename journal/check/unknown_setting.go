package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var unknownSetting = &Check{
	Name:     journal.UnknownSetting,
	Severity: problem.Error,
	Summary:  "a setting of the public page that there is not",
	Explain: "A misspelt setting would show what you meant to hide, so it is never guessed. " +
		"Until it is put right nothing is published.",
	Bad: `-- 2026-04-11.md --
A long day.
-- build.md --
---
build: Halden Fjord estate
currency: GBP
public:
  money: total
---
`,
	Good: `-- 2026-04-11.md --
A long day.
-- build.md --
---
build: Halden Fjord estate
currency: GBP
public:
  money: totals
---
`,
	Say: func(f source.Fault) (string, string) {
		return "no public setting called " + quote(f.Word), Choose(f.Word, f.Near)
	},
}
