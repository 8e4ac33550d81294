package check

import (
	"slices"
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/problem"
	"guidecoat/journal/state"
)

// A day later than today is mentioned, one more than a year later is a warning, and
// with --as-of neither is.
func TestFutureNotes(t *testing.T) {
	for name, want := range map[string]string{"2026-11-25": "", "2026-11-26": "future-note", "2027-11-26": "future-note", "2027-11-27": "far-future-note", "2126-04-11": "far-future-note"} {
		b, err := journal.ReadBuild(folder("-- "+name+".md --\n"), ".")
		if err != nil {
			t.Fatal(err)
		}
		for asOf, want := range map[measure.Date]string{0: want, measure.NewDate(2026, 1, 1): "", measure.NewDate(2199, 1, 1): ""} {
			var got []string
			for _, p := range Run(state.At(b, asOf, today), problem.Information) {
				if p.Check == "future-note" || p.Check == "far-future-note" {
					got = append(got, p.Check)
				}
			}
			if want == "" && len(got) > 0 || want != "" && !slices.Equal(got, []string{want}) {
				t.Errorf("%s as of %s: %q, want %q", name, asOf, got, want)
			}
		}
	}
}
