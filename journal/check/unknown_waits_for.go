package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var unknownWaitsFor = &Check{
	Name:     journal.UnknownWaitsFor,
	Severity: problem.Error,
	Summary:  "a snag that waits for something that there is not",
	Explain: "A snag waits for a part or for another snag, named by its id. " +
		"One that waits for a slip of the pen would wait for ever.",
	Bad: `---
stage: rear axle
parts:
  exhaust-rubber: ordered hanger rubber
---
- [ ] temporary exhaust-hanger: hung on wire; waits for exhaust-ruber
`,
	Good: `---
stage: rear axle
parts:
  exhaust-rubber: ordered hanger rubber
---
- [ ] temporary exhaust-hanger: hung on wire; waits for exhaust-rubber
`,
	Say: func(f source.Fault) (string, string) {
		return "no part or snag called " + quote(f.Word), Nearest(f.Word, f.Near, "Declare the part under \"parts\", or open the snag, in any note.")
	},
}
