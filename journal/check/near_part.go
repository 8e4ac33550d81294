package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var nearPart = &Check{
	Name:     journal.NearPart,
	Severity: problem.Warning,
	Summary:  "a new part whose id is a letter or two from a known one",
	Explain: "The first line that names an id declares a part, so a slip in the id opens a second one. " +
		"What was paid for the first then stays with it, and the first never gets further.",
	Bad: `---
stage: body
parts:
  - radiator: needed new radiator
  - raditor: ordered radiator, from the coast
---
`,
	Good: `---
stage: body
parts:
  - radiator: needed new radiator
  - radiator: ordered from the coast
---
`,
	Say: func(f source.Fault) (string, string) {
		return "the part " + quote(f.Word) + " is new, and close to " + quote(f.Near[0]), "Nearest: " + quote(f.Near[0]) + ". Tell the two apart by more than a letter if they are not one part."
	},
}
