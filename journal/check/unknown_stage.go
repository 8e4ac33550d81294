package check

import (
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var unknownStage = &Check{
	Name:     journal.UnknownStage,
	Severity: problem.Error,
	Summary:  "a stage that the job card does not list",
	Explain: "Time, money and snags are added up by stage, so a stage must be spelled exactly as on the job card. " +
		"A line that names another is left out; a note whose own stage is unknown keeps its lines, unstaged.",
	Bad:  "---\nstage: rear axel\n---\n",
	Good: "---\nstage: rear axle\n---\n",
	Say: func(f source.Fault) (string, string) {
		help := Nearest(f.Word, f.Near, "The stages are listed in build.md.")
		if mostLikely(f.Word, f.Near) == "" && len(f.Near) > 0 && len(f.Near) <= fewWords {
			help = "Choose from " + strings.Join(f.Near, ", ") + ", or list it in build.md."
		}
		return "no stage called " + quote(f.Word) + disguise(f), help
	},
}
