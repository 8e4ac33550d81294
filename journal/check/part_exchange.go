package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var partExchange = &Check{
	Name:     journal.PartExchange,
	Severity: problem.Warning,
	Summary:  "a part exchange that the build it went into tells otherwise, or that went into none",
	Explain: "What was taken in part exchange is part of the price here, and the cost of the vehicle in the build that it became. " +
		"`into` names the folder of that build in the garage; it writes the same sum as a cost, `as vehicle`.",
	Bad: `-- garage.md --
---
garage: The yard
currency: GBP
---
-- halden/build.md --
---
build: Halden
currency: GBP
---
-- halden/2026-04-11.md --
---
sale:
  - agreed 5,150.00
  - part exchange 900.00; into skeld
---
-- skeld/build.md --
---
build: Skeld
currency: GBP
stages:
  buying: purchase
---
-- skeld/2026-04-12.md --
---
stage: buying
cost: 800.00 taken in part exchange
---
`,
	Good: `-- garage.md --
---
garage: The yard
currency: GBP
---
-- halden/build.md --
---
build: Halden
currency: GBP
---
-- halden/2026-04-11.md --
---
sale:
  - agreed 5,150.00
  - part exchange 900.00; into skeld
---
-- skeld/build.md --
---
build: Skeld
currency: GBP
stages:
  buying: purchase
---
-- skeld/2026-04-12.md --
---
stage: buying
cost: 900.00 taken in part exchange
---
`,
	Say: func(f source.Fault) (string, string) {
		if f.Why == "" {
			return "the garage has no build in a folder " + quote(f.Word), Choose(f.Word, f.Near)
		}
		return "here the part exchange is " + f.Help + ", and in " + quote(f.Word) + " the vehicle cost " + f.Why, "Write the same sum in both builds."
	},
}
