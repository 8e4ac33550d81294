package check

import (
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var vinCheckDigit = &Check{
	Name:     journal.VINCheckDigit,
	Severity: problem.Information,
	Summary:  "a vehicle identification number with another check digit",
	Explain: "On vehicles for North America the ninth character is worked out from all others (49 CFR 565.15), so a slip of the pen shows. " +
		"Elsewhere the ninth character may be anything, and then this means nothing.",
	Bad: `-- 2026-04-11.md --
A long day.
-- build.md --
---
build: Halden Fjord estate
vehicle:
  vin: 0H8GDM9A3KP042788
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
		return "the check digit is " + quote(f.Word) + ", but the other characters ask for " + quote(strings.Join(f.Near, "")),
			"Read the number again; outside North America the ninth character need not be a check digit."
	},
}
