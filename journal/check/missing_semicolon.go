package check

import (
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var missingSemicolon = &Check{
	Name:     "missing-semicolon",
	Severity: problem.Warning,
	Summary:  "a clause at the end of other words, where it is none",
	Explain: "Without a semicolon a clause is words like any other: the hours count once, the price goes to no part. " +
		"Only a keyword with a value of its own form, or the name of a known part or stage, is reported, and a severity behind a comma.",
	Bad:  "---\nstage: body\ncost: 144.00 delivery as transport\n---\n",
	Good: "---\nstage: body\ncost: 144.00 delivery; as transport\n---\n",
	Run: func(p *Pass) {
		known := map[string]bool{}
		for _, part := range p.State.Build.PartLines {
			isName := strings.Contains(part.ID, "-") // a word without one is an ordinary word
			known["for "+part.ID], known["waits for "+part.ID] = isName, isName
		}
		for _, stage := range p.State.Build.Stages {
			known["stage "+stage.Name] = true
		}
		for _, w := range p.notes() {
			for _, l := range w.note.Lines {
				p.missingSemicolon(known, w.note, l)
			}
			for _, it := range w.note.Items {
				p.missingSemicolon(known, w.note, it.Line)
			}
		}
	},
}

// searched is how much of the end of a text is looked at.
const searched = 100

func (p *Pass) missingSemicolon(known map[string]bool, n *note.Note, l *note.Line) {
	if p.leftOut(l) || len(l.Kind.Clauses) == 0 {
		return
	}
	texts := []note.Text{l.Words()}
	for _, c := range l.Clauses {
		texts = append(texts, c.Arg)
	}
	for _, t := range texts {
		end := len(strings.TrimRight(t.S, " .!)"))
		for at := max(0, end-searched); at < end; at++ {
			if at > 0 && strings.IndexByte(" (,", t.S[at-1]) < 0 {
				continue
			}
			if f := n.ClauseIn(l, t, at, end); f != nil && !l.Has(f.Word) && (typed(l, f) || known[t.S[at:end]] || f.Group == "severity" && strings.HasSuffix(t.S[:at], ", ")) {
				p.ReportFix(t.Span(at, end), quote(t.S[at:end])+" is part of other words here, and does nothing", "Write \"; "+t.S[at:end]+"\" if it is meant as a clause.",
					&source.Fix{Span: t.Span(len(strings.TrimRight(t.S[:at], " \t,(")), end), Text: "; " + t.S[at:end]})
				break
			}
		}
	}
}

// typed tells whether a clause has a value that words seldom have by chance: a date, a
// number, one of a list. What takes a while need not be a job, and much has a rate or is due.
func typed(l *note.Line, f *note.Found) bool {
	if f.Clause.Value == nil || f.Value == nil || f.Word == "takes" || f.Word == "rate" || f.Word == "due" && l.Kind.Key == "cost" {
		return false
	}
	_, words := f.Value.(string)
	return !words || f.Clause.Value.Near != nil
}
