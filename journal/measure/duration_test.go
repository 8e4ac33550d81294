package measure

import (
	"fmt"
	"strings"
	"testing"
)

var durations = []struct {
	text string
	want Minutes
	rest string
}{
	{"3h40", 220, ""}, {"3h40m", 220, ""}, {"3h 40m", 220, ""}, {"3h", 180, ""}, {"40m", 40, ""}, {"40 min", 40, ""},
	{"3.5h", 210, ""}, {"2 hours", 120, ""}, {"3:40", 220, ""}, {"PT3H40M", 220, ""},
	{"1 hr", 60, ""}, {"2 hrs", 120, ""}, {"1 hour 5 minutes", 65, ""}, {"1 minute", 1, ""}, {"5 mins", 5, ""},
	{"3h5", 185, ""}, {"3h05m", 185, ""}, {"0h40", 40, ""}, {"0:40", 40, ""}, {"03:40", 220, ""}, {"90m", 90, ""}, {"24h", 1440, ""}, {"24:00", 1440, ""},
	{"3h40 beam out, seized bolts cut", 220, " beam out, seized bolts cut"},
	{"3h 40 bolts", 180, " 40 bolts"},
	{"3h 40m beam", 220, " beam"},
	{"3h 40 min\tbeam", 220, "\tbeam"},
	{"3h 40mm bolts", 180, " 40mm bolts"},
	{"3h 40 m8 bolts", 180, " 40 m8 bolts"},
	{"3:40 - 2 bolts", 220, " - 2 bolts"},
	{"3h - beam", 180, " - beam"},
	// Half a minute and more rounds up.
	{"0.5m", 1, ""}, {"0.025h", 2, ""}, {"0.01h", 1, ""}, {"1.24m", 1, ""}, {"0.125 hours", 8, ""},
	// ISO 8601 durations: RFC 5545 §3.3.6 has P15DT5H0M20S, 1 314 020 s; this is its part below a day.
	{"PT5H0M20S", 300, ""}, {"PT5H0M30S", 301, ""}, {"PT90M", 90, ""}, {"PT1.5H", 90, ""}, {"P1D", 1440, ""}, {"P0DT1H", 60, ""}, {"PT03H05M", 185, ""}, {"PT3H x", 180, " x"},
	{"19:30-21:15", 105, ""}, {"19:30 - 21:15", 105, ""}, {"19:30–21:15", 105, ""}, {"19:30 – 21:15 beam", 105, " beam"}, {"9:05-9:50", 45, ""},
	{"22:00-01:30", 210, ""}, {"20:00-24:00", 240, ""}, {"0:00-24:00", 1440, ""}, {"23:59-0:00", 1, ""}, {"21:15-19:30", 1335, ""},
}

func TestScanDuration(t *testing.T) {
	for _, c := range durations {
		got, end, bad := ScanDuration(c.text)
		if bad != nil || got != c.want || c.text[end:] != c.rest {
			t.Errorf("ScanDuration(%q) = %s, rest %q, %v; want %s", c.text, got, c.text[end:], bad, c.want)
		}
	}
	// The whole of RFC 5545's example is too long for a day's work, and is 1 314 020 s.
	if m, _, bad := scanLength("P15DT5H0M20S"); bad != nil || m != 1314020/60 {
		t.Errorf("P15DT5H0M20S is %d minutes, %v", m, bad)
	}
}

var notDurations = []struct{ text, at, why string }{
	{"", "", "no number"},
	{"beam", "beam", "no number"},
	{"x 2 beam", "x", "no number"},
	{"Painted", "Painted", "no number"},
	{"3", "3", "no unit"},
	{"3.5", "3.5", "no unit"},
	{"3 bolts", "bolts", "not a unit of time"},
	{"3 housr", "housr", "not a unit of time"},
	{"3H", "H", "not a unit of time"},
	{"3h 40", "40", "no unit"},
	{"3h90", "90", "up to 59"},
	{"3h 60m", "60", "up to 59"},
	{"3h005", "005", "up to 59"},
	{"3.5h20", "3.5h20", "both"},
	{"3h40beam", "beam", "straight into"},
	{"3h40mm", "mm", "no part of it"},
	{"3h, beam", ",", "a sign stands"},
	{"3h 40m, beam", ",", "a sign stands"},
	{"3:40:20", ":20", "no part of it"},
	{"3:60", "3:60", "not hours and minutes"},
	{"3:5", "3:5", "not hours and minutes"},
	{"24:01", "24:01", "not hours and minutes"},
	{"-3h", "-3h", "sign"},
	{"+3h", "+3h", "sign"},
	{".5h", ".5h", "before the point"},
	{"3.h", "3.h", "after the point"},
	{"1e3m", "1e3m", "exponent"},
	{"3,5h", "3,5h", "wrong places"},
	{"03h", "03h", "begins with a zero"},
	{"0h", "0h", "no time at all"},
	{"0:00", "0:00", "no time at all"},
	{"0.001h", "0.001h", "no time at all"},
	{"PT0S", "PT0S", "no time at all"},
	{"25h", "25h", "over 24 hours"},
	{"1441m", "1441m", "over 24 hours"},
	{"24h1", "24h1", "over 24 hours"},
	{"P1DT1M", "P1DT1M", "over 24 hours"},
	{"999999999999h", "999999999999h", "over 24 hours"},
	{"PT", "PT", "ISO 8601"}, {"P3", "P3", "ISO 8601"}, {"P3M", "P3M", "ISO 8601"}, {"P1DT", "P1DT", "ISO 8601"},
	{"PT1M1H", "PT1M1H", "ISO 8601"}, {"PT1.5H30M", "PT1.5H30M", "ISO 8601"}, {"P7W", "P7W", "ISO 8601"}, {"PT1HT1M", "PT1HT1M", "ISO 8601"}, {"PT1H,", "PT1H,", "ISO 8601"},
	{"10:00-10:00", "10:00-10:00", "ends when it begins"},
	{"24:00-1:00", "24:00", "no day begins"},
	{"19:30-21", "21", "time of day"},
	{"19:30-21:60", "21:60", "time of day"},
	{"19:30 - 25:00", "25:00", "time of day"},
	{"19:30-", "", "time of day"},
	{"19:30-21:15h", "h", "no part of it"},
}

func TestScanDurationRefuses(t *testing.T) {
	for _, c := range notDurations {
		got, _, bad := ScanDuration(c.text)
		inBounds(t, c.text, bad)
		if bad == nil {
			t.Errorf("ScanDuration(%q) = %s, want a complaint", c.text, got)
		} else if at := c.text[bad.Start:bad.End]; at != c.at || !strings.Contains(bad.Why, c.why) {
			t.Errorf("ScanDuration(%q) complains at %q: %s (help: %s)", c.text, at, bad.Why, bad.Help)
		}
	}
	if _, bad := ParseDuration("3h beam"); bad == nil || bad.Start != 3 {
		t.Errorf("ParseDuration took a description: %+v", bad)
	}
	if m, bad := ParseDuration(" 3h40 "); bad != nil || m != 220 {
		t.Errorf("ParseDuration with spaces around = %s, %v", m, bad)
	}
}

func TestMinutesString(t *testing.T) {
	for m, want := range map[Minutes]string{0: "0m", 40: "40m", 180: "3h", 220: "3h 40m", 6001: "100h 1m"} {
		if got := m.String(); got != want {
			t.Errorf("%d minutes print as %q, want %q", int(m), got, want)
		}
	}
	for m := Minutes(1); m <= Day; m++ {
		if back, bad := ParseDuration(m.String()); bad != nil || back != m {
			t.Fatalf("%q reads back as %d, %v", m, back, bad)
		}
	}
}

func TestParseThreeHours(t *testing.T) {
	for text, want := range map[string][3]Minutes{
		"4 6.5 9": {240, 390, 540}, "4": {240, 240, 240}, "0 0 0": {}, "3h40 4 4h30m": {220, 240, 270}, "20 40 60": {1200, 2400, 3600}, "30h 40h 1000": {1800, 2400, 60000}, "90m 1:40 PT2H": {90, 100, 120},
	} {
		if got, bad := ParseThreeHours(text); bad != nil || got != want {
			t.Errorf("ParseThreeHours(%q) = %v, %v, want %v", text, got, bad, want)
		}
	}
	for text, at := range map[string]string{
		"": "", "4 6": "4 6", "4 h 5": "h", "9 4 5": "4", "4 6 5.9": "5.9", "4 -1 5": "-1", "4, 5, 6": "4, 5, 6", "4 5 6beans": "beans", "19:30-21:15": "-21:15",
	} {
		_, bad := ParseThreeHours(text)
		inBounds(t, text, bad)
		if bad == nil || text[bad.Start:bad.End] != at {
			t.Errorf("ParseThreeHours(%q): %+v, want a complaint at %q", text, bad, at)
		}
	}
}

func FuzzDuration(f *testing.F) {
	for _, c := range durations {
		f.Add(c.text)
	}
	for _, c := range notDurations {
		f.Add(c.text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		m, end, bad := ScanDuration(text)
		inBounds(t, text, bad)
		if bad != nil {
			return
		}
		if end < 1 || end > len(text) || m < 1 || m > Day {
			t.Fatalf("ScanDuration(%q) = %d, ends at %d", text, m, end)
		}
		if again, bad := ParseDuration(text[:end]); strings.Trim(text[end:], " \t") == "" && (bad != nil || again != m) {
			t.Fatalf("ScanDuration(%q) read %q, which reads back as %s, %v", text, text[:end], again, bad)
		}
		if back, bad := ParseDuration(m.String()); bad != nil || back != m {
			t.Fatalf("%q prints as %q, which reads back as %s, %v", text, m, back, bad)
		}
	})
}

func FuzzThree(f *testing.F) {
	for _, text := range []string{"4 6.5 9", "4", "3h40 4 4h30m", "9 4 5", "0 0 0", "PT1H 2:30 3 h"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		three, bad := ParseThreeHours(text)
		inBounds(t, text, bad)
		if bad != nil {
			return
		}
		if three[0] < 0 || three[1] < three[0] || three[2] < three[1] {
			t.Fatalf("ParseThreeHours(%q) = %v", text, three)
		}
		compact := func(m Minutes) string { return strings.ReplaceAll(m.String(), " ", "") }
		printed := fmt.Sprintf("%s %s %s", compact(three[0]), compact(three[1]), compact(three[2]))
		if back, bad := ParseThreeHours(printed); three[2] < 60_000_000_000_000 && (bad != nil || back != three) {
			t.Fatalf("%q prints as %q, which reads back as %v, %v", text, printed, back, bad)
		}
	})
}

// A clock range in another way of writing is refused with the right one.
func TestOtherTimesOfDay(t *testing.T) {
	for text, want := range map[string]string{
		"19.30-21.15":           "write 19:30-21:15",
		"19.30 – 21.15 hose":    "write 19:30-21:15",
		"19h30-21h15":           "write 19:30-21:15",
		"1930-2115":             "write 19:30-21:15",
		"9.30 to 11.15, hose":   "write 9:30-11:15",
		"7pm-9pm":               "write 19:00-21:00",
		"7 pm - 9 pm hose":      "write 19:00-21:00",
		"7:30pm-9:15pm":         "write 19:30-21:15",
		"7-9pm":                 "write 19:00-21:00",
		"11-2pm":                "write 11:00-14:00",
		"11am-2p.m.":            "write 11:00-14:00",
		"12pm-1pm":              "write 12:00-13:00",
		"12am-1am":              "write 0:00-1:00",
		"7pm":                   "write how long it took",
		"7pm-9":                 "write how long it took",
		"13pm-2pm":              "",
		"25.30-26.15":           "",
		"19.70-21.15":           "",
		"3-4 bolts":             "write 3:00-4:00 if these are times of day, or one length of time",
		"10-12 beam":            "write 10:00-12:00 if",
		"9 to 5":                "write 9:00-17:00 if",
		"22-2 beam":             "write 22:00-2:00 if",
		"1-2 h beam":            "write one length of time, or when",
		"2h-3h beam":            "write one length of time, or when",
		"1-2h beam":             "write one length of time, or when",
		"3.5-4.5":               "",
		"7pm-9pmx":              "",
		"19.30-21.15-22.00":     "",
		"7" + "  " + "pm - 9am": "write 19:00-9:00",
	} {
		_, _, bad := ScanDuration(text)
		if bad == nil {
			t.Errorf("%q was read", text)
			continue
		}
		if want == "" && strings.Contains(bad.Why, "colon") || !strings.HasPrefix(bad.Help, want) {
			t.Errorf("%q: %s; %s, want %s", text, bad.Why, bad.Help, want)
		}
		if bad.Start > bad.End || bad.End > len(text) {
			t.Errorf("%q: from %d to %d", text, bad.Start, bad.End)
		}
	}
}

// A clock range in words is no length of time with a description.
func TestRangeInWords(t *testing.T) {
	for _, text := range []string{"19:30 to 21:15 second go", "19:30 until 21:15", "9:30 till 10:15", "19:30to21:15"} {
		_, _, bad := ScanDuration(text)
		if bad == nil || bad.Why != "a clock range is written with a dash" || !strings.HasSuffix(bad.Help, "0-21:15") && !strings.HasSuffix(bad.Help, "0-10:15") {
			t.Errorf("%q: %+v", text, bad)
		}
	}
	for text, want := range map[string]Minutes{"3:40 to the yard and back": 220, "3:40 until dark": 220, "19:30-21:15 to 22:00 at the latest": 105} {
		if m, _, bad := ScanDuration(text); bad != nil || m != want {
			t.Errorf("%q: %d, %v, want %d", text, m, bad, want)
		}
	}
}

// A length of time that goes on in words is not the first of them.
func TestSumsOfTime(t *testing.T) {
	for text, want := range map[string]string{
		"1 hour and a half beam":                "1h 30m",
		"1h and a quarter":                      "1h 15m",
		"2h and three quarters":                 "2h 45m",
		"an hour and 20 minutes beam":           "1h 20m",
		"An hour":                               "1h",
		"half an hour beam":                     "30m",
		"half an hour and 5 minutes":            "35m",
		"a quarter of an hour":                  "15m",
		"three quarters of an hour":             "45m",
		"2 and a half hours":                    "2h 30m",
		"2 1/2 hours":                           "2h 30m",
		"2½ h filler":                           "2h 30m",
		"2 hours and 20 minutes beam":           "2h 20m",
		"1h and 30m of filler":                  "1h 30m",
		"1 hour, 20 minutes filler":             "1h 20m",
		"3h & 20 min":                           "3h 20m",
		"2h + 1h + 20m filler":                  "3h 20m",
		"2h plus half an hour":                  "2h 30m",
		"9:00-10:30 and 13:00-14:00 both rails": "2h 30m",
		"9:00-10:30, 13:00-14:00":               "2h 30m",
		"40 min and an hour":                    "1h 40m",
	} {
		_, _, bad := ScanDuration(text)
		if bad == nil || bad.Help != "write "+want+", or a line for each" {
			t.Errorf("%q: %+v, want %s", text, bad, want)
		}
		inBounds(t, text, bad)
	}
	for text, want := range map[string]string{
		"9:00-17:00, 30m lunch": "such as 7h 30m without", "9:00-17:00, 1h tea break": "such as 7h without", "3h & 20 min off": "such as 2h 40m without", "20m, 1h lunch": "write the time worked",
	} {
		_, _, bad := ScanDuration(text)
		if bad == nil || bad.Why != "a break stands behind it" || !strings.Contains(bad.Help, want) {
			t.Errorf("%q: %+v, want %s", text, bad, want)
		}
		inBounds(t, text, bad)
	}
	for text, want := range map[string]string{"1h75": "write 2h 15m if", "1h 75m beam": "write 2h 15m if", "3h005": "write 3h 5m if", "1h9999999999999999999999": "check for digits"} {
		if _, _, bad := ScanDuration(text); bad == nil || !strings.HasPrefix(bad.Help, want) {
			t.Errorf("%q: %+v, want %s", text, bad, want)
		}
	}
	for text, want := range map[string]string{"3h x 2 beam": "6h", "1h30 × 2, beam": "3h", "19:30-20:00 *3": "1h 30m", "40m x2": "1h 20m"} {
		_, _, bad := ScanDuration(text)
		if bad == nil || !strings.HasPrefix(bad.Help, "write "+want+", or hands ") {
			t.Errorf("%q: %+v, want %s", text, bad, want)
		}
		inBounds(t, text, bad)
	}
	for text, want := range map[string]Minutes{
		"3h x-ray": 180, "3h x 12 bolts": 180, "3h beam x 2": 180, "1h and half the door": 60, "3h and 2 bolts": 180, "3h plus a second look": 180, "1h and a bit": 60, "3h & tidied": 180,
		"2h half of it waiting": 120, "40m one hour before dark": 40, "1h 3 hours late": 60, "2h + primer": 120, "2h and 40mm hose": 120,
		"1h a half door": 60, "2h and then 1h lost": 120,
	} {
		if m, _, bad := ScanDuration(text); bad != nil || m != want {
			t.Errorf("%q: %d, %+v, want %d", text, m, bad, want)
		}
	}
}
