package check

import (
	"regexp"
	"slices"

	"guidecoat/journal/problem"
)

var secondAmount = &Check{
	Name:     "second-amount",
	Severity: problem.Warning,
	Summary:  "a whole number read as the price, with what looks like the price behind it",
	Explain: "The first number of a line of money is its amount, and everything behind it is description. " +
		"Four tyres at 32.00 each are `4 x 32.00 tyres`; 1,875 takes a comma or nothing, never a space.",
	Bad:  "---\nstage: body\ncost: 4 bolts 12.00\n---\n",
	Good: "---\nstage: body\ncost: 4 x 3.00 bolts\n---\n",
	Run: func(p *Pass) {
		for _, w := range p.notes() {
			for _, l := range w.note.Lines {
				if l.Bad || !slices.Contains([]string{"cost", "credit", "sold", "tools"}, l.Kind.Key) || !wholeNumber.MatchString(l.HeadSpan.Text()) {
					continue
				}
				if at := alsoAmount.FindStringSubmatchIndex(l.Words.S); at != nil {
					from, to := at[2], at[3]
					if from < 0 {
						from, to = at[4], at[5]
					}
					p.Report(l.Words.Span(from, to), quote(l.Words.S[from:to])+" is description here, and the amount is "+l.HeadSpan.Text(),
						"Write QUANTITY x PRICE, the amount first, or put a word before it if it is description.")
				}
			}
		}
	},
}

var (
	wholeNumber = regexp.MustCompile(`^\W*[0-9]+\W*$`)
	// alsoAmount is a price with pence, or a group of three digits at the very beginning.
	alsoAmount = regexp.MustCompile(`^([0-9]{3})(?:\s|$)|(?:^|[\s@×x*£€$])([0-9]+\.[0-9]{2})(?:\s|[,;)]|$)`)
)
