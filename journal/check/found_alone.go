package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var foundAlone = &Check{
	Name:     journal.FoundAlone,
	Severity: problem.Error,
	Summary:  "something found by an inspection that the note does not have",
	Explain:  "What stands below `found` is what the sheet of an official inspection lists. Write in the same note how that went, or make it an item of the body if you found it yourself.",
	Bad:      "---\nfound:\n  rear-pads: dangerous 1.1.13 right rear down to the metal\n---\n",
	Good:     "---\ninspection: failed; by Marl Test Station\nfound:\n  rear-pads: dangerous 1.1.13 right rear down to the metal\n---\n",
	Say: func(f source.Fault) (string, string) {
		return quote(f.Word) + " was found, but the note has no inspection", "Write \"inspection: failed\" or \"inspection: passed\" above it."
	},
}
