package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var badVIN = &Check{
	Name:     journal.BadVIN,
	Severity: problem.Error,
	Summary:  "a letter that no vehicle identification number has",
	Explain: "By ISO 3779 the letters I, O and Q never stand in the 17 characters, since they look like 1 and 0. " +
		"Read the number again from the vehicle. Older vehicles have shorter numbers, which are not judged.",
	Bad: `-- 2026-04-11.md --
A long day.
-- build.md --
---
build: Halden Fjord estate
vehicle:
  vin: 0H8GDM9A8KPO42788
currency: GBP
---
`,
	Good: `-- 2026-04-11.md --
A long day.
-- build.md --
---
build: Halden Fjord estate
vehicle:
  vin: 0H8GDM9A8KP042788
currency: GBP
---
`,
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " cannot stand in a vehicle identification number", "Look for a 1 or a 0: the letters I, O and Q are never used."
	},
}
