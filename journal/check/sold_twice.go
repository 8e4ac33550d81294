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
	Explain: "A build ends with one sale. The later one is left out. " +
		"A sale that fell through is told in the prose; a part sold by itself is a `credit`.",
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
The buyer offered 5150 and thought it over.
-- 2026-04-12.md --
---
sold: 5200.00; to a neighbour
---
`,
	Say: func(f source.Fault) (string, string) {
		return "the vehicle is sold twice, first at " + place(f.Other), "Leave one of the two out; parts sold by themselves are a \"credit\"."
	},
}
