package check

import (
	"slices"
	"strings"
	"testing"
)

// What is read as description though it looks like time, and what is not.
func TestTimeInWords(t *testing.T) {
	for _, c := range []struct{ line, want string }{
		// minutes without a unit
		{"3h 40 beam", "second-duration 40"},
		{"2 h 30 stripping", "second-duration 30"},
		{"2h 30 stripping bolts", "second-duration 30"},
		{"1 hour 30 wiring", "second-duration 30"},
		{"2hrs 15 wiring", "second-duration 15"},
		{"2h 05 wiring", "second-duration 05"},
		{"2h 40 rivets drilled", ""}, {"3h 40 bolts", ""}, {"3h 40 seized bolts", ""}, {"2h 20 mm hole", ""}, {"2h 15 amp fuse", ""}, {"2h 10 of them", ""},
		{"2h 10 A fuse", ""}, {"2h 40 grit on the rail", ""}, {"2h 12 beam", ""}, {"2h 40 M8 washers", ""}, {"2h 20 litre tank", ""}, {"40m 30 wiring", ""}, {"1.5h 30 wiring", ""},
		{"1h 50 percent done", ""}, {"3h 10 tiny rust holes", ""}, {"3h 10 beam, bolts cut", "second-duration 10"},
		// breaks
		{"9:00-17:00 less 1h lunch", "second-duration 1h"},
		{"9:00-17:00 lunch 30m", "second-duration 30m"},
		{"9:00-12:30 (30m tea)", "second-duration 30m"},
		{"9:00-12:30 wiring, 30 min tea break", "second-duration 30 min"},
		{"2h minus 30m", "second-duration 30m"},
		{"2h - 30m", "second-duration 30m"},
		{"2h less than planned", ""}, {"2h before lunch", ""}, {"2h - 3 m hose", ""}, {"1h less 2h lunch", ""}, {"2h tea spilt", ""},
		// more work
		{"1h beam, 30m sweeping", "second-duration 30m"},
		{"1h beam, then 1h 20m wiring", "second-duration 1h 20m"},
		{"1h beam (2 hours wiring)", "second-duration 2 hours"},
		{"1h beam and 30m sweeping", "second-duration 30m"},
		{"1h beam, 30m", "second-duration 30m"},
		{"1h glue, 24h on the clamp", ""}, {"1h glue, 20h clamped", ""}, {"3h filler, 10 minutes a coat", ""}, {"2h hose, 5m roll cut", ""}, {"2h beam and 1h lost", ""},
		{"2h primer, 24h to dry", ""}, {"2h primer, 30m drying", ""}, {"2h hose, 3m of it", ""}, {"2h hose, 3m long", ""}, {"2h hose, 30 m long", ""}, {"2h wiring, 12 volt hunting", ""},
		// ranges
		{"9:00-5:00 wiring", "past-midnight 9:00-5:00"},
		{"09:00 – 5:30", "past-midnight 09:00 – 5:30"},
		{"23:00-22:00", "past-midnight 23:00-22:00"},
		{"22:00-1:30", ""}, {"20:00-8:00", ""}, {"7:00-20:00", ""}, {"7:00-24:00", ""}, {"20h wiring", ""},
	} {
		var got []string
		for _, p := range proofread(t, folder("---\nstage: body\ntime: "+c.line+"\n---\n")) {
			if slices.Contains([]string{"second-duration", "past-midnight", "bad-duration"}, p.Check) {
				got = append(got, p.Check+" "+p.Span.Text())
			}
		}
		if strings.Join(got, ", ") != c.want {
			t.Errorf("%q: %q, want %q", c.line, got, c.want)
		}
	}
	for line, want := range map[string]string{
		"3h 05 beam":               "Write 3h 5m if these are minutes",
		"9:00-17:00 less 1h lunch": "Write the time worked, such as 7h without the break.",
	} {
		wantOf(t, "second-duration", "---\nstage: body\ntime: "+line+"\n---\n", want)
	}
	for line, want := range map[string]string{
		"9:00-5:30 beam": `"9:00-5:30" runs past midnight and is 20h 30m`, "09:00-5:00": "Write 09:00-17:00 if it ended in the afternoon, or 20h if", "23:00-22:00": "Check both times, or write 23h if it is right.",
	} {
		wantOf(t, "past-midnight", "---\nstage: body\ntime: "+line+"\n---\n", want)
	}
}
