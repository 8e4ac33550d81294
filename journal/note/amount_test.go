package note

import (
	"strings"
	"testing"

	"guidecoat/journal/money"
)

// A quantity that is written in words counts where it can be meant in one way only.
func TestCountInWords(t *testing.T) {
	gbp, _ := money.Lookup("GBP")
	read := func(s string) (Amount, int, string) {
		v, end, bad := readAmount(context{home: gbp}, s)
		if bad != nil {
			if bad.Start < 0 || bad.End > len(s) || bad.Start > bad.End {
				t.Errorf("%q: the complaint stands at %d to %d", s, bad.Start, bad.End)
			}
			return Amount{}, 0, bad.Why + ". " + bad.Help
		}
		return v.(Amount), end, ""
	}
	for s, want := range map[string]string{
		"2 x 6.49 bolts": "2 6.49 bolts", "2 off 6.49 bolts": "2 6.49 bolts", "2 off @ £6.49 bolts": "2 6.49 bolts", "4 @ 3.00 bolts": "4 3 bolts", "4 at 3.00": "4 3 ",
		"6.49 each, 2 off bolts": "2 6.49 bolts", "6.49 each x2 bolts": "2 6.49 bolts", "6.49 each (x2)": "2 6.49 ", "6.49 (x2) each": "2 6.49 ", "£6.49 ea. 3 off": "3 6.49 ",
		"4 bolts at 3.00 each": "4 3 bolts at 3.00 each", "4 bolts £3 each": "4 3 bolts £3 each", "2 x 6.49 bolts each side": "2 6.49 bolts each side",
		"12.00 seals, one for each side": "1 12 seals, one for each side", "64 at the door": "1 64 at the door", "20 off the shelf clips": "1 20 off the shelf clips", "14.00 nuts (pack x 12)": "1 14 nuts (pack x 12)",
		"9.50 wire 2 x 4 mm": "1 9.5 wire 2 x 4 mm", "64.00 at 9:30": "1 64 at 9:30",
	} {
		a, end, bad := read(s)
		if got := a.Quantity.String() + " " + a.Number.String() + " " + strings.TrimLeft(s[end:], " ,"); got != want || bad != "" {
			t.Errorf("%q is read as %q, %s, want %q", s, got, bad, want)
		}
	}
	for _, s := range []string{"6.49 each", "6.49 bolts each", "6.49 bolts (x2)", "20.00 tyres x2", "20.00 tyres, 2 off", "20.00 tyres (2 off)", "6.49 apiece"} {
		if a, _, bad := read(s); !strings.Contains(bad, "of one, or of all") || !strings.Contains(bad, "2 x ") || !strings.Contains(bad, "for all") {
			t.Errorf("%q is read as %v, %s", s, a, bad)
		}
	}
}
