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
			lines := pick.Where(w.note.Lines, func(l *note.Line) bool { return strings.Contains("cost credit", l.Kind.Key) && !p.leftOut(l) })
			sums := map[string]int{} // by the head alone, since few are alike
			for _, l := range lines {
				sums[sumOf(l)]++
			}
			first := map[string]source.Span{}
			for _, l := range lines {
				if sums[sumOf(l)] == 1 {
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

func sumOf(l *note.Line) string { return strings.ToLower(l.HeadSpan().Text()) }

// alike is what a line says, whatever the order of its clauses, its spaces and its capitals.
func alike(l *note.Line) string {
	said := pick.Map(pick.Where(l.Clauses, func(c note.Found) bool { return c.Word != "sure" }), func(c note.Found) string { return c.Word + " " + c.Arg.S })
	slices.Sort(said)
	said = append(said, l.Kind.Key, sumOf(l), l.Words().S)
	return strings.ToLower(strings.Join(strings.Fields(strings.Join(said, "; ")), " "))
}
