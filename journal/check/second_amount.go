package check

import (
	"regexp"
	"slices"

	"guidecoat/journal/note"
	"guidecoat/journal/problem"
)

var secondAmount = &Check{
	Name:     "second-amount",
	Severity: problem.Warning,
	Summary:  "an amount with what looks like its price, or more of it, in the words behind",
	Explain: "The first number of a line of money is its amount, and everything behind it is description. " +
		"Four tyres at 32.00 each are `4 x 32.00 tyres`; 1,875 takes a comma or nothing, never a space. Sums are not worked out.",
	Bad:  "---\nstage: body\ncost: 4 bolts 12.00\n---\n",
	Good: "---\nstage: body\ncost: 4 x 3.00 bolts\n---\n",
	Run: func(p *Pass) {
		var search *clauseSearch
		for _, w := range p.notes() {
			for _, l := range w.note.Lines {
				if l.Bad || !slices.Contains([]string{"cost", "credit", "sold", "tools"}, l.Kind.Key) {
					continue
				}
				from, to, help := alsoAmount(l)
				if from == to {
					continue
				}
				if search == nil {
					search = p.clauseSearch()
				}
				if start, _, clauses := search.in(w.note, l, l.Words()); len(clauses) > 0 && start < from {
					continue // missing-semicolon says it
				}
				p.Report(l.Words().Span(from, to), quote(l.Words().S[from:to])+" is description here, and the amount is "+l.HeadSpan().Text(), help)
			}
		}
	},
}

var (
	wholeNumber = regexp.MustCompile(`^\W*[0-9]+\W*$`)
	// amounts are a group of three digits at the very beginning, a price with pence,
	// and a number behind a sign or before "each".
	amounts = regexp.MustCompile(`^([0-9]{3})(?:\s|$)|(?:^|[\s@×x*£€$])([0-9]+\.[0-9]{2})(?:\s|[,;)]|$)|` +
		`(?:@|\s[x×]\s)\s*[£€$]?([0-9]+(?:\.[0-9]+)?)p?(?:\s|[,;)]|$)|\s[£€$]?([0-9]+p?) each\b|\bat ([0-9]+p)\b`)
	// A number before the sign makes both a size, as in 2 x 4 or M10 x 1.25.
	sizeBefore = regexp.MustCompile(`[0-9]\S*\s*[x×]\s*$`)
	// terms are what is added to an amount or taken off it, or where a range of them ends.
	terms = regexp.MustCompile(`^((?:\+|less|minus|plus|and|to|or|[-–−]) ?(?:[£€$] ?[0-9]+(?:\.[0-9]+)?|[0-9]+\.[0-9]{2}))(?:[ ,;)]|$)`)
	// A dash before a plain number may be a dash, as in 12.50 - 0.80 mm wire.
	dashed = regexp.MustCompile(`^[-–−] ?[0-9.]+ `)
	each   = regexp.MustCompile(`^(each|apiece)(?:[,.)]|$)`)
)

// alsoAmount returns where the words of a line hold what was probably meant as part
// of its amount, and how that is written.
func alsoAmount(l *note.Line) (from, to int, help string) {
	words := l.Words().S
	if at := terms.FindStringSubmatchIndex(words); at != nil && !dashed.MatchString(words) {
		return at[2], at[3], "Write the sum, or a line for each amount, and money that came back as `credit`."
	}
	if a, ok := l.Head.(note.Amount); ok && !a.HasQuantity {
		if at := each.FindStringSubmatchIndex(words); at != nil {
			return at[2], at[3], "Write QUANTITY x PRICE, such as 4 x " + l.HeadSpan().Text() + "."
		}
	}
	if !wholeNumber.MatchString(l.HeadSpan().Text()) {
		return 0, 0, ""
	}
	for _, at := range amounts.FindAllStringSubmatchIndex(words, -1) {
		for i := 2; i < len(at); i += 2 {
			if at[i] >= 0 && !sizeBefore.MatchString(words[:at[i]]) {
				return at[i], at[i+1], "Write QUANTITY x PRICE, the amount first, or put a word before it if it is description."
			}
		}
	}
	return 0, 0, ""
}
