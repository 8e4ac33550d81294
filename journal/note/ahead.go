package note

import (
	"math/big"
	"regexp"
	"strings"

	"guidecoat/journal/measure"
	"guidecoat/journal/measure/number"
	"guidecoat/journal/money"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// The values of what a card says about what lies ahead: hours, weeks, risk, offers.
var (
	weeks     = &Value{Name: "A M B", Flaw: BadEstimate, Read: whole(parseWeeks)}
	pace      = &Value{Name: "DURATION a week", Flaw: BadDuration, Read: leading(measure.ScanPace)}
	holding   = &Value{Name: "AMOUNT a week", Flaw: BadAmount, Read: readHolding}
	away      = &Value{Name: "DATE..DATE", Flaw: BadDate, Read: readAway}
	worstCase = &Value{Name: strings.Join(WorstCases, " or "), Flaw: BadEstimate, Read: whole(parseWorst)}
	offer     = &Value{Name: "A M B", Flaw: BadEstimate, Read: leadingThree(true)}
)

// WorstCases are the readings of best and worst, the default first.
var WorstCases = []string{"hardly ever", "1 in 10"}

func parseWorst(s string) (string, *source.Malformed) {
	for _, w := range WorstCases {
		if strings.EqualFold(s, w) {
			return w, nil
		}
	}
	return "", &source.Malformed{End: len(s), Why: "a worst case is met hardly ever, or 1 time in 10",
		Help: "Write \"" + strings.Join(WorstCases, "\" or \"") + "\"."}
}

type Weeks [3]decimal.Decimal

func parseWeeks(s string) (Weeks, *source.Malformed) {
	three, bad := number.Three(strings.TrimSuffix(s, " weeks"), "14 18 26", func(s string) (decimal.Decimal, *source.Malformed) {
		n, bad := number.Scan(s)
		if bad == nil && n.End < len(s) {
			bad = &source.Malformed{Start: n.End, End: len(s), Why: "something follows the number", Help: "Leave only the number here."}
		}
		return n.Value, bad
	}, decimal.Decimal.LessThan)
	if bad == nil {
		bad = notZero(three, len(s))
	}
	return Weeks(three), bad
}

// readHolding reads what it costs to keep the vehicle, by the week.
func readHolding(c context, s string) (any, int, *source.Malformed) {
	what, period, end, bad := measure.ScanEach(s, "10.00 a week")
	if bad != nil {
		return nil, 0, bad
	}
	sum, bad := money.ParsePlain(what, orAnyCurrency(c.home))
	if bad == nil {
		bad = notZero(sum, len(what))
	}
	if bad != nil {
		return nil, 0, bad
	}
	return new(big.Rat).Mul(sum.Rat(), period.InWeek), end, nil
}

func readAway(c context, s string) (any, int, *source.Malformed) {
	span, bad := measure.ScanSpan(s, func(s string) (measure.Date, *source.Malformed) {
		d, _, bad := date.Read(c, s)
		day, _ := d.(measure.Date)
		return day, bad
	})
	return span, len(s), bad
}

// leadingThree makes the reader of one number or three at the start of a text.
func leadingThree(positive bool) func(context, string) (any, int, *source.Malformed) {
	return func(c context, s string) (any, int, *source.Malformed) {
		if bad := money.Apart(s); bad != nil {
			return nil, 0, bad
		}
		end := 0
		for at := 0; at < len(s); {
			stop := at + wordEnd(s[at:])
			if !strings.ContainsAny(s[at:stop], "0123456789") {
				break
			}
			end = stop
			at, _ = trim(s, stop, len(s))
		}
		if end == 0 {
			return nil, 0, &source.Malformed{End: wordEnd(s), Why: "it begins with no number",
				Help: "Write best, likely and worst, such as \"120 180 300\", or one number."}
		}
		v, bad := money.ParseThree(s[:end], orAnyCurrency(c.home))
		if bad == nil && positive {
			bad = notZero(v, end)
		}
		return v, end, bad
	}
}

// BadFinding is the flaw of what an inspection found and nobody can read.
const BadFinding source.Flaw = "bad-finding"

type Finding struct {
	Severity Severity // of an advisory: Minor
	Advisory bool
	// Item is its number in Annex I of Directive 2014/45/EU; "" where none is written.
	Item string
}

const advisory = "advisory"

var gradings = []string{"dangerous", "major", "minor", advisory}

// annexItem matches the form of an item's number, with the letters of its reasons.
var annexItem = regexp.MustCompile(`^[0-9](\.[1-9][0-9]?){1,3}(\([a-z]{1,4}\))*$`)

// readFinding reads "dangerous 1.1.13" at the start of a text; what follows are words.
func readFinding(c context, s string) (any, int, *source.Malformed) {
	word, end, bad := oneOf("", BadFinding, gradings).Read(c, s)
	if bad != nil {
		bad.Why, bad.Help = "it does not begin with how bad it is", "Begin with dangerous, major, minor or advisory."
		return nil, 0, bad
	}
	f := Finding{Severity: SeverityOf(word.(string))}
	if f.Advisory = word == advisory; f.Advisory {
		f.Severity = Minor
	}
	start, _ := trim(s, end, len(s))
	stop := start + wordEnd(s[start:])
	item := strings.TrimRight(s[start:stop], ",:")
	if item == "" || item[0] < '0' || item[0] > '9' || !strings.Contains(item, ".") {
		return f, end, nil
	}
	next, _ := trim(s, stop, len(s))
	if _, isUnit := measure.LookupUnit(s[next : next+wordEnd(s[next:])]); isUnit && strings.Count(item, ".") == 1 {
		return f, end, nil // 1.5 mm is what was measured
	}
	if !annexItem.MatchString(item) {
		return nil, 0, &source.Malformed{Start: start, End: start + len(item), Why: "it is no number of an item of Annex I of Directive 2014/45/EU",
			Help: "Write it as on the sheet, such as 1.1.13, or leave it out."}
	}
	f.Item = item
	return f, stop, nil
}
