package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var badNumber = &Check{
	Name:     note.BadNumber,
	Severity: problem.Error,
	Summary:  "a rate, share, percentage or count that cannot be read",
	Explain: "Tax and confidence are percentages such as 20%, a share is 1/4 or 25%, a rate of exchange a plain number, and hands go from 1 to 9. " +
		"Anything else would change a sum, so the line is left out.",
	Bad:  "---\nstage: rear axle\ncost: 80.00 hire of the press; share 5/4\n---\n",
	Good: "---\nstage: rear axle\ncost: 80.00 hire of the press; share 1/4\n---\n",
	Say:  cannotRead("number"),
}
