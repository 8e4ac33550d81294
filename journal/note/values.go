package note

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/near"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

const (
	BadAmount       source.Flaw = "bad-amount"
	BadDate         source.Flaw = "bad-date"
	BadDuration     source.Flaw = "bad-duration"
	BadDistance     source.Flaw = "bad-distance"
	BadMeasurement  source.Flaw = "bad-measurement"
	BadNumber       source.Flaw = "bad-number"
	BadEstimate     source.Flaw = "bad-estimate"
	BadFee          source.Flaw = "bad-fee"
	BadID           source.Flaw = "bad-id"
	BadYesNo        source.Flaw = "bad-yes-no"
	UnknownCurrency source.Flaw = "unknown-currency"
	UnknownCategory source.Flaw = "unknown-category"
	UnknownSale     source.Flaw = "unknown-sale"
	UnknownState    source.Flaw = "unknown-state"
	UnknownSystem   source.Flaw = "unknown-system"
	UnknownResult   source.Flaw = "unknown-result"
)

type Value struct {
	Name string      // how the manual writes it, in capitals
	Flaw source.Flaw // what is wrong where Read does not understand
	Near []string    // the words to choose from, where it is a choice
	// Read reads the value at the start of text and returns how many bytes it took.
	Read func(c context, text string) (value any, end int, bad *source.Malformed)
}

// A context is what the reading of a value may depend on.
type context struct {
	home money.Currency // the build's currency; zero where the card has none
	head any            // what the line's head was read as
	day  measure.Date   // the session's; 0 where it has none
}

// An Amount is a sum as typed, with the currency it is in.
type Amount struct {
	money.Written
	Currency money.Currency
}

// Due is the value of a snag's `due`: one of the two.
type Due struct {
	Date     measure.Date
	Distance measure.Quantity // from the session's odometer; used where Date is zero
}

// whole makes the reader of a value that is all of the text.
func whole[T any](parse func(string) (T, *source.Malformed)) func(context, string) (any, int, *source.Malformed) {
	return func(_ context, s string) (any, int, *source.Malformed) {
		v, bad := parse(s)
		return v, len(s), bad
	}
}

// leading makes the reader of a value that other words may follow.
func leading[T any](scan func(string) (T, int, *source.Malformed)) func(context, string) (any, int, *source.Malformed) {
	return func(_ context, s string) (any, int, *source.Malformed) {
		v, end, bad := scan(s)
		return v, end, bad
	}
}

var (
	date          = &Value{Name: "DATE", Flaw: BadDate, Read: readDate(false)}
	dateAhead     = &Value{Name: "DATE", Flaw: BadDate, Read: readDate(true)}
	duration      = &Value{Name: "DURATION", Flaw: BadDuration, Read: readDuration}
	wholeDuration = &Value{Name: "DURATION", Flaw: BadDuration, Read: whole(measure.ParseDuration)}
	distance      = &Value{Name: "DISTANCE", Flaw: BadDistance, Read: whole(measure.ParseDistance)}
	quantity      = &Value{Name: "VALUE UNIT", Flaw: BadMeasurement, Read: leading(measure.ScanQuantity)}
	percent       = &Value{Name: "PERCENT", Flaw: BadNumber, Read: whole(money.ParsePercent)}
	confidence    = &Value{Name: "PERCENT", Flaw: BadNumber, Read: whole(parseConfidence)}
	rate          = &Value{Name: "RATE", Flaw: BadNumber, Read: whole(money.ParseRate)}
	share         = &Value{Name: "SHARE", Flaw: BadNumber, Read: whole(money.ParseShare)}
	freight       = &Value{Name: "AMOUNT", Flaw: BadAmount, Read: readAmount}
	taxed         = &Value{Name: "AMOUNT [plus vat [R%]]", Flaw: BadAmount, Read: readTaxed}
	percentOrNone = &Value{Name: "PERCENT", Flaw: BadNumber, Read: whole(parsePercentOrNone)}
	days          = &Value{Name: "N d", Flaw: BadNumber, Read: whole(parseDays)}
	hands         = &Value{Name: "N", Flaw: BadNumber, Read: whole(count(1, 9, "Write how many people worked, such as \"hands 2\", and more than 9 on a line of their own."))}
	builds        = &Value{Name: "N builds", Flaw: BadNumber, Read: whole(parseBuilds)}
	sum           = &Value{Name: "AMOUNT", Flaw: BadAmount, Read: inMoney(money.ParsePlain, true)}
	plainSum      = &Value{Name: "AMOUNT", Flaw: BadAmount, Read: inMoney(money.ParsePlain, false)}
	three         = &Value{Name: "A M B", Flaw: BadEstimate, Read: inMoney(money.ParseThree, false)}
	positiveThree = &Value{Name: "A M B", Flaw: BadEstimate, Read: inMoney(money.ParseThree, true)}
	hours         = &Value{Name: "A M B", Flaw: BadEstimate, Read: whole(measure.ParseThreeHours)}
	bands         = &Value{Name: "BANDS", Flaw: BadFee, Read: readBands}
	amount        = &Value{Name: "AMOUNT", Flaw: BadAmount, Read: readAmount}
	ofSale        = &Value{Name: "WHAT AMOUNT", Flaw: UnknownSale, Near: SaleHeads, Read: readSale}
	remaining     = &Value{Name: "A M B", Flaw: BadEstimate, Read: readRemaining}
	due           = &Value{Name: "DATE or DISTANCE", Flaw: BadDate, Read: readDue}
	limit         = &Value{Name: "VALUE", Flaw: BadMeasurement, Read: readLimit}
	within        = &Value{Name: "A..B", Flaw: BadMeasurement, Read: readLimits(measure.ParseWithin)}
	spec          = &Value{Name: "V ±T", Flaw: BadMeasurement, Read: readLimits(measure.ParseSpec)}
	currency      = &Value{Name: "CODE", Flaw: UnknownCurrency, Read: whole(parseCurrency)}
	yesNo         = &Value{Name: "yes", Flaw: BadYesNo, Near: []string{"yes", "no"}, Read: whole(parseYesNo)}
	stretch       = &Value{Name: "D or A to B", Flaw: BadDistance, Read: whole(ParseStretch)}
	asks          = &Value{Name: "nothing or CHECK, CHECK", Flaw: BadID, Read: whole(parseAsks)}
	fastening     = &Value{Name: "TORQUE + ANGLE", Flaw: BadMeasurement, Read: readFastening}
	tolerance     = &Value{Name: "T", Flaw: BadMeasurement, Read: readTolerance}
	finding       = &Value{Name: "SEVERITY ITEM", Flaw: BadFinding, Near: gradings, Read: readFinding}
	systems       = &Value{Name: "SYSTEM, SYSTEM", Flaw: UnknownSystem, Near: Systems, Read: readSystems}
)

func text(name string) *Value {
	return &Value{Name: name, Read: whole(func(s string) (string, *source.Malformed) { return s, nil })}
}

// id is the form of an id: lower-case words joined by hyphens.
func id(name string) *Value {
	return &Value{Name: name, Flaw: BadID, Read: whole(func(s string) (string, *source.Malformed) {
		if IsID(s) {
			return s, nil
		}
		if list := strings.Split(strings.ReplaceAll(s, " and ", ","), ","); len(list) > 1 && !slices.ContainsFunc(list, func(w string) bool { return !IsID(strings.TrimSpace(w)) }) {
			return "", &source.Malformed{End: len(s), Why: "only one can be named here", Help: "Write one line for each, or where a clause may repeat one clause for each."}
		}
		if latin, first := near.Latin(s); first != 0 && IsID(latin) {
			return "", disguised(s, latin, first)
		}
		bad := &source.Malformed{End: len(s), Why: "an id is lower-case words joined by hyphens"}
		first, _, _ := strings.Cut(strings.Replace(s, " from ", ",", 1), ",")
		if better := SuggestID(withoutArticle(first)); better != "" {
			bad.Help, bad.Instead = "Write \""+better+"\".", better
		}
		return "", bad
	})}
}

func withoutArticle(s string) string {
	first, rest, _ := strings.Cut(s, " ")
	return pick.Either(rest != "" && slices.Contains([]string{"the", "a", "an", "my"}, strings.ToLower(first)), rest, s)
}

// disguised is the complaint about an id that looks right and is not.
func disguised(s, latin string, first rune) *source.Malformed {
	return &source.Malformed{End: len(s), Why: fmt.Sprintf("U+%04X in it only looks like a Latin letter", first), Help: "Write \"" + latin + "\" with Latin letters.", Instead: latin}
}

// oneOf is the form of a word out of a list.
func oneOf(name string, flaw source.Flaw, words []string) *Value {
	return &Value{Name: name, Flaw: flaw, Near: words, Read: func(_ context, s string) (any, int, *source.Malformed) {
		end := wordEnd(s)
		word := strings.TrimRight(s[:end], ",:.;")
		if slices.Contains(words, word) {
			return word, end, nil
		}
		bad := &source.Malformed{End: len(word)}
		for at := end; at < len(s); at++ { // left headlamp ordered
			if last := s[at+1:]; s[at] == ' ' && slices.Contains(words, last) {
				bad.Help = fmt.Sprintf("begin with %q and write the rest behind it", last)
			}
		}
		return "", end, bad
	}}
}

func wordEnd(s string) int {
	if i := strings.IndexAny(s, " \t\r\n"); i >= 0 {
		return i
	}
	return len(s)
}

// readRemaining reads one number, three, or `nothing`; what else stands is a remark.
func readRemaining(c context, s string) (any, int, *source.Malformed) {
	if s[:wordEnd(s)] == "nothing" {
		return [3]decimal.Decimal{}, len("nothing"), nil
	}
	v, end, bad := leadingThree(false)(c, s)
	if bad != nil && end == 0 && !strings.ContainsAny(s[:wordEnd(s)], "0123456789") {
		bad.Help = strings.TrimSuffix(bad.Help, ", or one number.") + ", one number, or \"nothing\"."
	}
	return v, end, bad
}

// readLimit reads a limit of what the head measures, and none where that could not be read.
func readLimit(c context, s string) (any, int, *source.Malformed) {
	head, ok := c.head.(measure.Quantity)
	if !ok {
		return nil, len(s), nil
	}
	q, bad := measure.ParseQuantityLike(s, head.Unit)
	return q, len(s), bad
}

func readLimits(parse func(string, measure.Unit) (lo, hi measure.Quantity, bad *source.Malformed)) func(context, string) (any, int, *source.Malformed) {
	return func(c context, s string) (any, int, *source.Malformed) {
		head, ok := c.head.(measure.Quantity)
		if !ok {
			return nil, len(s), nil
		}
		lo, hi, bad := parse(s, head.Unit)
		return Limits{Min: &lo, Max: &hi}, len(s), bad
	}
}

func readSystems(_ context, s string) (any, int, *source.Malformed) {
	var list []string
	at := 0
	for part := range strings.SplitSeq(s, ",") {
		start, end := trim(s, at, at+len(part))
		at += len(part) + 1
		word := s[start:end]
		if !slices.Contains(Systems, word) {
			return nil, len(s), &source.Malformed{Start: start, End: end}
		}
		list = append(list, word)
	}
	return list, len(s), nil
}

// count makes the reader of a whole number; help says what to write instead.
func count(low, high int, help string) func(string) (int, *source.Malformed) {
	return func(s string) (int, *source.Malformed) {
		n, err := strconv.Atoi(s)
		if err != nil || n < low || n > high || s != strconv.Itoa(n) {
			return 0, &source.Malformed{End: len(s), Why: fmt.Sprintf("it is not a whole number from %d to %d", low, high), Help: help}
		}
		return n, nil
	}
}

// parsePercentOrNone reads a percentage that may be zero.
func parsePercentOrNone(s string) (decimal.Decimal, *source.Malformed) {
	if strings.ReplaceAll(s, " ", "") == "0%" {
		return decimal.Zero, nil
	}
	return money.ParsePercent(s)
}

// parseDays reads a number of days, or of weeks: 24d, 24 days, 3 weeks.
func parseDays(s string) (int, *source.Malformed) {
	number := strings.TrimRight(s, "adeksyw ")
	unit := strings.TrimSpace(s[len(number):])
	n, bad := count(0, 1000, "")(number)
	switch {
	case slices.Contains([]string{"w", "week", "weeks"}, unit):
		n *= 7
	case !slices.Contains([]string{"d", "day", "days"}, unit):
		bad = &source.Malformed{End: len(s), Why: "it is no number of days"}
	}
	if bad != nil {
		bad.End, bad.Help = len(s), "Write for instance 14d."
	}
	return n, bad
}

func parseBuilds(s string) (int, *source.Malformed) {
	return count(1, 1000, "Write over how many builds the price is spread, such as \"over 6 builds\".")(strings.TrimSuffix(strings.TrimSuffix(s, " builds"), " build"))
}

func parseConfidence(s string) (decimal.Decimal, *source.Malformed) {
	p, bad := money.ParsePercent(s)
	if bad == nil && !p.LessThan(decimal.NewFromInt(100)) {
		bad = &source.Malformed{End: len(s), Why: "nothing is certain: it must be over 0% and under 100%",
			Help: "Write for instance 90%."}
	}
	return p, bad
}

func parseCurrency(s string) (money.Currency, *source.Malformed) {
	c, ok := money.Lookup(s)
	if ok {
		return c, nil
	}
	bad := &source.Malformed{End: len(s), Help: "Write a code of ISO 4217 in capitals, such as GBP or EUR."}
	if up := strings.ToUpper(s); money.IsCode(up) {
		bad.Help, bad.Instead = "Write it in capitals: "+up+".", up
	}
	return money.Currency{}, bad
}

func parseYesNo(s string) (bool, *source.Malformed) {
	if s == "yes" || s == "no" {
		return s == "yes", nil
	}
	bad := &source.Malformed{End: len(s), Help: "Write yes, or leave the line out."}
	if n := near.Nearest(s, []string{"yes", "no"}); n != "" {
		bad.Help, bad.Instead = "Write "+n+".", n
	}
	return false, bad
}
