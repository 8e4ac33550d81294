package check

import (
	"io/fs"
	"os"
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/state"
)

// byItself holds that what is said of each note of a build by itself is what is said of it
// among all.
func byItself(t testing.TB, fsys fs.FS) {
	t.Helper()
	b, err := journal.ReadBuild(fsys, ".")
	if err != nil {
		t.Fatal(err)
	}
	st := state.At(b, 0, today)
	each := map[string][]problem.Problem{}
	for _, p := range Run(st, problem.Information) {
		each[p.Span.File.Path] = append(each[p.Span.File.Path], p)
	}
	for _, w := range notesOf(b, nil) {
		name := w.note.File.Path
		if want, got := printed(t, each[name]), printed(t, RunOn(st, problem.Information, map[string]bool{name: true})); got != want {
			t.Fatalf("of %s alone it says\n%s\nand among all\n%s", name, got, want)
		}
	}
}

func TestByItself(t *testing.T) {
	byItself(t, os.DirFS("../../example-build"))
	for _, c := range All {
		bad, good := c.Examples()
		for _, example := range []string{bad, good} {
			if fsys := folder(example); !journal.IsGarage(fsys) {
				byItself(t, fsys)
			}
		}
	}
	private := privateCard("stages:\n  rear axle:\npublic:\n  money: lines\n  snags: yes\n") + "-- 2026-04-11.md --\n---\nstage: rear axle\nparts:\n  beam: ordered beam; private\ncost:\n" +
		"  - 138.00 beam; for beam; from Tidewell Dismantlers; surcharge 20.00\n  - 9.00 fees; as fees; from Harnwick\n---\nFrom Harnwick, publicly private: yes.\n\n- [ ] job tidewell-run: to Tidewell Dismantlers; private\n" +
		"-- 2026-04-12.md --\n---\nstage: rear axle\nparts:\n  beam: arrived from Tidewell Dismantlers, private\ncredit: 9.00 fees back from Harnwick; from Harnwick\n---\n" +
		"- [ ] tidewell-run: Tidewell Dismantlers is shut (private)\n- [x] beam-surcharge: Tidewell Dismantlers paid\n"
	byItself(t, folder(private))
}
