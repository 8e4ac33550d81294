package check

import "guidecoat/journal/problem"

var nothingBefore = &Check{
	Name: "nothing-before", Severity: problem.Warning,
	Summary: "work on high voltage, restraints or structure without what has to come before it",
	Explain: "Some work can kill whoever does it, or others: high voltage is isolated and proved dead first, an airbag's battery is off for as long as its maker " +
		"says, and before welding the battery is off, the fuel safe and somebody watching for fire. Write that check in the same note or in an earlier one of that day. " +
		"Where the work touched nothing of the kind, say `asks for nothing` on the part's line, or `sure` on a line of time.",
	Example: "---\nstage: body\nparts:\n  rail-end-left: refitted rail end, left, welded; system structure\nright|checks:\nright|  weld-ready: done battery off, tank shielded, Pia watched\n---\n",
	Run: func(p *Pass) {
		for _, u := range p.all().Unprepared() {
			message, help := "work on "+u.System+" without "+quote(u.Rule.Name)+" before it", "Write it under \"checks\" in the same note if it was done ("+u.Rule.Does+"), else \"asks for nothing\" or \"sure\" on the line."
			if u.After != nil {
				message = "work on " + u.System + ", and " + quote(u.Rule.Name) + " only comes after it, at " + place(u.After.Line.NameSpan())
			}
			p.Report(u.At, message, help)
		}
	},
}
