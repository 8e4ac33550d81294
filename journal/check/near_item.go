package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var nearItem = &Check{
	Name:     note.NearItem,
	Severity: problem.Error,
	Summary:  "a line that is nearly a task-list item",
	Explain: "A task-list item begins with a dash and a box with nothing but a space or an x in it. " +
		"In Markdown anything else is plain words, and what is outstanding would be forgotten.",
	Bad:  "---\nstage: rear axle\n---\n- TODO tow-socket: rewire it\n",
	Good: "---\nstage: rear axle\n---\n- [ ] job tow-socket: rewire it\n",
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " is no task-list item",
			"Begin it with \"- [ ] \" if it is open, \"- [x] \" if it is done, or with \"\\[\" if these are plain words."
	},
}
