package check

import (
	"fmt"
	"regexp"
	"slices"

	"guidecoat/journal/measure"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var decimalMinutes = &Check{
	Name: "decimal-minutes", Severity: problem.Warning,
	Summary: "hours with two decimals that look like minutes",
	Explain: "The point in `1.30h` is a decimal one, so that is 1h 18m. " +
		"Quarters, halves and thirds of an hour are taken as meant.",
	Example: "---\nstage: body\nwrong|time: 1.30h filler\nright|time: 1h30 filler\n---\n",
	Run: func(p *Pass) {
		for _, w := range p.notes {
			for _, l := range w.note.Lines {
				if m, ok := l.Head.(measure.Minutes); ok && !p.leftOut(l) {
					p.decimalMinutes(l.HeadSpan(), m)
				}
			}
			for _, it := range w.note.Items {
				if c := it.Clause("takes"); c != nil && !p.leftOut(it.Line) {
					if m, ok := c.Value.(measure.Minutes); ok {
						p.decimalMinutes(c.Arg.Whole(), m)
					}
				}
			}
		}
	},
}

// twoDecimals are hours with what may be minutes behind the point.
var twoDecimals = regexp.MustCompile(`^([0-9]+)\.([0-5][0-9]) *h`)

func (p *Pass) decimalMinutes(at source.Span, m measure.Minutes) {
	digits := twoDecimals.FindStringSubmatch(at.Text())
	if digits == nil || slices.Contains([]string{"00", "25", "33", "50"}, digits[2]) {
		return
	}
	p.Report(at, fmt.Sprintf("%q is %s", at.Text(), m), fmt.Sprintf("Write %sh%s if these are minutes, or %s if it is right.", digits[1], digits[2], m))
}
