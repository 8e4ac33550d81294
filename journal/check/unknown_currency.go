package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var unknownCurrency = &Check{
	Name:     note.UnknownCurrency,
	Severity: problem.Error,
	Summary:  "a currency that ISO 4217 does not list",
	Explain: "A currency is named by its three capital letters in ISO 4217, such as GBP, EUR or SEK. " +
		"Signs such as £ are for amounts only.",
	Bad: `-- 2026-04-11.md --
A long day.
-- build.md --
---
build: Halden Fjord estate
currency: gbp
---
`,
	Good: `-- 2026-04-11.md --
A long day.
-- build.md --
---
build: Halden Fjord estate
currency: GBP
---
`,
	Say: func(f source.Fault) (string, string) {
		return "no currency called " + quote(f.Word), f.Help
	},
}
