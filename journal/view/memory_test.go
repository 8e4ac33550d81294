package view

import (
	"os"
	"reflect"
	"runtime"
	"testing"
	"weak"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/source"
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

// What is shown is the same whether notes are looked at together or a few at a time.
func TestShownAFewAtATime(t *testing.T) {
	b, err := journal.ReadBuild(os.DirFS("../../example-build"), ".")
	if err != nil {
		t.Fatal(err)
	}
	st := state.At(b, 0, b.Sessions[len(b.Sessions)-1].Date)
	for _, to := range Audiences() {
		all := ShownTo(st, to, nil)
		for _, atOnce := range []int{1, 4} {
			some := &Shown{map[*note.Line][]source.Span{}, map[*note.Note]bool{}, map[*note.Item]bool{}}
			if some.addAll(st, to, atOnce); !reflect.DeepEqual(all, some) {
				t.Errorf("for the %s, %d at once: %d lines, %d bodies, %d hidden items, want %d, %d, %d", to, atOnce,
					len(some.Lines), len(some.Bodies), len(some.Hidden), len(all.Lines), len(all.Bodies), len(all.Hidden))
			}
		}
		if len(all.Lines) < 100 || len(all.Bodies) < 20 {
			t.Errorf("for the %s only %d lines and %d bodies", to, len(all.Lines), len(all.Bodies))
		}
	}
}
