package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var undatedItems = &Check{
	Name:     journal.UndatedItems,
	Severity: problem.Warning,
	Summary:  "a file without a date that holds task-list items",
	Explain: "Only the items of sessions are snags, and a session has a date. " +
		"What stands in a list of your own is outstanding nowhere; a list of your own that is meant so has other points, such as `- buy grease`.",
	Bad:  "-- todo.md --\n- [ ] temporary exhaust-hanger: hung on wire\n",
	Good: "-- 2026-04-11.md --\n- [ ] temporary exhaust-hanger: hung on wire\n",
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " holds items, but no date makes it a session, and they count nowhere", "Begin its name with a date, or move the items into a session."
	},
}
