package check

import (
	"regexp"
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/money"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var missingKeyword = &Check{
	Name:     "missing-keyword",
	Severity: problem.Warning,
	Summary:  "a budget, an estimate, a price or a distance that is read as words",
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

const (
	plainSum = `[£€$]?[0-9][0-9.,]*`
	sums     = plainSum + `(?: ` + plainSum + `){0,2}`
	// surelySums are with pence or a symbol, or three.
	surelySums = `(?:[£€$] ?[0-9][0-9.,]*|[0-9][0-9,]*\.[0-9]{2})(?:[ -]+` + plainSum + `){0,2}|` + plainSum + ` ` + plainSum + ` ` + plainSum
)

var sumAtEnd = regexp.MustCompile(`(?:^|[ (])(` + surelySums + `)\)?$`)

// figures are those of each kind of line.
var figures = map[string]figure{
	"stages": {regexp.MustCompile(`^(` + sums + `)$|(?:^|[ (])(` + surelySums + `)\)?$`), "budget"},
	"checks": {regexp.MustCompile(`^([0-9][0-9.,]* ?(?:km|mi|miles))(?:[ ,]|$)`), "at"},
	"parts":  {sumAtEnd, "estimate"},
}

func (p *Pass) missingKeyword(l *note.Line) {
	f, ok := figures[l.Kind.Key]
	if !ok || p.leftOut(l) || l.Has(f.keyword) {
		return
	}
	at := f.written.FindStringSubmatchIndex(l.Words().S)
	if at == nil {
		return
	}
	from, to := group(at)
	figure := l.Words().S[from:to]
	if before := l.Words().S[:from]; otherPrice.MatchString(before) || sizeBefore.MatchString(before) || falling(figure) {
		return
	}
	what, help := "is part of the words here, and does nothing", "Write \"; "+f.keyword+" "+figure+"\" if that is what it is."
	if l.Kind.Key == "parts" {
		switch state, _ := l.Head.(string); {
		case state == "sold" && !p.credited(l.Name):
			what, help = "is part of the words here, and no money came in", "Write \"credit: "+figure+" "+l.Name+"; as spares; for "+l.Name+"\" if it was paid."
		case state != "needed" && state != "ordered":
			return
		}
	}
	p.Report(l.Words().Span(from, to), quote(figure)+" "+what, help)
}

// falling tells whether a figure is three numbers that do not rise, as on a tyre.
func falling(figure string) bool {
	_, bad := money.ParseThree(figure, money.Currency{})
	return bad != nil && len(strings.Fields(figure)) == 3
}

// credited tells whether money came in for a part.
func (p *Pass) credited(part string) bool {
	return slices.ContainsFunc(p.State.Build.Money, func(m *journal.Money) bool { return m.Credit && m.Part == part })
}
