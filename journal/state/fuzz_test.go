package state

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal"
	"guidecoat/journal/trial"
)

// FuzzBuild compiles a job card and two notes of whatever content. Nothing may
// panic, every fault stands in its file, and doing it twice gives the same.
func FuzzBuild(f *testing.F) {
	add := func(fsys fstest.MapFS) {
		var notes []string
		for name, file := range fsys {
			if strings.HasSuffix(name, ".md") && name != journal.CardName {
				notes = append(notes, string(file.Data))
			}
		}
		for i := range max(len(notes)-1, 1) {
			f.Add(string(fsys[journal.CardName].Data), notes[i], notes[min(i+1, len(notes)-1)])
		}
	}
	for seed := range uint64(6) {
		fsys, _ := snagBuild(seed)
		add(fsys)
		add(trial.Files(newOracle(seed).files))
		add(trial.Files(newForecastBuild(seed).archive))
	}
	f.Add(string(trial.Files(trial.Card("vehicle:\n  vin: 1G4AH59H45G1183ſ1\nfees:\n  a: 1 to 5, 2% above; plus vat 5%\nbid increment: 0.01\nresale: 1 2 3"))[journal.CardName].Data), axle, "- [x] beam-surcharge: x\n")
	f.Fuzz(func(t *testing.T, cardText, first, second string) {
		fsys := fstest.MapFS{
			journal.CardName: {Data: []byte(cardText)},
			"2026-04-01.md":  {Data: []byte(first)},
			"2026-05-01.md":  {Data: []byte(second)},
			"note.md":        {Data: []byte(second)},
		}
		if a, b := whole(t, fsys), whole(t, fsys); a != b {
			t.Errorf("compiled twice:\n%s\nand\n%s", a, b)
		}
	})
}

// whole computes all there is to compute of a build, and writes it out.
func whole(t *testing.T, fsys fs.FS) string {
	b := trial.CompileFS(t, fsys, ".")
	var out strings.Builder
	for _, f := range b.Faults {
		if s := f.Span; s.File == nil || s.Start < 0 || s.End < s.Start || int(s.End) > len(s.File.Data) || f.Flaw == "" {
			t.Fatalf("the fault %q stands from %d to %d", f.Flaw, s.Start, s.End)
		}
		fmt.Fprintln(&out, trial.FaultLine(f), f.Why, f.Help, f.Near)
	}
	for _, st := range []*State{At(b, 0, trial.Today), At(b, trial.Day("2026-04-01"), trial.Today)} {
		fmt.Fprintln(&out, stateOf(st), tallyOf(st))
		st.ToSell(nil)
		fmt.Fprintln(&out, st.Calendar(st.Ready()), st.Quotes(), len(st.Donors()))
		if c := st.Costs(); !c.Net.Equal(c.Spent.Sub(c.Credits)) {
			t.Errorf("net %s is not %s less %s", c.Net, c.Spent, c.Credits)
		}
	}
	fmt.Fprintln(&out, b.LinesLeftOut)
	if b.LinesLeftOut > 0 && len(trial.FaultsOf(b)) == 0 {
		t.Error("lines are left out and nothing is said")
	}
	answer, ok := BestBid(b.Card)
	fmt.Fprintln(&out, ok, answer.Highest)
	return out.String()
}
