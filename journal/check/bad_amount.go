package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var badAmount = &Check{
	Name:     note.BadAmount,
	Severity: problem.Error,
	Summary:  "an amount of money that cannot be read",
	Explain: "An amount is a number with a point before the pence, such as 64.00, £64, 64.00 EUR or 3 x 4.99. " +
		"It is never guessed: 12,50 could be twelve pounds fifty or a slip of 1,250. Money back is written under `credit`, not with a minus.",
	Bad:  "---\nstage: rear axle\ncost: 12,50 copper grease\n---\n",
	Good: "---\nstage: rear axle\ncost: 12.50 copper grease\n---\n",
	Say:  cannotRead("amount"),
}
