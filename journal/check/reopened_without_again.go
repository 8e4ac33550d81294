package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var reopenedWithoutAgain = &Check{
	Name:     journal.ReopenedByItself,
	Severity: problem.Warning,
	Summary:  "a cleared snag that is opened without saying again",
	Explain: "The snag is taken as open again. " +
		"Write `again` before the id if that is meant; if it is another snag, it needs an id of its own.",
	Bad: `-- 2026-04-11.md --
- [x] job arch-seal: seam sealed
-- 2026-04-12.md --
- [ ] arch-seal: cracked overnight
`,
	Good: `-- 2026-04-11.md --
- [x] job arch-seal: seam sealed
-- 2026-04-12.md --
- [ ] again arch-seal: cracked overnight
`,
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " was cleared, at " + place(f.Other) + ", and is open again", "Write \"again " + f.Word + "\" if that is meant."
	},
}
