package check

import (
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var odometerBackwards = &Check{
	Name:     journal.OdometerBackwards,
	Severity: problem.Warning,
	Summary:  "an odometer that reads less than before",
	Explain: "A buyer will ask about a reading that goes backwards. " +
		"Mostly it is a slip; where the instrument was changed, say so with `new cluster`.",
	Bad: `-- 2026-04-11.md --
---
odometer: 91252 mi
---
-- 2026-04-12.md --
---
odometer: 91225 mi
---
`,
	Good: `-- 2026-04-11.md --
---
odometer: 91252 mi
---
-- 2026-04-12.md --
---
odometer: 12 mi; new cluster
---
`,
	Say: func(f source.Fault) (string, string) {
		help := "Write \"; new cluster\" behind it if the instrument was changed."
		if f.Help != "" {
			help = f.Help
		} else if unit := unitOf(f.Why); unit != unitOf(f.Word) {
			help = "Write it in " + unit + ", or \"; new cluster\" behind it if the instrument was changed."
		} else if wholeDigits(f.Word)+1 == wholeDigits(f.Why) {
			help = "A digit may be missing, or else write \"; new cluster\" behind it if the instrument was changed."
		}
		return quote(f.Word) + " is less than " + f.Why + " at " + place(f.Other), help
	},
}

// unitOf is the unit of a distance.
func unitOf(distance string) string { return distance[strings.LastIndexByte(distance, ' ')+1:] }

// wholeDigits counts the digits of a distance before its point.
func wholeDigits(distance string) int {
	whole := strings.TrimLeft(distance, "0123456789,")
	return len(strings.ReplaceAll(strings.TrimSuffix(distance, whole), ",", ""))
}
