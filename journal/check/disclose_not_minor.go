package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var discloseNotMinor = &Check{
	Name:     journal.DiscloseNotMinor,
	Severity: problem.Error,
	Summary:  "a snag left for the buyer that is more than minor",
	Explain: "Only what does not touch safety may be told to the buyer instead of being mended, and a temporary fix never. " +
		"Snags of safety systems are major unless they say otherwise.",
	Bad:  "---\nstage: body\n---\n- [ ] job rail-end: left rail end still bent; major; disclose\n",
	Good: "---\nstage: body\n---\n- [ ] job door-scratch: scratch under the handle; minor; disclose\n",
	Say: func(f source.Fault) (string, string) {
		if f.Why == "temporary" {
			return "\"disclose\" on a temporary fix", "Mend it for good: a temporary fix cannot be left for the buyer, however minor."
		}
		return "\"disclose\" on a snag that is " + f.Why, "Mend it, or write \"minor\" if it does not touch safety."
	},
}
