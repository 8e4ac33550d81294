package check

import (
	"regexp"
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var secondState = &Check{
	Name: "second-state", Severity: problem.Warning,
	Summary: "a line of a part with a second state in its words",
	Explain: "A line takes a part to one state, its first word. " +
		"A part that came and was fitted on one day is fitted.",
	Example: "---\nstage: body\nparts:\n  - door-seal: needed door seal; free\nwrong|  - door-seal: arrived and fitted\nright|  - door-seal: fitted on the day it arrived\n---\n",
	Run: func(p *Pass) {
		for _, part := range p.State.Parts {
			for _, l := range part.Lines {
				if !p.looks(l.Session) {
					continue
				}
				words := l.Line.Words()
				if at := another.FindStringSubmatchIndex(words.S); at != nil && words.S[at[2]:at[3]] != l.State {
					state := words.S[at[2]:at[3]]
					p.Report(words.Span(at[2], at[3]), quote(part.ID)+" is "+l.State+", and not "+state, "Write "+quote(state)+" as the first word if that is its state, or a line for each.")
				}
			}
		}
	},
}

// another finds a state behind the first, where nothing but the end or a mark follows.
var another = regexp.MustCompile(`^(?:(?:and then|and|then|&|\+|/|,)\s*)?(` + strings.Join(note.States, "|") + `)(?:$|[.,;!])`)
