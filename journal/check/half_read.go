package check

import (
	"regexp"
	"slices"
	"strings"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"

	"github.com/shopspring/decimal"
)

var halfRead = &Check{
	Name: "half-read", Severity: problem.Warning,
	Summary: "money, tax, time or a limit in a description, where it counts nowhere",
	Explain: "The first value of a line is what counts, and everything behind it is description. " +
		"A second amount, tax that comes on top, more time and what a reading should be are lost there.",
	Example: "---\nstage: body\nwrong|cost: 12.00 hose (3.50 postage on top)\nright|cost:\nright|  - 12.00 hose\nright|  - 3.50 postage of the hose\n---\n",
	Run: func(p *Pass) {
		for _, w := range p.notes {
			for _, l := range w.note.Lines {
				if at, help := leftOut(l); at.S != "" && !p.leftOut(l) {
					p.Report(at.Whole(), quote(at.S)+" is description here, and counts nowhere", help)
				}
			}
		}
	},
}

const (
	anAmount = `(?:[£€$] ?[0-9][0-9,]*(?:\.[0-9]+)?|[0-9][0-9,]*\.[0-9]{2})`
	aTime    = `(?:[0-9]+(?:\.[0-9]+)? ?(?:h|hrs?|hours?)(?: ?[0-9]{1,2} ?(?:m|mins?))?|[0-9]*[05](?:m| ?mins?| ?minutes)|half an hour|an hour)`
)

// A pattern finds what of the words of a line was meant to count: its first group.
type pattern struct {
	written *regexp.Regexp
	help    string
	bare    bool // only behind an amount without pence or currency, which may be a quantity
}

var (
	priceOf = pattern{regexp.MustCompile(`(?:^|[ (])(?:at |@ ?|[x×*] ?)?(` + anAmount + `)\)?$|[x×@] ?(` + anAmount + `)(?: |$)`), "Write QUANTITY x PRICE without a unit, as in 5 x 3.20, or the amount first and another word in front of this one.", true}
	addedTo = pattern{regexp.MustCompile(`^((?:[+/&]|plus|and) ?[0-9][0-9,.]*)(?: |$)|((?:\+|&|/|\bplus|\bless|\bminus|\band|^-) ?(?:` + anAmount + `|[0-9.]+ ?%))(?:[ ,;)]|$)|[(,] ?(` + anAmount + `) (?:postage|post|p&p|carriage|delivery|shipping|on top|extra)\b`),
		"Write the sum, or a line for each amount, and money that came back as `credit`.", false}
	// A sign of currency stands before a sum that was paid, but where words around it make it another's.
	further  = pattern{regexp.MustCompile(`(?i)(?:\b(?:at|an?|than|to|over|under|about|for|vs|saved?|saving|quoted|asked|budget) ?|[=@~] ?)[£€$]\S*|[£€$] ?[0-9.,]+ ?(?:each|ea|an?|per|off|less|cheaper|more|saved|new|elsewhere|list|deposit|voucher)\b|([£€$] ?[0-9][0-9,]*(?:\.[0-9]+)?)`), addedTo.help, false}
	grouped  = pattern{regexp.MustCompile(`^([0-9]{3}(?: [0-9]{3})*(?:\.[0-9]{2})?)(?:[ ,]|$)`), "Write the thousands without a space, as in 2,060.00, or let the description begin with a word.", false}
	taxOnTop = pattern{regexp.MustCompile(`(?i)((?:\+|\b(?:plus|ex|exc|excl|excluding|without|net of)\b\.?) ?(?:[0-9.]+ ?% ?)?(?:vat\b|tax(?:[,.;)]|$)))`), "Write \"; plus vat\" at the end if the price is without it.", false}
	moreTime = pattern{regexp.MustCompile(`^(05|[1-5][05])(?: \pL+ing\b|,)|^([123]/[24]|[½¼¾])(?: |$)|\b(?:and|n|&) (` + aTime + `) \pL|(?:[,(&+;] ?(?:\pL+ ){0,3}|\b(?:and|plus|then|another) (?:\pL+ ){0,2})(` + aTime + `)(?:[,.)]|$| [^ ]+ing\b| more\b)`), "Write a line for each, or the time worked in all.", false}
	aPrice   = pattern{regexp.MustCompile(`(?:^|[ (,])([£€$] ?[0-9][0-9,.]*(?: [0-9][0-9,.]*){0,2})\)?$`), "Write it as a clause, such as estimate 20.00, or as a line of cost or credit.", false}
	aLimit   = pattern{regexp.MustCompile(`(?i)\b((?:minimum|maximum|limit|spec|should be|under|over|below|above|at least|at most)\.?(?: of| is| be| under| over)? ?[0-9][^ ,;)]*)|\(?([0-9][0-9.]*(?: ?[^ 0-9]+)? (?:min(?:imum)?|max(?:imum)?|limit))\b|^(too \pL+)|([0-9][^,;]* allowed)|(legal\b.* [0-9.]+)`),
		"Write what it may be as a clause, such as min 10 mm or max 0.05 A.", false}
)

var lost = map[string][]pattern{
	"time": {moreTime}, "cost": {grouped, addedTo, taxOnTop, priceOf, further}, "credit": {grouped, addedTo, taxOnTop, priceOf, further}, "tools": {grouped, addedTo, taxOnTop, priceOf}, "sold": {grouped, addedTo}, "sale": {grouped, addedTo}, "parts": {aPrice}, "readings": {aLimit},
}

// otherFigure ends words before a figure that is none of the line's own.
var otherFigure = regexp.MustCompile(`(?i)(?:\b(?:rrp|was|were|from|of|no|nr|number|size|like|list|normally|worth|incl|including|with|instead of|not|surcharge|the)[.:]?|[0-9]\S* ?[x×]|[0-9])[\s(£€$]*$`)

// idle stands behind a length that nobody worked.
var idle = regexp.MustCompile(`^ (?:(?:dry|cur|harden|soak|cool|sett|clamp|wait)ing|to|of|at|on|a|each|per|for|in|before|after|between|long|lost|apart|later?)\b`)

// leftOut returns what of a line's words was probably meant to count.
func leftOut(l *note.Line) (found note.Text, help string) {
	a, isMoney := l.Head.(note.Amount)
	words := l.Words()
	lower := strings.ToLower(words.S)
	if !strings.ContainsAny(lower, "0123456789½¼¾") && !slices.ContainsFunc([]string{"vat", "tax", "hour", "too ", "legal"}, func(w string) bool { return strings.Contains(lower, w) }) {
		return note.Text{}, "" // none of the patterns, which take longer to tell
	}
	for _, p := range lost[l.Kind.Key] {
		if p.written == grouped.written && (!isMoney || a.HasQuantity || a.Places > 0 || a.Number.GreaterThanOrEqual(thousand)) {
			continue
		}
		if isMoney && p.bare && (a.Places > 1 || a.Code != "" || a.Symbol != "" || a.HasQuantity) || l.Kind.Key == "readings" && len(l.Clauses) > 0 || l.Has("plus vat") && p.help == taxOnTop.help || l.Has("estimate") {
			continue
		}
		for _, at := range p.written.FindAllStringSubmatchIndex(words.S, -1) {
			for i := 2; i < len(at); i += 2 {
				if at[i] < 0 || otherFigure.MatchString(words.S[:at[i]]) || l.Kind.Key != "readings" && l.Kind.Key != "time" && measured(words.S[at[i+1]:]) {
					continue
				}
				if length, bad := measure.ParseDuration(words.S[at[i]:at[i+1]]); l.Kind.Key == "time" && (bad == nil && length >= halfDay || idle.MatchString(words.S[at[i+1]:])) {
					continue
				}
				return words.Slice(at[i], at[i+1]), p.help
			}
		}
	}
	return note.Text{}, ""
}

var thousand = decimal.NewFromInt(1000)

// measured tells whether a unit follows a number, so that it is no money.
func measured(after string) bool {
	for word := range strings.FieldsSeq(after) {
		_, known := measure.LookupUnit(strings.Trim(word, ",.;)"))
		return known
	}
	return false
}
