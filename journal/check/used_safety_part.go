package check

import (
	"slices"

	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var usedSafetyPart = &Check{
	Name:     "used-safety-part",
	Severity: problem.Warning,
	Summary:  "a used part in steering, suspension, brakes or restraints",
	Explain: "Common practice is not to fit used parts here: bushes and joints wear where nobody sees it, and belts and airbags work once. " +
		"Some countries forbid it for some parts; follow local rules and the maker's data, and have it looked at by somebody licensed.",
	Bad:  "---\nstage: body\nparts:\n  rack: needed steering rack; used; system steering\n---\n",
	Good: "---\nstage: body\nparts:\n  rack: needed steering rack; reconditioned; system steering\n---\n",
	Run: func(p *Pass) {
		wearing := []string{"steering", "suspension", "brakes", "restraints"}
		for _, part := range p.State.Parts {
			ended := !part.Waited() && !part.InHand()
			if part.Condition != "used" || ended || !slices.Contains(wearing, part.System) {
				continue
			}
			var at source.Span
			for _, l := range part.Lines {
				if c := l.Line.Choice("condition"); c != nil {
					at = c.Span
				}
			}
			p.Report(at, "a used part, "+quote(part.ID)+", in the system "+quote(part.System),
				"Bushes and joints wear: have it looked at by somebody licensed, or fit a new one.")
		}
	},
}
