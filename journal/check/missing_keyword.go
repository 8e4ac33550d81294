package check

import (
	"regexp"

	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var missingKeyword = &Check{
	Name:     "missing-keyword",
	Severity: problem.Warning,
	Summary:  "a budget, an estimate or a distance without its keyword, read as words",
	Explain: "Figures count where a clause says what they are. " +
		"In the words of a stage, a part or a check they are only read by people.",
	Bad:  "---\nstage: body\nodometer: 91252 mi\nchecks:\n  lamp-aim: done 91310 mi\n---\n",
	Good: "---\nstage: body\nodometer: 91252 mi\nchecks:\n  lamp-aim: done; at 91310 mi\n---\n",
	Run: func(p *Pass) {
		for _, w := range p.notes() {
			for _, l := range w.note.Lines {
				p.missingKeyword(l)
			}
		}
	},
}

// A figure is what the words of a line begin or end with, and the clause it lacks.
type figure struct {
	written *regexp.Regexp
	keyword string
}

const sums = `[£€$]?[0-9][0-9.,]*(?: [£€$]?[0-9][0-9.,]*){0,2}`

// figures are those of each kind of line.
var figures = map[string]figure{
	"stages": {regexp.MustCompile(`^(` + sums + `)$`), "budget"},
	"checks": {regexp.MustCompile(`^([0-9][0-9.,]* ?(?:km|mi|miles))(?:[ ,]|$)`), "at"},
	"parts":  {regexp.MustCompile(`(?:^|[ (])([£€$][0-9][0-9.,]*(?:[ -]+[£€$]?[0-9][0-9.,]*){0,2})\)?$`), "estimate"},
}

func (p *Pass) missingKeyword(l *note.Line) {
	f, ok := figures[l.Kind.Key]
	if !ok || l.Bad || l.Has(f.keyword) {
		return
	}
	if state, _ := l.Head.(string); l.Kind.Key == "parts" && state != "needed" && state != "ordered" {
		return
	}
	if at := f.written.FindStringSubmatchIndex(l.Words().S); at != nil {
		figure := l.Words().S[at[2]:at[3]]
		p.Report(l.Words().Span(at[2], at[3]), quote(figure)+" is part of the words here, and does nothing",
			"Write \"; "+f.keyword+" "+figure+"\" if that is what it is.")
	}
}
