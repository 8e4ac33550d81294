package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var soldTwice = &Check{
	Name:     journal.SoldTwice,
	Severity: problem.Error,
	Summary:  "a vehicle that is sold twice",
	Explain: "A vehicle that is sold must come back before it can be sold again. The later sale is left out. " +
		"A sale that fell through ends with `kept` or `returned` below `sale`; a part sold by itself is a `credit`.",
	Bad: `-- 2026-04-11.md --
---
sold: 5150.00; to a neighbour
---
-- 2026-04-12.md --
---
sold: 5200.00; to a neighbour
---
`,
	Good: `-- 2026-04-11.md --
---
sold: 5150.00; to a neighbour
---
-- 2026-04-12.md --
---
sale: returned, he thought it over
sold: 5200.00; to a neighbour
---
`,
	Say: func(f source.Fault) (string, string) {
		return "the vehicle is sold twice, first at " + place(f.Other), "Leave one of the two out, or write what ended the first below \"sale\": \"returned\", or \"kept\" and the sum."
	},
}
