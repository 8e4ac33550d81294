package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var holdingWithoutTime = &Check{
	Name:     journal.HoldingWithoutTime,
	Severity: problem.Error,
	Summary:  "holding that is paid for nobody knows how long",
	Explain: "What it costs to keep the vehicle counts by the week, so the card has to say how many weeks it will take, " +
		"or how much you work a week. Without either it would count for nothing, and the bid would be too high.",
	Bad: `-- 2026-04-11.md --
A long day.
-- build.md --
---
build: Halden Fjord estate
currency: GBP
holding:
  storage: 10.00 a week
---
`,
	Good: `-- 2026-04-11.md --
A long day.
-- build.md --
---
build: Halden Fjord estate
currency: GBP
weeks: 14 18 26
holding:
  storage: 10.00 a week
---
`,
	Say: func(f source.Fault) (string, string) {
		return "nothing says for how long " + quote(f.Word) + " is paid", "Write how much you work, such as \"pace: 6h a week\", or how long it takes, such as \"weeks: 14 18 26\"."
	},
}
