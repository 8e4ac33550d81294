package check

import (
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var otherKindOfUnit = &Check{
	Name:     journal.OtherKindOfUnit,
	Severity: problem.Error,
	Summary:  "a reading that measures another kind of thing than before",
	Explain: "Readings of one name are held against each other and against the limits that were given first, so they measure one kind of thing. " +
		"Give the other measurement a name of its own.",
	Bad: `-- 2026-04-11.md --
---
readings:
  disc-left: 9.7 mm; min 8.0 mm
---
-- 2026-04-12.md --
---
readings:
  disc-left: 9.7 bar
---
`,
	Good: `-- 2026-04-11.md --
---
readings:
  disc-left: 9.7 mm; min 8.0 mm
---
-- 2026-04-12.md --
---
readings:
  disc-left: 0.97 cm
---
`,
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " cannot be compared with " + quote(strings.Join(f.Near, "")) + " at " + place(f.Other), "Give one of the two another name, or correct its unit."
	},
}
