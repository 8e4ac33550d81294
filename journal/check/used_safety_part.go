package check

import (
	"regexp"
	"slices"

	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

// usedInWords matches words that begin by saying that the part is used.
var usedInWords = regexp.MustCompile(`(?i)^(?:used|second-?hand)\b`)

var usedSafetyPart = &Check{
	Name: "used-safety-part", Severity: problem.Warning,
	Summary: "a used part in steering, suspension, brakes or restraints",
	Explain: "Common practice is not to fit used parts here: bushes and joints wear where nobody sees it, and belts and airbags work once. " +
		"Some countries forbid it for some parts; follow local rules and the maker's data, and have it looked at by somebody licensed.",
	Example: "---\nstage: body\nparts:\nwrong|  rack: needed steering rack; used; system steering\nright|  rack: needed steering rack; reconditioned; system steering\n---\n",
	Run: func(p *Pass) {
		wearing := []string{"steering", "suspension", "brakes", "restraints"}
		for _, part := range p.State.Parts {
			ended := !part.Waited() && !part.InHand()
			at := slices.IndexFunc(part.Systems, func(s string) bool { return slices.Contains(wearing, s) })
			if ended || at < 0 {
				continue
			}
			system := part.Systems[at]
			var where source.Span
			for _, l := range part.Lines {
				words := l.Line.Words()
				if c := l.Line.Choice("condition"); c != nil {
					where = c.Span
				} else if word := usedInWords.FindString(words.S); word != "" && part.Condition == "" {
					where = words.Span(0, len(word))
				}
			}
			if where.File == nil || part.Condition != "used" && part.Condition != "" {
				continue
			}
			p.Report(where, "a used part, "+quote(part.ID)+", in the system "+quote(system),
				usedHelp[system == "restraints"])
		}
	},
}

// usedHelp says what to do, by whether it is a restraint.
var usedHelp = map[bool]string{
	false: "Bushes and joints wear: have it looked at by somebody licensed, or fit a new one.",
	true:  "A belt or airbag works once, and nobody sees what it has been through: fit a new one.",
}
