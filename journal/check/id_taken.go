package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var idTaken = &Check{
	Name:     journal.IDTaken,
	Severity: problem.Error,
	Summary:  "an id that already names something else",
	Explain: "Parts, snags, checks that fall due, readings, scans and surcharges share their ids, so that `waits for` and a tick mean one thing. " +
		"Choose another id.",
	Bad: `---
stage: rear axle
parts:
  rear-beam: needed rear axle beam
---
- [ ] job rear-beam: paint it before it goes in
`,
	Good: `---
stage: rear axle
parts:
  rear-beam: needed rear axle beam
---
- [ ] job beam-paint: paint it before it goes in; waits for rear-beam
`,
	Say: func(f source.Fault) (string, string) {
		at := ""
		if f.Other.File != nil {
			at = ", at " + place(f.Other)
		}
		return quote(f.Word) + " already names a " + f.Why + at, "Choose another id."
	},
}
