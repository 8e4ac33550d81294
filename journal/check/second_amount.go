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
		var search *clauseSearch
		for _, w := range p.notes() {
			for _, l := range w.note.Lines {
				if l.Bad || !slices.Contains([]string{"cost", "credit", "sold", "tools"}, l.Kind.Key) || !wholeNumber.MatchString(l.HeadSpan.Text()) {
					continue
				}
				if from, to := alsoAmount(l.Words.S); from < to {
					if search == nil {
						search = p.clauseSearch()
					}
					if start, _, clauses := search.in(w.note, l, l.Words); len(clauses) > 0 && start < from {
						continue // missing-semicolon says it
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
	// amounts are a group of three digits at the very beginning, a price with pence,
	// and a number behind a sign or before "each".
	amounts = regexp.MustCompile(`^([0-9]{3})(?:\s|$)|(?:^|[\s@×x*£€$])([0-9]+\.[0-9]{2})(?:\s|[,;)]|$)|` +
		`(?:@|\s[x×]\s)\s*[£€$]?([0-9]+(?:\.[0-9]+)?)p?(?:\s|[,;)]|$)|\s[£€$]?([0-9]+) each\b`)
	// A number before the sign makes both a size, as in 2 x 4 or M10 x 1.25.
	sizeBefore = regexp.MustCompile(`[0-9]\S*\s*[x×]\s*$`)
)

// alsoAmount returns where words hold what was probably meant as an amount.
func alsoAmount(words string) (from, to int) {
	for _, at := range amounts.FindAllStringSubmatchIndex(words, -1) {
		for i := 2; i < len(at); i += 2 {
			if at[i] >= 0 && !sizeBefore.MatchString(words[:at[i]]) {
				return at[i], at[i+1]
			}
		}
	}
	return 0, 0
}
