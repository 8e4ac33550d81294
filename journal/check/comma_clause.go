package check

import (
	"regexp"
	"slices"
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var commaClause = &Check{
	Name:     "comma-clause",
	Severity: problem.Warning,
	Summary:  "`private` or `hands` at the end of other words, where it is no clause",
	Explain: "Behind a comma, a dash or in brackets they are words like any other: the line is shown, and the hours count once. " +
		"A clause begins behind a semicolon.",
	Bad:  "---\nstage: body\ntime: 3h filler, private\n---\n",
	Good: "---\nstage: body\ntime: 3h filler; private\n---\n",
	Run: func(p *Pass) {
		for _, w := range p.notes() {
			for _, l := range w.note.Lines {
				p.commaClause(l)
			}
			for _, it := range w.note.Items {
				p.commaClause(it.Line)
			}
		}
	},
}

// endsInClause finds what was probably meant as a clause.
var endsInClause = regexp.MustCompile(`(?i)(?:[,–—-] *|[(\[] *)(private|hands [1-9])[.)\]]*$`)

func (p *Pass) commaClause(l *note.Line) {
	if l.Bad {
		return
	}
	p.clauseAtEnd(l, l.Words)
	for _, c := range l.Clauses {
		p.clauseAtEnd(l, c.Arg)
	}
}

func (p *Pass) clauseAtEnd(l *note.Line, t note.Text) {
	if t.S == "" {
		return
	}
	at := endsInClause.FindStringSubmatchIndex(t.S)
	if at == nil {
		return
	}
	word := strings.ToLower(t.S[at[2]:at[3]])
	name, _, _ := strings.Cut(word, " ")
	if l.Has(name) || !slices.ContainsFunc(l.Kind.Clauses, func(c note.Clause) bool { return c.Word == name }) {
		return
	}
	p.Report(t.Span(at[2], at[3]), quote(word)+" is part of other words here, and does nothing", "Write \"; "+word+"\" if it is meant as a clause.")
}
