package measure

import (
	"strings"
	"testing"
)

// The forms are those of CLDR 41 for en and en-GB (medium and long dates, and yMd), from
// memory; ISO 8601 is read as it stands.
func TestReadDate(t *testing.T) {
	near := Near{Day: 20260411}
	for text, want := range map[string]Date{
		"2026-04-11": 20260411, "2026-4-1": 20260401, "2026/08/20": 20260820, "2026.8.20": 20260820,
		"20 Aug 2026": 20260820, "20 August 2026": 20260820, "20th August, 2026": 20260820, "20-Aug-2026": 20260820, "20aug": 20260820, "20. Aug. 2026": 20260820,
		"Aug 20, 2026": 20260820, "August 20 2026": 20260820, "Sept 3": 20260903, "3 sept": 20260903, "1st of June": 20260601, "1 June": 20260601, "JUNE 1": 20260601,
		"20/8/2026": 20260820, "20.8.2026": 20260820, "8/20/2026": 20260820, "20/8": 20260820, "23/9": 20260923, "5/5": 20260505, "4/4/26": 20260404,
		"Sat 11 April": 20260411, "Saturday, 11 April 2026": 20260411, "29 Feb 2028": 20280229, "1 Dec": 20251201, "1 Jan": 20260101,
	} {
		if got, bad := ReadDate(text, near); got != want || bad != nil {
			t.Errorf("ReadDate(%q) = %v, %v, want %v", text, got, bad, want)
		}
	}
	ahead := Near{Day: 20260411, Ahead: true}
	for text, want := range map[string]Date{"1 June": 20260601, "11 April": 20260411, "10 April": 20270410, "5 Jan": 20270105, "29 Feb": 20280229, "1 Dec 2025": 20251201} {
		if got, bad := ReadDate(text, ahead); got != want || bad != nil {
			t.Errorf("ahead, ReadDate(%q) = %v, %v, want %v", text, got, bad, want)
		}
	}
	for text, words := range map[string]string{
		"5/4/2026": "2026-04-05 or 2026-05-04", "5/4": "2026-04-05 or 2026-05-04", "20/08/26": "2026-08-20 or 2020-08-26",
		"Fri 11 April": "check the day", "31 June": "YYYY-MM-DD", "next week": "YYYY-MM-DD", "20 Foo 2026": "YYYY-MM-DD", "32/13": "YYYY-MM-DD", "1 June 1850": "YYYY-MM-DD", "": "YYYY-MM-DD", "june": "YYYY-MM-DD",
	} {
		got, bad := ReadDate(text, near)
		inBounds(t, text, bad)
		if bad == nil || got != 0 || !strings.Contains(bad.Why+" "+bad.Help, words) {
			t.Errorf("ReadDate(%q) = %v, %v, want a word of %q", text, got, bad, words)
		}
	}
	// 11 April 2026 is a Saturday, by the calendar's own rule (ISO 8601).
	for text, words := range map[string]string{
		"today": "write 2026-04-11 if Saturday, 11 April", "tonight": "2026-04-11", "yesterday": "2026-04-10", "Tomorrow": "2026-04-12",
		"friday": "2026-04-10", "last friday": "2026-04-10", "last sat": "2026-04-04", "on monday": "2026-04-06", "next monday": "2026-04-13", "this thurs": "2026-04-09",
	} {
		if d, bad := ReadDate(text, near); d != 0 || bad == nil || !strings.Contains(bad.Help, words) {
			t.Errorf("ReadDate(%q) = %v, %v, want a word of %q", text, d, bad, words)
		}
	}
	for text, words := range map[string]string{"friday": "2026-04-17", "last friday": "2026-04-10", "saturday": "2026-04-18", "next tuesday": "2026-04-14", "tomorrow": "2026-04-12"} {
		if _, bad := ReadDate(text, ahead); bad == nil || !strings.Contains(bad.Help, words) {
			t.Errorf("ahead, ReadDate(%q): %v, want a word of %q", text, bad, words)
		}
	}
	for _, text := range []string{"fridge", "last", "monday week", "sunny"} {
		if _, bad := ReadDate(text, near); bad == nil || strings.Contains(bad.Why, "which day") {
			t.Errorf("ReadDate(%q): %v", text, bad)
		}
	}
	if _, bad := ReadDate("1 June", Near{}); bad == nil || !strings.Contains(bad.Why, "which year") {
		t.Errorf("without a day near it, 1 June gives %v", bad)
	}
}
