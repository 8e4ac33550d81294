package note

import (
	"regexp"
	"strings"

	"guidecoat/journal/money"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// A Band is one step of a fee over the hammer price.
type Band struct {
	// Fixed is the fee as a sum, or Percent as a part of the whole hammer price; the other is zero.
	Fixed, Percent decimal.Decimal
	// UpTo is the highest hammer price of the band, inclusive. Open says that it has none.
	UpTo decimal.Decimal
	Open bool
}

const bandHelp = "Write the bands in rising order, such as \"75 to 500, 130 to 1000, 12% above\", or a single fee."

// taxAtEnd is tax that comes on top, in other words than the clause's.
var taxAtEnd = regexp.MustCompile(`(?i)(?:\+ ?|(?:plus|ex\.?|excl\.?|excluding|without) )(?:vat|tax)(?: [0-9.]+ ?%)?$`)

// readBands reads `FEE to LIMIT, FEE to LIMIT, FEE above`, or a single FEE.
// A comma parts two bands only before a space, so that 1,250 stays one number.
func readBands(c context, s string) (any, int, *source.Malformed) {
	if at := taxAtEnd.FindStringIndex(s); at != nil {
		return nil, len(s), &source.Malformed{Start: at[0], End: at[1], Why: "tax is added by a clause", Help: "Write \"; plus vat\" instead."}
	}
	home := orAnyCurrency(c.home)
	var list []Band
	at := 0
	for piece := range strings.SplitSeq(s, ", ") {
		start, end := trim(s, at, at+len(piece))
		at += len(piece) + len(", ")
		b, bad := readBand(s[start:end], home)
		if bad != nil {
			return nil, len(s), &source.Malformed{Start: start + bad.Start, End: start + bad.End, Why: bad.Why, Help: bandHelp}
		}
		why, above := "", strings.HasSuffix(s[start:end], " above")
		switch {
		case len(list) > 0 && list[len(list)-1].Open:
			why = "the band before it has no upper end, so this one can never apply"
		case len(list) > 0 && !b.Open && !b.UpTo.GreaterThan(list[len(list)-1].UpTo):
			why = "the bands do not rise"
		case len(list) == 0 && b.Open && above:
			why = "\"above\" needs a band below it"
		case len(list) > 0 && b.Open && !above:
			why = "it says neither up to which price it holds nor \"above\""
		}
		if why != "" {
			return nil, len(s), &source.Malformed{Start: start, End: end, Why: why, Help: bandHelp}
		}
		list = append(list, b)
	}
	if !list[len(list)-1].Open {
		return nil, len(s), &source.Malformed{End: len(s), Why: "the last band, which ends in \"above\", is missing", Help: bandHelp}
	}
	return list, len(s), nil
}

func readBand(s string, home money.Currency) (Band, *source.Malformed) {
	var b Band
	fee, limit, hasLimit := strings.Cut(s, " to ")
	switch {
	case hasLimit:
		var bad *source.Malformed
		start, end := trim(s, len(fee)+len(" to "), len(s))
		if b.UpTo, bad = money.ParsePlain(strings.TrimSpace(limit), home); bad != nil {
			return b, &source.Malformed{Start: start, End: end, Why: bad.Why}
		}
	default:
		fee, b.Open = strings.TrimSuffix(s, " above"), true
	}
	fee = strings.TrimSpace(fee)
	if sign := strings.IndexByte(fee, '%') + 1; sign > 0 && sign < len(fee) {
		start, end := trim(fee, sign, len(fee))
		return b, &source.Malformed{Start: start, End: end, Why: "a fee ends at its sign %"}
	}
	var bad *source.Malformed
	if strings.HasSuffix(fee, "%") {
		b.Percent, bad = money.ParsePercent(fee)
	} else {
		b.Fixed, bad = money.ParsePlain(fee, home)
	}
	return b, bad
}
