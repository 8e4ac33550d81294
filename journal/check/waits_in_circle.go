package check

import (
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var waitsInCircle = &Check{
	Name:     journal.WaitsInCircle,
	Severity: problem.Error,
	Summary:  "snags that wait for each other",
	Explain: "If each of them waits for the next one round, none can ever be begun. " +
		"Take out the wait that is not needed.",
	Bad: `---
stage: rear axle
---
- [ ] job arch-paint: paint the arch; waits for arch-seal
- [ ] job arch-seal: seal the seam; waits for arch-paint
`,
	Good: `---
stage: rear axle
---
- [ ] job arch-paint: paint the arch; waits for arch-seal
- [ ] job arch-seal: seal the seam
`,
	Say: func(f source.Fault) (string, string) {
		const help = "Take out the wait that is not needed."
		own := strings.Join(f.Near, "")
		if own == f.Word {
			return quote(own) + " waits for itself", help
		}
		return quote(own) + " cannot wait for " + quote(f.Word) + ", which waits for it", help
	},
}
