package note

import (
	"strings"

	"guidecoat/journal/source"
)

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
