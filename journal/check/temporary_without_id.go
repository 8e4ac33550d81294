package check

import (
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var temporaryWithoutID = &Check{
	Name:     journal.TemporaryWithoutID,
	Severity: problem.Warning,
	Summary:  "a temporary fix without an id",
	Explain: "A later note clears a temporary fix by its id. " +
		"Without one it can only be ticked here, where nobody looks again.",
	Bad:  "---\nstage: rear axle\n---\n- [ ] temporary: exhaust hung on wire\n",
	Good: "---\nstage: rear axle\n---\n- [ ] temporary exhaust-hung: exhaust hung on wire\n",
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " has no id to clear it by", "Write an id behind it, such as \"temporary " + strings.Join(f.Near, "") + ":\"."
	},
}
