package check

import (
	"slices"
	"strings"
	"testing"
)

// A range past midnight is told of where the end was probably meant in the afternoon.
func TestPastMidnight(t *testing.T) {
	for _, c := range []struct{ line, want string }{
		// ranges
		{"9:00-5:00 wiring", "past-midnight 9:00-5:00"},
		{"09:00 – 5:30", "past-midnight 09:00 – 5:30"},
		{"23:00-22:00", "past-midnight 23:00-22:00"},
		{"22:00-1:30", ""}, {"20:00-8:00", ""}, {"7:00-20:00", ""}, {"7:00-24:00", ""}, {"20h wiring", ""},
	} {
		var got []string
		for _, p := range proofread(t, folder("---\nstage: body\ntime: "+c.line+"\n---\n")) {
			if slices.Contains([]string{"past-midnight", "bad-duration"}, p.Check) {
				got = append(got, p.Check+" "+p.Span.Text())
			}
		}
		if strings.Join(got, ", ") != c.want {
			t.Errorf("%q: %q, want %q", c.line, got, c.want)
		}
	}
	for line, want := range map[string]string{
		"9:00-5:30 beam": `"9:00-5:30" runs past midnight and is 20h 30m`, "09:00-5:00": "Write 09:00-17:00 if it ended in the afternoon, or 20h if", "23:00-22:00": "Check both times, or write 23h if it is right.",
	} {
		wantOf(t, "past-midnight", "---\nstage: body\ntime: "+line+"\n---\n", want)
	}
}
