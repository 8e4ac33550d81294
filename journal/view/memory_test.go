package view

import (
	"os"
	"runtime"
	"testing"
	"weak"

	"guidecoat/journal"
	"guidecoat/journal/state"
)

// A site of many notes is written from its view alone, which must not hold on to what
// it was made of: a build takes three times the room of its view.
func TestViewLetsGoOfTheBuild(t *testing.T) {
	for _, to := range Audiences() {
		b, err := journal.ReadBuild(os.DirFS("../../example-build"), ".")
		if err != nil {
			t.Fatal(err)
		}
		view := Of(state.At(b, 0, b.Sessions[0].Date), to)
		build, session, note, line := weak.Make(b), weak.Make(b.Sessions[1]), weak.Make(b.Sessions[1].Note), weak.Make(b.Sessions[1].Note.Lines[0])
		runtime.KeepAlive(b)
		runtime.GC()
		for what, gone := range map[string]bool{
			"the build": build.Value() == nil, "a session": session.Value() == nil, "a note": note.Value() == nil, "a line": line.Value() == nil,
		} {
			if !gone {
				t.Errorf("for the %s: %s is kept", to, what)
			}
		}
		if len(view.Sessions) == 0 || view.Sessions[1].Body.Doc().FirstChild() == nil {
			t.Errorf("for the %s: the view lost a body", to)
		}
	}
}
