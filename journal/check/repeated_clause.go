package check

import (
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var repeatedClause = &Check{
	Name:     note.RepeatedClause,
	Severity: problem.Error,
	Summary:  "a clause that stands twice in a line, or contradicts another",
	Explain: "A line says each thing once: one stage, one supplier, new or used but not both. " +
		"The line is left out, since nobody can tell which of the two is meant.",
	Bad:  "---\nstage: rear axle\nparts:\n  rear-beam: needed rear axle beam; new; used\n---\n",
	Good: "---\nstage: rear axle\nparts:\n  rear-beam: needed rear axle beam; new\n---\n",
	Say: func(f source.Fault) (string, string) {
		const help = "Leave one of the two out."
		if first := strings.Join(f.Near, ""); first != f.Word {
			return quote(f.Word) + " cannot stand with " + quote(first) + " at " + place(f.Other), help
		}
		return "the clause " + quote(f.Word) + " stands twice, first at " + place(f.Other), help
	},
}
