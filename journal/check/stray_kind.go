package check

import (
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var strayKind = &Check{
	Name:     journal.StrayKind,
	Severity: problem.Warning,
	Summary:  "a kind of snag that reads as plain words",
	Explain: "A kind counts only before a colon, alone or with one id. " +
		"Here more words follow, so the item is an ordinary job.",
	Bad:  "---\nstage: rear axle\n---\n- [ ] inspect left rail behind the bumper\n",
	Good: "---\nstage: rear axle\n---\n- [ ] inspect left-rail: behind the bumper\n",
	Say: func(f source.Fault) (string, string) {
		if f.Help != "" {
			return quote(f.Word) + " is taken as plain words, not as an id", f.Help
		}
		kind, _, _ := strings.Cut(f.Word, " ")
		if f.Why != "" {
			return quote(f.Word) + " is taken as plain words, since " + quote(f.Why) + " has no hyphen and so is no id",
				"Put a hyphen into it, such as \"" + kind + " " + strings.ToLower(f.Why) + "-1: \", or write \"" + kind + ": \" alone."
		}
		return quote(f.Word) + " is taken as plain words, not as a kind of snag", "Write \"" + kind + ": \" or \"" + kind + " ID: \" at its beginning."
	},
}
