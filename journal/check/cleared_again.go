package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var clearedAgain = &Check{
	Name:     journal.ClearedAgain,
	Severity: problem.Warning,
	Summary:  "a tick on a snag that is cleared already",
	Explain: "The second tick changes nothing. " +
		"If the snag had come back, open it with `again` first, so that the record shows it.",
	Bad: `-- 2026-04-11.md --
- [ ] job arch-seal: seal the seam
- [x] arch-seal: done
-- 2026-04-12.md --
- [x] arch-seal: done
`,
	Good: `-- 2026-04-11.md --
- [ ] job arch-seal: seal the seam
- [x] arch-seal: done
-- 2026-04-12.md --
- [ ] again arch-seal: cracked overnight
- [x] arch-seal: done
`,
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " was already cleared, at " + place(f.Other), "Open it with \"again\" first if it had come back."
	},
}
