package money

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"golang.org/x/text/currency"
)

var (
	gbp = mustLookup("GBP")
	eur = mustLookup("EUR")
	sek = mustLookup("SEK")
	jpy = mustLookup("JPY")
	kwd = mustLookup("KWD")
)

func mustLookup(code string) Currency {
	c, ok := Lookup(code)
	if !ok {
		panic("no currency " + code)
	}
	return c
}

func dec(text string) decimal.Decimal { return decimal.RequireFromString(text) }

func isDec(t *testing.T, what string, got decimal.Decimal, want string) {
	t.Helper()
	if !got.Equal(dec(want)) {
		t.Errorf("%s = %s, want %s", what, got, want)
	}
}

// ISO 4217 list one, minor units; as read in Unicode CLDR 41 where the two agree.
func TestMinorDigits(t *testing.T) {
	for code, want := range map[string]int32{
		"GBP": 2, "EUR": 2, "USD": 2, "CAD": 2, "AUD": 2, "PLN": 2, "CZK": 2, "HUF": 2, "SEK": 2, "CHF": 2,
		"JPY": 0, "KRW": 0, "ISK": 0, "VND": 0,
		"KWD": 3, "BHD": 3, "TND": 3, "JOD": 3, "OMR": 3, "LYD": 3, "CLF": 4, "UYW": 4,
		"IQD": 3, "ALL": 2, "RSD": 2, "AFN": 2, "IRR": 2, "LBP": 2, "MGA": 2, // here CLDR is not ISO 4217
	} {
		if c, ok := Lookup(code); !ok || c != (Currency{code, want}) {
			t.Errorf("Lookup(%q) = %v, %v, want %d digits", code, c, ok, want)
		}
	}
	for _, word := range []string{"", "ABS", "gbp", "EURO", "XAU", "XXX", "XTS"} {
		if IsCode(word) {
			t.Errorf("IsCode(%q)", word)
		}
	}
}

// golang.org/x/text/currency carries CLDR's standard digits. They say how money
// is shown, so where coins fell out of use they are none, unlike ISO 4217's 2 (3 for IQD).
func TestDigitsAgainstCLDR(t *testing.T) {
	const shownWhole = `AFN ALL AMD COP GYD IDR IQD IRR KPW LAK LBP MGA MMK MNT MUR PKR RSD SOS SYP TZS UZS YER`
	known := 0
	for code, digits := range minorDigits {
		unit, err := currency.ParseISO(code)
		if err != nil {
			continue // newer than the data
		}
		known++
		want := int(digits)
		if strings.Contains(shownWhole, code) {
			want = 0
		}
		if got, _ := currency.Standard.Rounding(unit); got != want {
			t.Errorf("%s: CLDR has %d digits, our table %d", code, got, digits)
		}
	}
	if known < 150 {
		t.Errorf("only %d codes compared", known)
	}
}

// Half away from zero: IEEE 754-2019 §4.3, roundTiesToAway, in exact decimals.
// 2.675 and 1.005 come out as 2.67 and 1.00 where sums are binary fractions.
func TestRound(t *testing.T) {
	for _, c := range []struct {
		in   string
		c    Currency
		want string
	}{
		{"2.5", jpy, "3"}, {"3.5", jpy, "4"}, {"-2.5", jpy, "-3"}, {"2.4999", jpy, "2"},
		{"0.125", gbp, "0.13"}, {"0.135", gbp, "0.14"}, {"-0.125", gbp, "-0.13"},
		{"2.675", gbp, "2.68"}, {"1.005", gbp, "1.01"}, {"1.0005", kwd, "1.001"},
	} {
		isDec(t, "Round("+c.in+")", Round(dec(c.in), c.c), c.want)
	}
}

func TestFormatAndShow(t *testing.T) {
	for _, c := range []struct {
		in           string
		c            Currency
		format, show string
	}{
		{"1250", gbp, "1250.00", "£1,250.00"},
		{"-12", gbp, "-12.00", "-£12.00"},
		{"0", gbp, "0.00", "£0.00"},
		{"-0.001", gbp, "0.00", "£0.00"},
		{"999", eur, "999.00", "€999.00"},
		{"1234567.895", eur, "1234567.90", "€1,234,567.90"},
		{"1250", sek, "1250.00", "1,250.00 SEK"},
		{"-1250", jpy, "-1250", "-1,250 JPY"},
		{"100000", kwd, "100000.000", "100,000.000 KWD"},
	} {
		if got := Format(dec(c.in), c.c); got != c.format {
			t.Errorf("Format(%s, %s) = %q, want %q", c.in, c.c.Code, got, c.format)
		}
		if got := Show(dec(c.in), c.c); got != c.show {
			t.Errorf("Show(%s, %s) = %q, want %q", c.in, c.c.Code, got, c.show)
		}
	}
}

func TestSplit(t *testing.T) {
	for _, c := range []struct {
		whole string
		n     int
		c     Currency
		want  []string
	}{
		// Largest remainder, 100 over 1:1:1 (Hare quota, ties to the first).
		{"100", 3, jpy, []string{"34", "33", "33"}},
		{"100.00", 3, gbp, []string{"33.34", "33.33", "33.33"}},
		// From memory: 100 000 written off in three equal years.
		{"100000", 3, jpy, []string{"33334", "33333", "33333"}},
		{"-100.00", 3, gbp, []string{"-33.34", "-33.33", "-33.33"}},
		{"0.05", 6, gbp, []string{"0.01", "0.01", "0.01", "0.01", "0.01", "0"}},
		{"240.00", 6, gbp, []string{"40", "40", "40", "40", "40", "40"}},
		{"0", 2, gbp, []string{"0", "0"}},
		{"1", 1, gbp, []string{"1"}},
		{"1", 0, gbp, nil},
	} {
		got := Split(dec(c.whole), c.n, c.c)
		if len(got) != len(c.want) {
			t.Errorf("Split(%s, %d) = %v, want %v", c.whole, c.n, got, c.want)
			continue
		}
		for i := range got {
			isDec(t, "a part of "+c.whole, got[i], c.want[i])
		}
	}
}

func FuzzSplit(f *testing.F) {
	f.Add(int64(10000), 3, int32(2))
	f.Add(int64(-5), 6, int32(0))
	f.Fuzz(func(t *testing.T, units int64, n int, digits int32) {
		if n < 1 || n > 1000 || digits < 0 || digits > 4 {
			return
		}
		c := Currency{"GBP", digits}
		whole := decimal.New(units, -digits)
		parts := Split(whole, n, c)
		mirror := Split(whole.Neg(), n, c)
		sum, unit := decimal.Zero, decimal.New(1, -digits)
		for i, p := range parts {
			sum = sum.Add(p)
			if !p.Equal(Round(p, c)) || p.Abs().Sub(parts[n-1].Abs()).GreaterThan(unit) {
				t.Fatalf("part %d of %s over %d is %s", i, whole, n, p)
			}
			if i > 0 && p.Abs().GreaterThan(parts[i-1].Abs()) {
				t.Fatalf("%s over %d: a larger part follows a smaller one", whole, n)
			}
			if !p.Neg().Equal(mirror[i]) {
				t.Fatalf("%s over %d: the negative is no mirror", whole, n)
			}
		}
		if !sum.Equal(whole) {
			t.Fatalf("%s over %d adds up to %s", whole, n, sum)
		}
	})
}
