package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var donorRefused = &Check{
	Name:     journal.DonorRefused,
	Severity: problem.Error,
	Summary:  "a part from a donor whose salvage category does not allow for it",
	Explain: "A vehicle of category A is to be crushed whole. Of one of category B parts may be used again, but not its shell, and no airbag or seat belt " +
		"(ABI Code of Practice for the Categorisation of Motor Vehicle Salvage).",
	Bad: `-- build.md --
---
build: Example estate
currency: GBP
donors:
  lark-17: 580.00 hatchback hit in the rear; category B
---
-- 2026-04-11.md --
---
stage: body
parts:
  belt-left: arrived left belt; new; system restraints; donor lark-17; worth 20
---
`,
	Good: `-- build.md --
---
build: Example estate
currency: GBP
donors:
  lark-17: 580.00 hatchback hit in the rear; category B
---
-- 2026-04-11.md --
---
stage: body
parts:
  door-left: arrived left door; used; donor lark-17; worth 120
---
`,
	Say: func(f source.Fault) (string, string) {
		return f.Why + " may come from " + quote(f.Word) + ", by its salvage category", "Get the part elsewhere, or mend the category of the donor."
	},
}
