package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var noAfter = &Check{
	Name:     journal.NoAfter,
	Severity: problem.Error,
	Summary:  "a check of the job card that no work makes due",
	Explain:  "A check under `due checks` falls due when a part of some system is fitted, so it must say of which. Name one or more systems behind `after`.",
	Bad: `-- 2026-04-11.md --
A long day.
-- build.md --
---
build: Halden Fjord estate
currency: GBP
due checks:
  tow-test: major; because the socket feeds the trailer's brake lamps
---
`,
	Good: `-- 2026-04-11.md --
A long day.
-- build.md --
---
build: Halden Fjord estate
currency: GBP
due checks:
  tow-test: after electrical; major; because the socket feeds the trailer's brake lamps
---
`,
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " does not say after what work it is due", "Write \"after SYSTEM\", such as \"after electrical\"."
	},
}
