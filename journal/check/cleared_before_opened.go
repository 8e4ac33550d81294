package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var clearedBeforeOpened = &Check{
	Name:     journal.ClearedBeforeOpened,
	Severity: problem.Error,
	Summary:  "a snag that is cleared in an earlier session than it is opened",
	Explain: "Sessions follow each other by date, so something was noted in the wrong one, or a date is wrong. " +
		"The tick is left out.",
	Bad: `-- 2026-04-11.md --
- [x] arch-seal: done
-- 2026-04-12.md --
- [ ] job arch-seal: seal the seam
`,
	Good: `-- 2026-04-11.md --
- [ ] job arch-seal: seal the seam
-- 2026-04-12.md --
- [x] arch-seal: done
`,
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " is cleared before it is opened, at " + place(f.Other), "Check the dates of both notes."
	},
}
