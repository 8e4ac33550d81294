package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var fastenerAlone = &Check{
	Name:     journal.FastenerAlone,
	Severity: problem.Error,
	Summary:  "a fastener of the job card that is of no part",
	Explain:  "A fastener is outstanding from the fitting of its part on, so the card must say which part it holds. Write `of` and the part's id.",
	Bad:      fastenerCard("60 Nm + 90°; single use"),
	Good:     fastenerCard("60 Nm + 90°; of arm-left; single use"),
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " does not say which part it holds", "Write \"of PART\", such as \"of arm-left\"."
	},
}

// fastenerCard is a build whose card lists a fastener.
func fastenerCard(line string) string {
	return "-- 2026-04-11.md --\n---\nparts:\n  arm-left: ordered lower arm, left; new\n---\n-- build.md --\n---\nbuild: Halden Fjord estate\ncurrency: GBP\nfasteners:\n  arm-pinch: " + line + "\n---\n"
}
