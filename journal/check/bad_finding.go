package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var badFinding = &Check{
	Name:     note.BadFinding,
	Severity: problem.Error,
	Summary:  "what an inspection found, without how bad it is, or with no item of the directive",
	Explain: "A line below `found` begins with dangerous, major, minor or advisory, as the sheet grades it. The number that may follow is the item of Annex I of " +
		"Directive 2014/45/EU, such as 1.1.13; other numbers are words, but for those with a point in them.",
	Bad:  "---\ninspection: failed\nfound:\n  rear-pads: serious 1.1.13 right rear down to the metal\n---\n",
	Good: "---\ninspection: failed\nfound:\n  rear-pads: dangerous 1.1.13 right rear down to the metal\n---\n",
	Say:  cannotRead("finding"),
}
