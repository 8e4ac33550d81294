package check

import (
	"slices"
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var sameLine = &Check{
	Name:     "same-line",
	Severity: problem.Warning,
	Summary:  "the same money twice in one note",
	Explain: "A line of cost or credit that was pasted or typed twice counts twice, and no total looks wrong by it. " +
		"Take one out, or write `; sure` behind it if it was paid twice.",
	Example: "---\nstage: body\ncost:\n  - 64.00 filler; from Tidewell Dismantlers\nwrong|  - 64.00 filler; from Tidewell Dismantlers\nright|  - 12.00 paper\n---\n",
	Run: func(p *Pass) {
		for _, w := range p.notes {
			first := map[string]source.Span{}
			for _, l := range w.note.Lines {
				if !strings.Contains("cost credit", l.Kind.Key) || p.leftOut(l) {
					continue
				}
				said := alike(l)
				if at, twice := first[said]; twice {
					p.Report(l.Text.Whole(), "the same as at "+place(at)+", so it counts twice", "Delete one of the two, or write \"; sure\" behind this one if it was paid twice.")
				} else {
					first[said] = l.Text.Whole()
				}
			}
		}
	},
}

// alike is what a line says, whatever the order of its clauses, its spaces and its capitals.
func alike(l *note.Line) string {
	said := pick.Map(pick.Where(l.Clauses, func(c note.Found) bool { return c.Word != "sure" }), func(c note.Found) string { return c.Word + " " + c.Arg.S })
	slices.Sort(said)
	said = append(said, l.Kind.Key, l.HeadSpan().Text(), l.Words().S)
	return strings.ToLower(strings.Join(strings.Fields(strings.Join(said, "; ")), " "))
}
