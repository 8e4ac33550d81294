package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var unknownDonor = &Check{
	Name:     journal.UnknownDonor,
	Severity: problem.Error,
	Summary:  "a part that is worth something of a donor that nobody tells of",
	Explain: "A part of a donor bears a share of its price. The donor stands below `donors` on the job card or in garage.md, with its price. " +
		"Without `worth`, `donor` may hold any words for a vehicle that no account is kept of.",
	Bad: `---
stage: body
parts:
  door-left: arrived left door; used; donor lark-17; worth 120
---
`,
	Good: `-- build.md --
---
build: Example estate
currency: GBP
donors:
  lark-17: 580.00 hatchback hit in the rear; on 2026-02-01
---
-- 2026-04-11.md --
---
stage: body
parts:
  door-left: arrived left door; used; donor lark-17; worth 120
---
`,
	Say: func(f source.Fault) (string, string) {
		if f.Word == "" {
			return "the part is worth something, but comes from no donor", "Write \"donor\" and its name, or leave \"worth\" out."
		}
		return "no donor called " + quote(f.Word), Nearest(f.Word, f.Near, "Write it below \"donors\" on the job card, with its price.")
	},
}
