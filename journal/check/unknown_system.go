package check

import (
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var unknownSystem = &Check{
	Name:     note.UnknownSystem,
	Severity: problem.Error,
	Summary:  "a system that no vehicle is divided into here",
	Explain: "What a part or snag belongs to decides which checks fall due and what is safety work, so it comes from a fixed list: " +
		"brakes, steering, suspension, wheels, restraints, structure, high-voltage, fuel, lighting, visibility, engine, cooling, exhaust, transmission, electrical, body, paint, interior.",
	Bad:  "---\nstage: body\nparts:\n  hose: needed brake hose; system brake\n---\n",
	Good: "---\nstage: body\nparts:\n  hose: needed brake hose; system brakes\n---\n",
	Say:  unknown("system"),
}
