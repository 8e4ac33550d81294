package measure

import (
	"strings"
	"testing"
	"time"

	"guidecoat/journal/source"
)

// inBounds checks what every complaint must keep: a place within the text, and words.
func inBounds(t *testing.T, text string, bad *source.Malformed) {
	t.Helper()
	if bad == nil {
		return
	}
	if bad.Start < 0 || bad.Start > bad.End || bad.End > len(text) || bad.Why == "" || bad.Help == "" {
		t.Errorf("%q: complaint out of bounds or without words: %+v", text, *bad)
	}
}

func date(t *testing.T, text string) Date {
	t.Helper()
	d, bad := ParseDate(text)
	if bad != nil {
		t.Fatalf("ParseDate(%q): %v", text, bad)
	}
	return d
}

func TestParseDate(t *testing.T) {
	// Leap years: RFC 3339 Appendix C.
	for text, want := range map[string]Date{
		"2026-04-11": 20260411, "2000-02-29": 20000229, "2024-02-29": 20240229, "1900-01-01": 19000101, "2199-12-31": 21991231,
	} {
		if got := date(t, text); got != want || got.String() != text {
			t.Errorf("ParseDate(%q) = %d, printed %q", text, got, got)
		}
	}
	for text, at := range map[string]string{
		"": "", "2026-4-1": "2026-4-1", "11/04/2026": "11/04/2026", "2026-04-11 ": "2026-04-11 ", "20260411": "20260411",
		"2026-04-1x": "2026-04-1x", "2026/04/11": "2026/04/11", "-026-04-11": "-026-04-11", "2026-W15-6": "2026-W15-6",
		"1900-02-29": "29", "2100-02-29": "29", "2026-02-30": "30", "2026-04-31": "31", "2026-04-00": "00",
		"2026-13-01": "13", "2026-00-01": "00", "1899-12-31": "1899", "2200-01-01": "2200",
	} {
		got, bad := ParseDate(text)
		inBounds(t, text, bad)
		if bad == nil || got != 0 || text[bad.Start:bad.End] != at {
			t.Errorf("ParseDate(%q) = %v, %+v, want a complaint at %q", text, got, bad, at)
		}
	}
}

func TestDays(t *testing.T) {
	for _, c := range []struct {
		from, to string
		days     int
	}{
		{"2026-03-28", "2026-03-29", 1}, // 23 hours from noon to noon in London
		{"2026-10-24", "2026-10-25", 1}, // 25 hours
		{"2024-02-28", "2024-03-01", 2},
		{"2026-02-28", "2026-03-01", 1},
		{"2026-01-01", "2027-01-01", 365},
		{"2026-04-11", "2026-04-01", -10},
		{"1900-01-01", "2199-12-31", 109572}, // 300 years of 365 days and 73 leap days, less one
	} {
		from, to := date(t, c.from), date(t, c.to)
		if got := from.DaysUntil(to); got != c.days {
			t.Errorf("%s to %s is %d days, want %d", from, to, got, c.days)
		}
		if got := from.AddDays(c.days); got != to {
			t.Errorf("%s + %d days = %s, want %s", from, c.days, got, to)
		}
	}
}

func TestDateOfTime(t *testing.T) {
	east := time.FixedZone("east", 14*60*60)
	if got := FromTime(time.Date(2026, 4, 11, 0, 30, 0, 0, east)); got != 20260411 {
		t.Errorf("the day of half past midnight is %s", got)
	}
	if got := Date(20260411).Time(); got != time.Date(2026, 4, 11, 0, 0, 0, 0, time.UTC) {
		t.Errorf("the day begins at %s", got)
	}
	if NewDate(2026, 2, 30) != 0 || NewDate(2026, 13, 1) != 0 || NewDate(1e6, 1, 1) != 0 || NewDate(2026, 4, 11) != 20260411 {
		t.Error("NewDate takes a day that does not exist, or not one that does")
	}
	var none Date
	if none.String() != "" || !none.Time().IsZero() || none.AddDays(1) != 0 {
		t.Error("the zero Date is not none")
	}
}

func FuzzDate(f *testing.F) {
	for _, text := range []string{"2026-04-11", "2024-02-29", "1900-02-29", "2026-4-1", "2199-12-31"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		d, bad := ParseDate(text)
		inBounds(t, text, bad)
		if bad != nil {
			return
		}
		// The standard library is the outside judge of what is a date.
		std, err := time.Parse(time.DateOnly, text)
		if err != nil || FromTime(std) != d || d.String() != text || !strings.HasPrefix(d.Time().String(), text) {
			t.Fatalf("ParseDate(%q) = %s, the standard library says %v, %v", text, d, std, err)
		}
		if next := d.AddDays(1); next <= d || d.DaysUntil(next) != 1 || next.AddDays(-1) != d {
			t.Fatalf("the day after %s is %s", d, next)
		}
	})
}
