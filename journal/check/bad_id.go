package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var badID = &Check{
	Name:     note.BadID,
	Severity: problem.Error,
	Summary:  "an id that is not lower-case words joined by hyphens",
	Explain: "Parts, snags, checks and readings are called by an id, such as rear-beam, that is spelled the same in every note. " +
		"Small letters, digits and hyphens leave no room for two spellings of one thing.",
	Bad:  "---\nstage: rear axle\nparts:\n  Rear Beam: needed rear axle beam\n---\n",
	Good: "---\nstage: rear axle\nparts:\n  rear-beam: needed rear axle beam\n---\n",
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " cannot be an id: " + f.Why, f.Help
	},
}
