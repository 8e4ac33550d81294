package state

import (
	"io/fs"
	"os"
	"path"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/trial"
)

// unmet names the requirements for selling that are not met. Lines left out stand
// for the errors of the notes, which another package words.
func unmet(st *State) string {
	var errors []Stop
	if st.Build.LinesLeftOut > 0 {
		errors = []Stop{{Text: "lines left out", Span: st.Build.Card.Note.File.Span(0, 0)}}
	}
	return names(st.ToSell(errors))
}

func names(list []Requirement) string {
	var out []string
	for _, r := range list {
		if !r.Met() {
			out = append(out, r.Name)
		}
	}
	return strings.Join(out, " ")
}

// The example, date by date: what stands in the way of selling it and of driving it.
// Each row holds until the next.
func TestExampleWalk(t *testing.T) {
	_, b := exampleBuild(t)
	rows := []struct{ from, sell, drive string }{
		{"2026-03-26", "safety", "dangerous papers"}, // bought, and nobody has looked at what was hit
		{"2026-03-31", "temporary safety", "dangerous papers"},
		{"2026-04-02", "temporary safety minor parts", "dangerous papers"},
		{"2026-04-18", "temporary safety minor parts money", "dangerous papers"},
		{"2026-05-25", "temporary safety minor parts", "dangerous papers"}, // the surcharge is back
		{"2026-06-28", "safety minor", "dangerous papers"},                 // the last fix is put right, the last part fitted
		{"2026-07-02", "safety minor", ""},                                 // the brakes are tested
		{"2026-07-04", "safety minor inspection", "inspection"},            // the lamps fail
		{"2026-07-06", "safety minor", ""},                                 // the retest
		{"2026-07-11", "", ""},                                             // wheel nuts after 45 miles, the seam, the union
	}
	row := -1
	for _, s := range b.Sessions {
		for row+1 < len(rows) && rows[row+1].from <= s.Date.String() {
			row++
		}
		st := At(b, s.Date, trial.Today)
		trial.WantEqual(t, "to sell on "+s.Date.String(), unmet(st), rows[row].sell)
		trial.WantEqual(t, "to drive on "+s.Date.String(), names(st.ToDrive(nil)), rows[row].drive)
	}
}

// settledTwice are the items of the example that a second line would settle as well:
// the test station repeated those checks and scans.
var settledTwice = []string{"brake-test", "brake-leak-check", "scan-brakes-", "scan-restraints-", "scan-trailer-B1730-13"}

// Without one clearing line exactly what that line cleared stands in the way.
func TestExampleWithoutOneClearingLine(t *testing.T) {
	fsys, b := exampleBuild(t)
	tried := map[fact.Source]int{}
	for _, s := range At(b, 0, trial.Today).Snags {
		by := s.ClearedBy()
		if by == nil || by.Item != nil && by.Item == s.Events[len(s.Events)-2].Item { // opened and cleared by one line
			continue
		}
		want := "minor"
		switch {
		case s.Source == fact.FromSurcharge:
			want = "money"
		case s.Kind == "temporary":
			want = "temporary safety"
		case s.Source == fact.FromInspection:
			want = "safety inspection"
		case s.Severity >= note.Major:
			want = "safety"
		}
		for _, id := range settledTwice {
			if strings.HasPrefix(s.ID, id) {
				want = ""
			}
		}
		tried[s.Source]++
		got := trial.CompileFS(t, withoutEvent(t, fsys, s, by), ".")
		trial.WantEqual(t, "without the line that clears "+s.Label(), unmet(At(got, 0, trial.Today)), want)
	}
	for from, least := range map[fact.Source]int{fact.FromNote: 25, fact.FromDue: 7, fact.FromReading: 1, fact.FromScan: 7, fact.FromSurcharge: 1, fact.FromCheck: 2, fact.FromFastener: 8, fact.FromInspection: 1} {
		if tried[from] < least {
			t.Errorf("%d tried of source %s, want at least %d", tried[from], from, least)
		}
	}
}

// withoutEvent is the build without the line of an event. What a key would miss is given
// another name instead, so that nothing else changes.
func withoutEvent(t *testing.T, fsys fs.FS, s *Snag, by *Event) fs.FS {
	t.Helper()
	n, file := by.Span.Begin().Line-1, by.Span.File.Path
	return edited(t, fsys, file, func(lines []string) {
		was := lines[n]
		switch s.Source {
		case fact.FromNote:
			lines[n] = ""
		case fact.FromSurcharge:
			lines[n] = strings.Replace(was, "as surcharge", "as refund", 1)
		case fact.FromDue, fact.FromCheck, fact.FromFastener:
			lines[n] = strings.Replace(was, s.ID+":", "quite-other:", 1)
		case fact.FromInspection:
			lines[n] = strings.Replace(was, "passed", "failed", 1)
		case fact.FromReading:
			lines[n] = strings.Replace(was, strings.TrimPrefix(s.ID, "reading-")+":", "quite-other:", 1)
		case fact.FromScan:
			lines[n] = strings.Replace(was, "scan", "text", 1)
		}
		if lines[n] == was {
			t.Fatalf("%s:%d: cannot take %q out", file, n+1, was)
		}
	})
}

// edited is a copy of the notes with the lines of one file changed.
func edited(t *testing.T, fsys fs.FS, file string, change func(lines []string)) fstest.MapFS {
	t.Helper()
	out := fstest.MapFS{}
	err := fs.WalkDir(fsys, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			if err == nil && strings.HasPrefix(p, "site") {
				return fs.SkipDir
			}
			return err
		}
		f := &fstest.MapFile{}
		if path.Ext(p) == ".md" {
			if f.Data, err = fs.ReadFile(fsys, p); err != nil {
				return err
			}
		}
		if p == file {
			lines := strings.Split(string(f.Data), "\n")
			change(lines)
			f.Data = []byte(strings.Join(lines, "\n"))
		}
		out[p] = f
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// A part of a safety system that was never fitted stops the parts, and so do the
// details of the card the record.
func TestExamplePartsAndRecord(t *testing.T) {
	fsys, b := exampleBuild(t)
	tried := 0
	for _, p := range At(b, 0, trial.Today).Parts {
		if !note.IsSafety(p.System) || !p.Fitted() {
			continue
		}
		changed := fs.FS(fsys)
		for _, l := range p.Lines {
			if l.State == p.State {
				changed = edited(t, changed, l.Session.Path, func(lines []string) {
					n := l.Line.HeadSpan().Begin().Line - 1
					lines[n] = strings.Replace(lines[n], l.State, "arrived", 1)
				})
			}
		}
		tried++
		trial.WantEqual(t, "without "+p.ID+" fitted", unmet(At(trial.CompileFS(t, changed, "."), 0, trial.Today)), "parts")
	}
	if tried < 10 {
		t.Errorf("%d parts tried", tried)
	}
	without := func(words ...string) string {
		changed := edited(t, os.DirFS("../../example-build"), journal.CardName, func(lines []string) {
			for i, l := range lines {
				for _, w := range words {
					if strings.HasPrefix(l, "  "+w+":") {
						lines[i] = ""
					}
				}
			}
		})
		return unmet(At(trial.CompileFS(t, changed, "."), 0, trial.Today))
	}
	trial.WantEqual(t, "no category", without("category"), "record")
	trial.WantEqual(t, "no vin", without("vin"), "")
	trial.WantEqual(t, "neither vin nor registration", without("vin", "registration"), "record")
	trial.WantEqual(t, "no mileage on the card", without("mileage"), "") // sessions note the odometer
}
