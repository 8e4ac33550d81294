package check

import "testing"

// TestOneMistakeOfTheCard gives mistakes of the card that many lines hang on, and of
// lines that are read as keys of their own.
func TestOneMistakeOfTheCard(t *testing.T) {
	oneMessage(t, []root{
		{"a bad tax and a bad rate", `-- build.md --
---
build: Example estate
currency: GBP
vat: 20
rates:
  EUR: 0,86
stages:
  body: budget 100
---
-- 2026-04-11.md --
---
stage: body
cost:
  - 12.00 seals; plus vat
  - 12.00 EUR hose
  - 6.00 EUR clips
---
`, "bad-number bad-number"},
		{"a rate without a name", `-- build.md --
---
build: Example estate
currency: GBP
vat: 20%
rates: EUR 0.86
stages:
  body: budget 100
---
-- 2026-04-11.md --
---
stage: body
cost:
  - 12.00 seals; plus vat
  - 12.00 EUR hose
  - 6.00 EUR clips
---
`, "wrong-shape"},
		{"a rate of a currency that there is not", `-- build.md --
---
build: Example estate
currency: GBP
vat: 20%
rates:
  Euro: 0.86
stages:
  body: budget 100
---
-- 2026-04-11.md --
---
stage: body
cost:
  - 12.00 seals; plus vat
  - 12.00 EUR hose
  - 6.00 EUR clips
---
`, "unknown-currency"},
		{"a rate below a tab", `-- build.md --
---
build: Example estate
currency: GBP
vat: 20%
rates:
` + "\t" + `EUR: 0.86
stages:
  body: budget 100
---
-- 2026-04-11.md --
---
stage: body
cost:
  - 12.00 seals; plus vat
  - 12.00 EUR hose
  - 6.00 EUR clips
---
`, "tab-indentation"},
		{"a bad rate of another currency", `-- build.md --
---
build: Example estate
currency: GBP
vat: 20%
rates:
  SEK: 0,08
stages:
  body: budget 100
---
-- 2026-04-11.md --
---
stage: body
cost:
  - 12.00 seals; plus vat
  - 12.00 EUR hose
  - 6.00 EUR clips
---
`, "no-rate no-rate bad-number"},
		{"a card whose front matter begins wrongly", `-- build.md --
----
build: Example estate
currency: GBP
vat: 20%
rates:
  EUR: 0.86
stages:
  body: budget 100
---
-- 2026-04-11.md --
---
stage: body
cost:
  - 12.00 seals; plus vat
  - 12.00 EUR hose
  - 6.00 EUR clips
---
`, "misplaced-front-matter"},
		{"a garage with a bad tax and a rate twice", `-- garage.md --
---
garage: Example
currency: GBP
vat: 20
rates:
  - EUR: 0.86
  - EUR: 0.87
tools:
  - 240.00 impact wrench; over 6 builds; on 2026-02-01; plus vat
---
`, "bad-number repeated-name"},
		{"a cost without its dash", `---
stage: body
cost:
12.00 seals
---
`, "not-a-line"},
		{"a cost with a colon without its dash", `---
stage: body
cost:
12.00 seals: two
13.00 more: three
time: 3h
---
`, "wrong-shape wrong-shape"},
		{"a stage on the next line", `---
stage:
body
cost: 12.00 seals
---
`, "not-a-line"},
		{"a part that is not indented", `---
stage: body
parts:
wing: needed left wing
---
`, "wrong-shape"},
		{"a key that is empty and a slip in the next", `---
stage: body
parts:
tme: 3h
---
`, "empty-entry unknown-key"},
		{"a key that is empty twice", `---
stage: body
time: 3h
time:
---
`, "repeated-key"},
	})
}
