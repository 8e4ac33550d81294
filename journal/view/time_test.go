package view

import (
	"fmt"
	"io/fs"
	"os"
	"slices"
	"testing"
	"time"

	"guidecoat/journal/measure"
	"guidecoat/journal/state"
	"guidecoat/journal/trial"
)

var exampleFS = os.DirFS("../../example-build")

// mondayOf counts back to the Monday, day by day.
func mondayOf(t *testing.T, date string) string {
	d, err := time.Parse(time.DateOnly, date)
	if err != nil {
		t.Fatal(err)
	}
	for d.Weekday() != time.Monday {
		d = d.Add(-24 * time.Hour)
	}
	return d.Format(time.DateOnly)
}

// The hours by week of the example are those of its lines.
func TestWeeksOfTheExample(t *testing.T) {
	b := trial.CompileFS(t, exampleFS, ".")
	want := map[string]int{}
	for _, w := range b.Work {
		want[mondayOf(t, w.Session.Date.String())] += int(w.Minutes)
	}
	got := map[string]int{}
	weeks := Of(state.At(b, 0, trial.Today), ForWorkshop).Weeks()
	for _, w := range weeks {
		got[w.Monday.String()] = int(w.Minutes)
	}
	trial.WantEqual(t, "weeks", fmt.Sprint(got), fmt.Sprint(want))
	if len(weeks) < 10 || !slices.IsSortedFunc(weeks, func(a, b WeekOfWork) int { return int(a.Monday - b.Monday) }) {
		t.Errorf("%d weeks, or out of order", len(weeks))
	}
}

// Weeks begin on Monday across the end of a year, and what private sessions hold is
// told apart.
func TestWeeks(t *testing.T) {
	b := trial.Compile(t, trial.Session("2026-12-27.md", "time: 1h", "")+trial.Session("2026-12-28.md", "time: 2h; hands 2", "")+
		trial.Session("2027-01-03.md", "time: 30m; private", "")+trial.Session("2027-01-04.md", "time: 5h\nprivate: yes", "")+trial.Session("2027-01-06.md", "", "none"))
	for to, want := range map[Audience]string{
		ForWorkshop: "[{2026-12-21 1h} {2026-12-28 4h 30m} {2027-01-04 5h}] 0m",
		ForPublic:   "[{2026-12-21 1h} {2026-12-28 4h 30m}] 5h",
	} {
		v := Of(state.At(b, 0, trial.Today), to)
		trial.WantEqual(t, string(to), fmt.Sprint(v.Weeks(), " ", v.NotInWeeks()), want)
	}
}

// What was open on a day is what is open in a view of the build as it stood on that
// day, which is worked out anew from the notes up to it; but for snags that a later
// private line has hidden.
func TestOpenSnagsByDay(t *testing.T) {
	for name, fsys := range map[string]fs.FS{"example": exampleFS, "private lines": secretBuild("  snags: yes"), "again and again": trial.Files(againAndAgain)} {
		b := trial.CompileFS(t, fsys, ".")
		for _, to := range Audiences() {
			v := Of(state.At(b, 0, trial.Today), to)
			counts := map[measure.Date]int{}
			for _, c := range v.OpenSnags() {
				counts[c.Date] = c.Open
			}
			shown := map[string]bool{}
			for _, x := range v.Snags {
				shown[x.ID] = true
			}
			for _, s := range v.Sessions {
				open := 0
				for _, x := range Of(state.At(b, s.Date, trial.Today), to).Snags {
					if x.Open && shown[x.ID] {
						open++
					}
				}
				if got, ok := counts[s.Date]; !ok || got != open {
					t.Errorf("%s, %s: %d open at the end of %s, want %d", name, to, got, s.Date, open)
				}
			}
		}
	}
}

const againAndAgain = `
-- 2026-04-01.md --
- [ ] job seal-leaks: weeps
- [ ] job horn-mute: mute
-- 2026-04-02.md --
---
cost: 90.00 caliper; for caliper; surcharge 30.00
parts:
  caliper: fitted caliper, right; system brakes
---
- [x] seal-leaks: tightened
-- 2026-04-04.md --
---
credit: 30.00 old caliper; as surcharge; for caliper; on 2026-04-06
checks:
  brake-test: failed pulls to the left
---
- [ ] again seal-leaks: weeps again
- [x] job wiper-torn: torn, and put on a new one
-- 2026-04-08.md --
---
checks:
  brake-test: passed
  brake-leak-check: passed
---
- [x] seal-leaks: new seal
`
