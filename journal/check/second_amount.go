package check

import (
	"regexp"
	"slices"
	"strings"

	"guidecoat/journal/measure"
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
				if p.leftOut(l) || !slices.Contains([]string{"cost", "credit", "sold", "sale", "tools"}, l.Kind.Key) {
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

// A secondRule is one way to write more of an amount, or its price, behind it.
type secondRule struct {
	written *regexp.Regexp // its groups are what to point at
	loose   bool           // only behind an amount without pence, which may be a quantity
	help    string         // %s is the amount
}

const (
	aSum     = `(?:[£€$] ?[0-9]+(?:\.[0-9]+)?|[0-9]+\.[0-9]{2})`
	writeSum = "Write the sum, or a line for each amount, and money that came back as `credit`."
)

var secondRules = []secondRule{
	// what is added to an amount or taken off it, or where a range of them ends
	{written: regexp.MustCompile(`^((?:\+|&|less|minus|plus|and|to|or|[-–−]) ?` + aSum + `)(?:[ ,;)]|$)`), help: writeSum},
	{written: regexp.MustCompile(`[^ ,][ (]+((?:\+|&|less|minus|plus) ?` + aSum + `)(?:[ ,;)]|$)`), help: writeSum},
	{written: regexp.MustCompile(`[ ,](` + aSum + `) (?:postage|post|p&p|carriage|delivery|shipping)[.)]?$`), help: writeSum},
	{written: regexp.MustCompile(`(?:^| )((?:less |minus |[-–−])[0-9.]+ ?%)(?:[ ,;)]|$)`), help: "Write what was paid."},
	{written: regexp.MustCompile(`^((?:less|minus) [0-9]+)(?:,| off| discount| for |$)`), help: writeSum},
	{written: regexp.MustCompile(`^(/ ?[0-9]+)(?: |$)`), help: "Write what was paid, or the whole price and the build's part of it as a clause, such as share 1/2."},
	// a group of three digits at the very beginning, a price with pence, a number behind a sign
	{written: regexp.MustCompile(`^([0-9]{3})(?:\s|$)|(?:^|[\s(@×x*£€$])([0-9]+\.[0-9]{2})(?:\s|[,;)]|$)|` +
		`(?:@|\s[x×]\s)\s*[£€$]?([0-9]+(?:\.[0-9]+)?)p?(?:\s|[,;)]|$)|\s([£€$] ?[0-9]+)(?:[,;)]|$)`), loose: true},
	{written: regexp.MustCompile(`\s[£€$]?([0-9]+p?) each\b|\bat ([0-9]+p)\b|^[\pL ]*s at ([0-9]{2,4})$|\s([0-9]+) the (?:pair|set|lot)\b`), loose: true},
}

var (
	// A number before the sign makes both a size, as in 2 x 4 or M10 x 1.25.
	sizeBefore = regexp.MustCompile(`[0-9]\S*\s*[x×]\s*$`)
	// no price of this line stands behind such a word
	otherPrice = regexp.MustCompile(`(?i)\b(?:rrp|was|were|from|of|no|nr|number|size|type|list|usually|normally|worth|incl|including|with)[.:]?[\s(£€$]*$`)
	// A dash before a plain number may be a dash, as in 12.50 - 0.80 mm wire.
	dashed    = regexp.MustCompile(`^[-–−] ?[0-9.]+ `)
	firstWord = regexp.MustCompile(`^[\s-]*([^\s,;)]+)`)
	unitWord  = regexp.MustCompile(`(?i)^(?:amps?|deg|degrees?|feet|foot|gauge|grit|inch|kilos?|lit(?:re|er)s?|met(?:re|er)s?|miles?|tons?|tonnes?|volts?|watts?)$`)
)

// isUnit tells whether a number before that word is measured, not paid.
func isUnit(word string) bool {
	_, known := measure.LookupUnit(word)
	return known || unitWord.MatchString(word)
}

// alsoAmount returns where the words of a line hold what was probably meant as part
// of its amount, and how that is written.
func alsoAmount(l *note.Line) (from, to int, help string) {
	a, ok := l.Amount()
	words, head := l.Words().S, l.HeadSpan().Text()
	if !ok || dashed.MatchString(words) {
		return 0, 0, ""
	}
	for _, r := range secondRules {
		if r.loose && (a.Places > 1 || a.Code != "") {
			continue
		}
		for _, at := range r.written.FindAllStringSubmatchIndex(words, -1) {
			from, to := group(at)
			next := firstWord.FindStringSubmatch(words[to:])
			if sizeBefore.MatchString(words[:from]) || otherPrice.MatchString(words[:from]) || next != nil && isUnit(next[1]) {
				continue
			}
			switch {
			case !r.loose:
				return from, to, strings.ReplaceAll(r.help, "%s", head)
			case a.Currency.Digits < 2:
				return from, to, "Write QUANTITY x PRICE, or the amount first."
			}
			return from, to, "Write QUANTITY x PRICE, the amount first, or " + withPence(head, a.Places) + " if that is the amount."
		}
	}
	return 0, 0, ""
}

// withPence is an amount as typed with both its decimals.
func withPence(head string, places int32) string {
	if places == 0 {
		head += "."
	}
	return head + strings.Repeat("0", int(2-places))
}
