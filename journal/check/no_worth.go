package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var noWorth = &Check{
	Name:     journal.NoWorth,
	Severity: problem.Error,
	Summary:  "a part taken from a donor without saying what it is worth",
	Explain: "The price of a donor is spread over the parts that are taken from it by what each is worth. " +
		"Without its worth the part would cost nothing, and the others too much.",
	Bad: `-- build.md --
---
build: Example estate
currency: GBP
donors:
  lark-17: 580.00 hatchback hit in the rear
---
-- 2026-04-11.md --
---
stage: body
parts:
  door-left: arrived left door; used; donor lark-17
---
`,
	Good: `-- build.md --
---
build: Example estate
currency: GBP
donors:
  lark-17: 580.00 hatchback hit in the rear
---
-- 2026-04-11.md --
---
stage: body
parts:
  door-left: arrived left door; used; donor lark-17; worth 120
---
`,
	Say: func(f source.Fault) (string, string) {
		return "the part comes from " + quote(f.Word) + " and does not say what it is worth", "Write \"worth\" and what such a part would cost used."
	},
}
