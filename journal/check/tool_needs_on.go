package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var toolNeedsOn = &Check{
	Name:     journal.ToolNeedsOn,
	Severity: problem.Error,
	Summary:  "a shared tool that does not say when it was bought",
	Explain: "A tool is carried by the builds that begin on or after the day it was bought. " +
		"Say which day with `on`.",
	Bad: `-- garage.md --
---
garage: The old dairy
currency: GBP
tools:
  - 240.00 impact wrench; over 6 builds
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
		return "the tool " + quote(f.Word) + " does not say when it was bought", "Write \"; on YYYY-MM-DD\"."
	},
}
