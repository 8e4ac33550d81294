package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var missingVAT = &Check{
	Name:     journal.MissingVAT,
	Severity: problem.Error,
	Summary:  "tax to be added, but no rate of tax",
	Explain: "A price `plus vat` needs the rate, from the line itself or from `vat` on the job card. " +
		"Without it what was paid is not known.",
	Bad: `-- 2026-04-11.md --
---
stage: rear axle
cost: 64.00 brake hoses; plus vat
---
-- build.md --
---
build: Halden Fjord estate
currency: GBP
---
`,
	Good: `-- 2026-04-11.md --
---
stage: rear axle
cost: 64.00 brake hoses; plus vat 20%
---
-- build.md --
---
build: Halden Fjord estate
currency: GBP
---
`,
	Say: func(f source.Fault) (string, string) {
		return "\"plus vat\" has no rate of tax", "Write it behind, such as \"plus vat 20%\", or write \"vat: 20%\" in build.md."
	},
}
