package number

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
)

// Whole sentences about what is refused stand in the tests of money and
// measure; here is where a number ends.
func TestScan(t *testing.T) {
	for _, c := range []struct {
		text, value, rest string
		places            int32
	}{
		{"0", "0", "", 0}, {"0.50 x", "0.5", " x", 2}, {"1,250.00", "1250", "", 2}, {"64, beam", "64", ", beam", 0},
		{"8.7mm", "8.7", "mm", 1}, {"3e", "3", "e", 0}, {"3e+", "3", "e+", 0}, {"999999999999.999999999999", "999999999999.999999999999", "", 12},
	} {
		n, bad := Scan(c.text)
		if bad != nil || !n.Value.Equal(decimal.RequireFromString(c.value)) || n.Places != c.places || c.text[n.End:] != c.rest {
			t.Errorf("Scan(%q) = %+v, %v", c.text, n, bad)
		}
	}
	for _, text := range []string{
		"", "x", ",5", ".", ".5", "5.", "00", "01.5", "12,50", "1,25,000", "1,250,00", "1.2.3", "8..9", "1.250,00", "1e3", "1E-3", "1.5e+2",
		"1000000000000", "0.0000000000001", strings.Repeat("9", 1<<20), strings.Repeat("1,", 1<<20) + "1",
	} {
		n, bad := Scan(text)
		if bad == nil {
			t.Errorf("Scan(%.20q) = %+v, want a complaint", text, n)
		} else if bad.End > len(text) || len(bad.Why)+len(bad.Help) > 200 {
			t.Errorf("Scan(%.20q): the complaint is out of bounds, or endless", text)
		}
	}
}

func TestSign(t *testing.T) {
	for text, want := range map[string]struct {
		length int
		minus  bool
	}{"-5": {1, true}, "\u22125": {3, true}, "\u20135": {3, true}, "+5": {1, false}, "5": {}, "": {}} {
		if length, minus := Sign(text); length != want.length || minus != want.minus {
			t.Errorf("Sign(%q) = %d, %v", text, length, minus)
		}
	}
}

func FuzzNumber(f *testing.F) {
	for _, text := range []string{"64.00", "1,250.00", "12,50", "0.5", "1e3", "00012", ".5"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		n, bad := Scan(text)
		if bad != nil {
			return
		}
		typed := strings.ReplaceAll(text[:n.End], ",", "")
		if n.Value.StringFixed(n.Places) != typed {
			t.Fatalf("Scan(%q) took %q for %s", text, typed, n.Value)
		}
	})
}
