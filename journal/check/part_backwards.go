package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var partBackwards = &Check{
	Name:     journal.PartBackwards,
	Severity: problem.Warning,
	Summary:  "a part that goes back to an earlier state",
	Explain: "A part goes from needed to ordered, arrived and fitted. " +
		"If it went back or another one is needed, say first that it was returned, cancelled or sold; then its second round is counted apart.",
	Bad: `-- 2026-04-11.md --
---
stage: rear axle
parts:
  rear-beam: arrived rear axle beam
---
-- 2026-04-12.md --
---
stage: rear axle
parts:
  rear-beam: ordered
---
`,
	Good: `-- 2026-04-11.md --
---
stage: rear axle
parts:
  rear-beam: arrived rear axle beam
---
-- 2026-04-12.md --
---
stage: rear axle
parts:
  - rear-beam: returned bent
  - rear-beam: ordered
---
`,
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " goes back from " + quote(f.Why), "Write \"returned\", \"cancelled\" or \"sold\" first if a second round begins."
	},
}
