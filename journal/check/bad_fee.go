package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var badFee = &Check{
	Name:     note.BadFee,
	Severity: problem.Error,
	Summary:  "an auction fee that cannot be read",
	Explain: "A fee is a sum or a percentage of the hammer price, or a row of bands in rising order that ends in one without a limit. " +
		"A gap between the bands would make the advice on bids wrong.",
	Bad: `-- 2026-04-11.md --
A long day.
-- build.md --
---
build: Halden Fjord estate
currency: GBP
fees:
  buyer's fee: 75 to 500, 130 to 400, 12% above
---
`,
	Good: `-- 2026-04-11.md --
A long day.
-- build.md --
---
build: Halden Fjord estate
currency: GBP
fees:
  buyer's fee: 75 to 500, 130 to 1000, 12% above
---
`,
	Say: cannotRead("fee"),
}
