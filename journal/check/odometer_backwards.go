package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var odometerBackwards = &Check{
	Name:     journal.OdometerBackwards,
	Severity: problem.Warning,
	Summary:  "an odometer that reads less than before",
	Explain: "A buyer will ask about a reading that goes backwards. " +
		"Mostly it is a slip; where the instrument was changed, say so with `new cluster`.",
	Bad: `-- 2026-04-11.md --
---
odometer: 91252 mi
---
-- 2026-04-12.md --
---
odometer: 91225 mi
---
`,
	Good: `-- 2026-04-11.md --
---
odometer: 91252 mi
---
-- 2026-04-12.md --
---
odometer: 12 mi; new cluster
---
`,
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " is less than " + f.Why + " at " + place(f.Other), "Write \"; new cluster\" behind it if the instrument was changed."
	},
}
