package check

import (
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var similarStage = &Check{
	Name:     journal.SimilarStage,
	Severity: problem.Warning,
	Summary:  "two stages that differ by a letter or two",
	Explain: "Where the job card lists no stages every stage that a note names is taken as it is spelled, and its costs are counted apart. " +
		"List the stages in build.md, each once, and a slip becomes an error.",
	Bad: `-- 2026-04-11.md --
---
stage: rear axle
---
-- 2026-04-12.md --
---
stage: rear axel
---
-- build.md --
---
build: Halden Fjord estate
currency: GBP
---
`,
	Good: `-- 2026-04-11.md --
---
stage: rear axle
---
-- 2026-04-12.md --
---
stage: rear axle
---
-- build.md --
---
build: Halden Fjord estate
currency: GBP
---
`,
	Say: func(f source.Fault) (string, string) {
		if f.Help != "" {
			return "the stage " + quote(f.Word) + " is close to " + quote(f.Near[0]), f.Help
		}
		return "the stage " + quote(f.Word) + " is new, and close to " + quote(strings.Join(f.Near, "")), "Nearest: " + quote(strings.Join(f.Near, "")) + ". Spell both the same, or list the stages in build.md."
	},
}
