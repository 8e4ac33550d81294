package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var unknownCategory = &Check{
	Name:     note.UnknownCategory,
	Severity: problem.Error,
	Summary:  "a category of costs or credits that there is not",
	Explain: "Costs are vehicle, fees, transport, parts, paint, consumables, labour, tools or sundries. " +
		"Money back is refund, surcharge, spares or scrap. Without `as` a cost belongs to parts if it is for one, otherwise to sundries.",
	Bad:  "---\nstage: rear axle\ncost: 6.49 copper grease; as consumable\n---\n",
	Good: "---\nstage: rear axle\ncost: 6.49 copper grease; as consumables\n---\n",
	Say:  unknown("category"),
}
