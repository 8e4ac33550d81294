package check

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// Words and lengths of time in a line that were meant otherwise than they are read.

var missingSemicolon = &Check{
	Name: "missing-semicolon", Severity: problem.Warning,
	Summary: "a clause at the end of other words, where it is none",
	Explain: "Without a semicolon a clause is words like any other: the hours count once, the price goes to no part. " +
		"Only a keyword with a value of its own form, or the name of a known part or stage, is reported, and a severity behind a comma.",
	Example: "---\nstage: body\nwrong|cost: 144.00 delivery as transport\nright|cost: 144.00 delivery; as transport\n---\n",
	Run: func(p *Pass) {
		for _, w := range p.notes {
			parts := p.partsCalled(w.note)
			for _, l := range w.note.Lines {
				if !p.leftOut(l) && isMoney(l) {
					if !l.Has("from") {
						p.supplierIn(l.Words())
					}
					if !l.Has("for") && !l.Has("as") {
						p.partIn(l.Words(), parts)
					}
				}
				p.missingSemicolon(w.note, l)
			}
			for _, it := range w.note.Items {
				p.missingSemicolon(w.note, it.Line)
			}
		}
	},
}

func isMoney(l *note.Line) bool { return l.Kind.Key == "cost" || l.Kind.Key == "credit" }

// supplierIn tells of the name of a known supplier, or its first word if that is long,
// in the words of a line that says none.
func (p *Pass) supplierIn(t note.Text) {
	const long = 6
	for _, name := range p.from().names {
		first, _, _ := strings.Cut(name, " ")
		if len(first) < long {
			first = name
		}
		at := strings.Index(strings.ToLower(t.S), strings.ToLower(first))
		if at < 0 || at+len(first) > len(t.S) || at > 0 && t.S[at-1] != ' ' || at+len(first) < len(t.S) && strings.IndexByte(" ,.)", t.S[at+len(first)]) < 0 {
			continue
		}
		p.Report(t.Span(at, at+len(first)), "the supplier "+quote(name)+" is named in words, and the line counts for none", "Write \"; from "+name+"\" if it was bought there.")
		return
	}
}

// partIn tells of a price that is called as a part of the same note.
func (p *Pass) partIn(t note.Text, parts map[string]string) {
	called, _, _ := strings.Cut(t.S, ",")
	if id := parts[strings.ToLower(called)]; id != "" {
		p.Report(t.Span(0, len(called)), "the part "+quote(id)+" is named in words, and the price counts for none", "Write \"; for "+id+"\" if it was paid for it.")
	}
}

// partsCalled are the ids of a note's parts by what people call them: the id's words, or those of the line.
func (p *Pass) partsCalled(n *note.Note) map[string]string {
	called := map[string]string{}
	for _, l := range n.Lines {
		if l.Kind.Key == "parts" && !p.leftOut(l) {
			words, _, _ := strings.Cut(l.Words().S, ",")
			called[strings.ReplaceAll(l.Name, "-", " ")], called[strings.ToLower(words)] = l.Name, l.Name
		}
	}
	delete(called, "")
	return called
}

// searched is how much before its end is looked at.
const searched = 100

func (p *Pass) missingSemicolon(n *note.Note, l *note.Line) {
	if p.leftOut(l) || len(l.Kind.Clauses) == 0 {
		return
	}
	texts := []note.Text{l.Words()}
	texts = append(texts, pick.Map(l.Clauses, func(c note.Found) note.Text { return c.Arg })...)
	for _, t := range texts {
		for end := len(t.S); end > 0; end = strings.LastIndexByte(t.S[:end], ',') { // a clause ends at a comma too
			end := len(strings.TrimRight(t.S[:end], " .!)"))
			if at, clause := p.unparted(n, l, t, end); clause != "" {
				at, clause = clausesBefore(n, l, t, at, clause)
				rest := strings.Trim(t.S[end:], " .!)")
				if at == 0 {
					rest = strings.TrimLeft(rest, ", ")
				}
				p.ReportFix(t.Span(at, end), quote(t.S[at:end])+" is part of other words here, and does nothing", "Write \"; "+clause+"\" if it is meant as a clause.",
					&source.Fix{Span: t.Span(len(strings.TrimRight(t.S[:at], " \t,(")), len(t.S)), Text: rest + "; " + clause})
				break
			}
		}
	}
}

// clausesBefore takes in the clauses before one that commas part from it, as in `as vehicle, stage buying, on 2026-11-20`.
func clausesBefore(n *note.Note, l *note.Line, t note.Text, at int, clause string) (int, string) {
	for {
		before, found := strings.CutSuffix(strings.TrimRight(t.S[:at], " "), ",")
		start := strings.LastIndexByte(before, ',') + 1
		start += len(before[start:]) - len(strings.TrimLeft(before[start:], " "))
		if !found || start == len(before) {
			return at, clause
		}
		f := n.ClauseIn(l, t, start, len(before))
		if f == nil || l.Has(f.Word) {
			return at, clause
		}
		at, clause = start, f.Word+before[start+len(f.Word):]+"; "+clause
	}
}

// unparted returns the clause that ends there without a semicolon, and where it begins.
func (p *Pass) unparted(n *note.Note, l *note.Line, t note.Text, end int) (int, string) {
	for at := max(0, end-searched); at < end; at++ {
		if at > 0 && t.S[at-1] != ' ' && t.S[at-1] != '(' && t.S[at-1] != ',' {
			continue
		}
		words, apart := t.S[at:end], at == 0 || strings.HasSuffix(t.S[:at], ", ")
		if f := n.ClauseIn(l, t, at, end); f != nil && !l.Has(f.Word) && (typed(l, f) || p.namesKnown(words) || f.Group == "severity" && apart && (at > 0 || end < len(t.S) && t.S[end] == ',')) {
			return at, f.Word + words[len(f.Word):]
		}
		if apart && at > 0 && p.State.Build.StageNamed(words) != nil && n.ClauseIn(l, t, at, end) == nil && !l.Has("stage") && n.Line("stage") != nil && n.Line("stage").Text.S != words {
			return at, "stage " + words
		}
		if strings.IndexByte("#rRiItTnN", words[0]) >= 0 && isMoney(l) && !l.Has("receipt") {
			if m := receiptNo.FindStringSubmatch(words); m != nil {
				return at, "receipt " + m[1]
			}
		}
	}
	return 0, ""
}

// receiptNo is what people write before the number of a receipt.
var receiptNo = regexp.MustCompile(`(?i)^(?:(?:receipt|rcpt|invoice|inv|ticket|tkt|note)\.? ?(?:no\.?|nr\.?)? ?#?|#)(\S*[0-9]\S*)$`)

// namesKnown tells whether words are a clause with the name of a part or a stage.
func (p *Pass) namesKnown(words string) bool {
	if stage, ok := strings.CutPrefix(words, "stage "); ok {
		return p.State.Build.StageNamed(stage) != nil
	}
	part, ok := strings.CutPrefix(strings.TrimPrefix(words, "waits "), "for ")
	return ok && strings.Contains(part, "-") && p.all().Part(part) != nil
}

// typed tells whether a clause has a value that words seldom have by chance.
func typed(l *note.Line, f *note.Found) bool {
	if f.Clause.Value == nil || f.Value == nil || f.Word == "takes" || f.Word == "rate" || f.Word == "due" && l.Kind.Key == "cost" {
		return false
	}
	_, words := f.Value.(string)
	return !words || f.Clause.Value.Near != nil
}

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
	addedTo = pattern{regexp.MustCompile(`^((?:[+/&]|plus|and) ?[0-9][0-9,.]*)(?: |$)|((?:\+|&|/|\bplus|\bless|\bminus|\band|^-) ?(?:` + anAmount + `|[0-9.]+ ?%))(?:[ ,;)]|$)|(?:[(,]|\band|\bplus) ?(` + anAmount + `|[0-9]+) (?:postage|post|p&p|carriage|delivery|shipping|on top|extra|fees?)\b`),
		"Write the sum, or a line for each amount, and money that came back as `credit`.", false}
	// A sign of currency stands before a sum that was paid, but where words around it make it another's.
	further  = pattern{regexp.MustCompile(`(?i)(?:\b(?:at|an?|than|to|over|under|about|for|vs|saved?|saving|quoted|asked|budget) ?|[=@~] ?)[£€$]\S*|[£€$] ?[0-9.,]+ ?(?:each|ea|an?|per|off|less|cheaper|more|saved|new|elsewhere|list|deposit|voucher)\b|([£€$] ?[0-9][0-9,]*(?:\.[0-9]+)?)`), addedTo.help, false}
	grouped  = pattern{regexp.MustCompile(`^([0-9]{3}(?: [0-9]{3})*(?:\.[0-9]{2})?)(?:[ ,]|$)`), "Write the thousands without a space, as in 2,060.00, or let the description begin with a word.", false}
	taxOnTop = pattern{regexp.MustCompile(`(?i)((?:\+|\b(?:plus|ex|exc|excl|excluding|without|net of)\b\.?) ?(?:[0-9.]+ ?% ?)?(?:vat\b|tax(?:[,.;)]|$)))`), "Write \"; plus vat\" at the end if the price is without it.", false}
	moreTime = pattern{regexp.MustCompile(`^(05|[1-5][05])(?: \pL+ing\b|,)|^([123]/[24]|[½¼¾])(?: |$)|\b(?:and|n|&) (` + aTime + `) \pL|(?:^|[,(&+;] ?(?:\pL+ ){0,3}|\b(?:and|plus|then|another) (?:\pL+ ){0,2})(` + aTime + `)(?:[,.)]|$| [^ ]+ing\b| more\b)`), "Write a line for each, or the time worked in all.", false}
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

// Lengths of time that may be meant otherwise.

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

var pastMidnight = &Check{
	Name: "past-midnight", Severity: problem.Warning,
	Summary: "a clock range past midnight of more than twelve hours",
	Explain: "Times of day run from 0:00 to 24:00, and an end before the start is on the next day. " +
		"The afternoon's five o'clock is 17:00. Such a length is written as a duration where it is right.",
	Example: "---\nstage: body\nwrong|time: 9:00-5:00 filler\nright|time: 9:00-17:00 filler\n---\n",
	Run: func(p *Pass) {
		for _, w := range p.notes {
			for _, l := range w.note.Lines {
				m, ok := l.Head.(measure.Minutes)
				if !ok || p.leftOut(l) || m <= halfDay {
					continue
				}
				t := clockRange.FindStringSubmatch(l.HeadSpan().Text())
				if t == nil || clockMinutes(t[2], t[3]) < clockMinutes(t[4], t[5]) {
					continue
				}
				help := fmt.Sprintf("Check both times, or write %s if it is right.", m)
				if end := clockMinutes(t[4], t[5]) + halfDay; end > clockMinutes(t[2], t[3]) && end < measure.Day {
					help = fmt.Sprintf("Write %s-%d:%02d if it ended in the afternoon, or %s if it is right.", t[1], end/60, end%60, m)
				}
				p.Report(l.HeadSpan(), fmt.Sprintf("%q runs past midnight and is %s", l.HeadSpan().Text(), m), help)
			}
		}
	},
}

const halfDay measure.Minutes = 12 * 60

var clockRange = regexp.MustCompile(`^(([0-9]+):([0-9]+))[^0-9]+([0-9]+):([0-9]+)$`)

func clockMinutes(hours, minutes string) measure.Minutes {
	h, _ := strconv.Atoi(hours)
	m, _ := strconv.Atoi(minutes)
	return measure.Minutes(h*60 + m)
}
