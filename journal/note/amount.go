package note

import (
	"cmp"
	"fmt"
	"regexp"
	"strings"

	"guidecoat/journal/money"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// readAmount reads what a line of money begins with, and a quantity beside it in words.
func readAmount(c context, s string) (any, int, *source.Malformed) {
	w, bad := money.Scan(s)
	switch {
	case bad != nil:
		if m := taxTouches.FindStringSubmatch(s); m != nil {
			bad.Start, bad.End, bad.Help = 0, len(s), "Write \""+strings.TrimSpace(m[1]+m[2])+"; plus vat\"."
		} else if forNothing.MatchString(s) {
			bad.Help = "Leave the line out where nothing was paid, and write \"free\" on the line of the part."
		}
	case !w.HasQuantity:
		bad = countInWords(&w, s)
	}
	if code, end := namedCurrency(w, s); bad == nil && code != "" && !strings.Contains(code, c.home.Code) {
		code, _, _ = strings.Cut(code, " ")
		bad = &source.Malformed{Start: w.End + len(s[w.End:end]) - len(strings.TrimLeft(s[w.End:end], " ")), End: end, Why: "the amount would count as " + c.home.Code, Help: fmt.Sprintf("Write \"%s %s\" and a rate.", s[:w.End], code)}
	}
	if bad != nil {
		return nil, 0, bad
	}
	if c.home.Code == "" && w.Code == "" {
		return Amount{Written: w}, w.End, nil
	}
	cur, bad := w.Currency(c.home)
	return Amount{Written: w, Currency: cur}, w.End, bad
}

var (
	taxTouches = regexp.MustCompile(`(?i)^([£€]?[0-9][0-9.,]*) ?\+ ?vat\b(.*)$`)
	forNothing = regexp.MustCompile(`(?i)^(?:free|nothing|gratis|no charge)\b`)
	// currencies by their names in the plural: a euro pallet is a pallet
	pluralNames = regexp.MustCompile(`(?i)^ ?(euros|dollars|bucks|kronor|kroner|francs|zlotys?)\b`)
	pluralCodes = map[string]string{"euros": "EUR", "dollars": "USD CAD AUD NZD SGD HKD", "bucks": "USD CAD AUD NZD", "kronor": "SEK ISK", "kroner": "NOK DKK", "francs": "CHF"}
)

// namedCurrency returns the codes of the currency that words behind an amount name.
func namedCurrency(w money.Written, s string) (codes string, end int) {
	if w.Code != "" || w.Symbol != "" {
		return "", 0
	}
	m := pluralNames.FindStringSubmatchIndex(s[w.End:])
	if m == nil {
		return "", 0
	}
	return cmp.Or(pluralCodes[strings.ToLower(s[w.End+m[2]:w.End+m[3]])], "PLN"), w.End + m[3]
}

var (
	// a price of one with its count: 6.49 each, 2 off
	eachCounted = regexp.MustCompile(`^,? ?(?:each|ea\.?|apiece),? \(?(?:x ?([1-9][0-9]{0,3})|([1-9][0-9]{0,3}) off)\)?(?:[ ,]|$)|^ \(?x ?([1-9][0-9]{0,3})\)? each(?:[ ,]|$)`)
	// a count with the price of one behind its words: 4 bolts at 3.00 each
	countedEach = regexp.MustCompile(`^ [^0-9£€$]+? (?:at |@ ?)?([£€$]? ?[0-9]+(?:\.[0-9]{2})?) (?:each|ea\.?|apiece)[.)]?$`)
	// a price of one, or of all: 6.49 each; 6.49 bolts (x2); 6.49 bolts, 2 off
	countUnclear = regexp.MustCompile(`^,? ?(each|ea|apiece)(?:[,.)]|$| for | [0-9]| \pL+s\b)|[^0-9fnr] (each|apiece)[.)]?$|\((x ?[1-9][0-9]*|[1-9][0-9]? off)\)|[^0-9 ] (x ?[1-9][0-9]*)$|[ (,]([1-9][0-9]? off)\)?$`)
)

// countInWords takes in how many the price is of; where it may be the price of one or of all, it asks.
func countInWords(w *money.Written, s string) *source.Malformed {
	rest := s[w.End:]
	if !strings.ContainsAny(rest, "0123456789") && !strings.Contains(","+rest, ",ea") && !strings.Contains(rest, " ea") && !strings.Contains(rest, "apiece") {
		return nil // none of the patterns, which take longer to tell
	}
	if m := eachCounted.FindStringSubmatchIndex(rest); m != nil {
		from, to := group(m)
		w.Quantity, w.HasQuantity = decimal.RequireFromString(rest[from:to]), true
		w.End += m[1]
		return nil
	}
	if m := countedEach.FindStringSubmatchIndex(rest); m != nil && w.Places == 0 && w.UnitStart == w.UnitEnd {
		price, bad := money.Scan(rest[m[2]:m[3]])
		if bad != nil {
			return nil
		}
		price.Quantity, price.HasQuantity, price.End = w.Number, true, w.End
		*w = price
		return nil
	}
	if m := countUnclear.FindStringSubmatchIndex(rest); m != nil {
		from, to := group(m)
		price, words := s[w.NumberStart:w.NumberEnd], rest[from:to]
		if n := strings.Trim(words, "x of()"); n != "" && n[0] <= '9' {
			plain := strings.TrimSpace(strings.TrimRight(rest[:from], " ,(") + strings.TrimLeft(rest[to:], ")"))
			return &source.Malformed{End: len(s), Why: fmt.Sprintf("%s may be the price of one, or of all", price),
				Help: fmt.Sprintf("Write %q if it is the price of one, or %q if it is for all.", n+" x "+s[:w.End]+" "+plain, s[:w.End]+" "+plain)}
		}
		return &source.Malformed{Start: w.End + from, End: w.End + to, Why: fmt.Sprintf("%s may be the price of one, or of all", price),
			Help: fmt.Sprintf("Write QUANTITY x PRICE, such as 2 x %s, if it is the price of one, and leave out %q if it is for all.", price, words)}
	}
	return nil
}

func group(match []int) (from, to int) {
	for i := 2; i < len(match); i += 2 {
		if match[i] >= 0 {
			return match[i], match[i+1]
		}
	}
	return match[0], match[1]
}

type Taxed struct {
	Amount
	Plus bool             // plus the card's tax, or VAT
	VAT  *decimal.Decimal // percent
}

// readTaxed reads an amount with `plus vat` behind it, which a semicolon would part; a comma between them does not.
func readTaxed(c context, s string) (any, int, *source.Malformed) {
	amount, _, _ := strings.Cut(s, ", "+clauseVAT.Word)
	v, end, bad := readAmount(c, amount)
	if bad != nil {
		return nil, 0, bad
	}
	t := Taxed{Amount: v.(Amount)}
	at := len(s) - len(strings.TrimLeft(s[end:], " ,"))
	rest, plus := strings.CutPrefix(s[at:], clauseVAT.Word)
	if rest = strings.TrimSpace(rest); !plus || rest == "" {
		if t.Plus = plus; plus {
			end = len(s)
		}
		return t, end, nil
	}
	vat, bad := money.ParsePercent(rest)
	if bad != nil {
		from := len(s) - len(rest)
		return nil, 0, &source.Malformed{Start: from, End: len(s), Why: bad.Why, Help: bad.Help, Flaw: BadNumber}
	}
	t.Plus, t.VAT = true, &vat
	return t, len(s), nil
}

// inMoney makes the reader of plain sums in the build's currency.
func inMoney[T any](parse func(string, money.Currency) (T, *source.Malformed), positive bool) func(context, string) (any, int, *source.Malformed) {
	return func(c context, s string) (any, int, *source.Malformed) {
		v, bad := parse(s, orAnyCurrency(c.home))
		if bad == nil && positive {
			bad = notZero(v, len(s))
		}
		return v, len(s), bad
	}
}

func notZero(v any, end int) *source.Malformed {
	zero := false
	switch v := v.(type) {
	case decimal.Decimal:
		zero = v.IsZero()
	case [3]decimal.Decimal:
		zero = v[2].IsZero()
	}
	if !zero {
		return nil
	}
	return &source.Malformed{End: end, Why: "it is zero", Help: "Leave it out where there is nothing to say."}
}

// orAnyCurrency is the currency to read plain sums in. A card without one is reported as such.
func orAnyCurrency(c money.Currency) money.Currency {
	if c.Code == "" {
		return money.Currency{Digits: 4}
	}
	return c
}

// A SaleHead is what a line of the sale's account begins with.
type SaleHead struct {
	Word   string // one of SaleHeads
	Amount        // zero where `returned` names none
}

// Amount is the sum that a line begins with, behind the word of a sale.
func (l *Line) Amount() (Amount, bool) {
	if s, ok := l.Head.(SaleHead); ok {
		return s.Amount, s.End > 0
	}
	a, ok := l.Head.(Amount)
	return a, ok
}

// readSale reads one of the words and its amount. A colon or comma between them is passed over.
func readSale(c context, s string) (any, int, *source.Malformed) {
	for _, word := range SaleHeads {
		rest, ok := strings.CutPrefix(s, word)
		if !ok || rest != "" && !isSpace(rest[0]) && rest[0] != ':' && rest[0] != ',' {
			continue
		}
		at := len(s) - len(strings.TrimLeft(rest, ":, \t"))
		if word == "returned" && !strings.ContainsAny(s[at:min(at+wordEnd(s[at:]), len(s))], "0123456789") {
			return SaleHead{Word: word}, len(s) - len(strings.TrimLeft(rest, ":,")), nil
		}
		v, end, bad := readAmount(c, s[at:])
		if bad != nil {
			return nil, 0, &source.Malformed{Start: at + bad.Start, End: at + bad.End, Why: bad.Why, Help: bad.Help, Flaw: BadAmount}
		}
		a := v.(Amount)
		for _, offset := range []*int{&a.NumberStart, &a.NumberEnd, &a.UnitStart, &a.UnitEnd, &a.End} {
			*offset += at
		}
		return SaleHead{word, a}, at + end, nil
	}
	return nil, 0, &source.Malformed{End: wordEnd(s)}
}
