package tongue

import (
	"testing"

	"github.com/shopspring/decimal"

	"guidecoat/journal/measure"
	"guidecoat/journal/money"
)

// Plural forms, dates and sums as CLDR 48 has them: what Intl.PluralRules, DateTimeFormat and
// NumberFormat of Node 20 (ICU 78.2) gave for en-GB, de, nb and fr; of zero in French the one.
func TestAsInCLDR(t *testing.T) {
	d, gbp := measure.NewDate(2026, 4, 1), money.Currency{Code: "EUR", Digits: 2}
	for code, want := range map[string][6]string{
		"en": {"0\u00a0days", "1\u00a0day", "2\u00a0days", "1\u00a0April 2026", "11\u00a0Apr", "−€1,234.50"},
		"de": {"0\u00a0Tage", "1\u00a0Tag", "2\u00a0Tage", "1.\u00a0April 2026", "11.\u00a0Apr.", "−1.234,50\u00a0€"},
		"nb": {"0\u00a0dager", "1\u00a0dag", "2\u00a0dager", "1.\u00a0april 2026", "11.\u00a0apr.", "−1\u00a0234,50\u00a0€"},
		"fr": {"0\u00a0jour", "1\u00a0jour", "2\u00a0jours", "1\u00a0avril 2026", "11\u00a0avr.", "−1\u202f234,50\u00a0€"},
	} {
		l := Of(code, nil)
		got := [6]string{l.Say("%d days", 0), l.Say("%d days", 1), l.Say("%d days", 2), l.Day(d), l.ShortDay(d.AddDays(10), false), l.Sum(decimal.RequireFromString("-1234.5"), gbp)}
		if got != want {
			t.Errorf("%s: %q, not %q", code, got, want)
		}
	}
}
