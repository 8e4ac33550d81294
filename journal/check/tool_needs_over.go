package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var toolNeedsOver = &Check{
	Name:     journal.ToolNeedsOver,
	Severity: problem.Error,
	Summary:  "a shared tool that does not say over how many builds",
	Explain: "The price of a tool in garage.md is carried in equal parts by the builds it is used for. " +
		"Say over how many with `over`.",
	Bad: `-- garage.md --
---
garage: The old dairy
currency: GBP
tools:
  - 240.00 impact wrench; on 2026-02-01
---
`,
	Good: `-- garage.md --
---
garage: The old dairy
currency: GBP
tools:
  - 240.00 impact wrench; over 6 builds; on 2026-02-01
---
`,
	Say: func(f source.Fault) (string, string) {
		return "the tool " + quote(f.Word) + " does not say over how many builds its price is spread", "Write \"; over N builds\"."
	},
}
