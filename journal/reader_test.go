package journal

import (
	"fmt"
	"maps"
	"slices"
	"testing"
	"testing/fstest"
)

// Reading again by one Reader gives the same builds as reading afresh, whatever
// changes between, and a build of before stays what it was.
func TestReaderReadsTheSame(t *testing.T) {
	card := "---\nbuild: Halden\ncurrency: GBP\nstages:\n  strip:\n---\n"
	opens := "---\nstage: strip\ncost:\n  - 12.00 seal; for seal-kit\nparts:\n  seal-kit: fitted seals\n---\n# One\n\n- [ ] temporary wire-tie: hung; takes 20m\n- [ ] seal-kit: odd\n- [x] nobody-opens\n"
	clears := "---\nstage: strp\ncost:\n  - 9.00 EUR tape; for no-part\n---\n# Two\n\n- [x] wire-tie: off\n- [ ] again wire-tie: back; mayor\n"
	steps := []map[string]string{
		{"build.md": card, "2026-04-01.md": opens, "2026-04-02.md": clears, "plan.md": "---\npage: The plan\n---\nText.\n", "loose.md": "Words.\n"},
		{"2026-04-03.md": clears, "loose.md": "Words.\n\nMore.\n"},
		{"2026-04-01.md": ""}, // gone: its id is now unknown
		{"2026-04-01.md": opens, "build.md": card + "Words.\n"},
		{"build.md": "---\nbuild: Halden\ncurrency: EUR\n---\n"}, // sums are now in another currency
		{"2026-04-02.md": "---\nnever ends\n", "plan.md": "\xff"},
	}
	fsys, r := fstest.MapFS{}, &Reader{}
	var before *Build
	var wasBefore string
	for i, step := range steps {
		for name, data := range step {
			if delete(fsys, name); data != "" {
				fsys[name] = &fstest.MapFile{Data: []byte(data)}
			}
		}
		got, err := r.ReadBuild(fsys, ".")
		if err != nil {
			t.Fatal(err)
		}
		want, err := ReadBuild(fsys, ".")
		if err != nil {
			t.Fatal(err)
		}
		if tellAll(got) != tellAll(want) {
			t.Errorf("step %d: read again it is\n%s\nand afresh\n%s", i, tellAll(got), tellAll(want))
		}
		if before != nil && tellAll(before) != wasBefore {
			t.Errorf("step %d changed the build of the step before", i)
		}
		if names := slices.Sorted(maps.Keys(r.kept)); len(names) != len(fsys)-1 {
			t.Errorf("step %d: it keeps %q", i, names)
		}
		before, wasBefore = got, tellAll(got)
	}
}

// Only what has changed is parsed.
func TestReaderParsesOnlyWhatChanged(t *testing.T) {
	fsys := fstest.MapFS{"build.md": {Data: []byte("---\nbuild: H\ncurrency: GBP\n---\n")}, "2026-04-01.md": {Data: []byte("One.\n")}, "2026-04-02.md": {Data: []byte("Two.\n")}}
	r := &Reader{}
	first, _ := r.ReadBuild(fsys, ".")
	fsys["2026-04-02.md"] = &fstest.MapFile{Data: []byte("Three.\n")}
	second, _ := r.ReadBuild(fsys, ".")
	if first.Sessions[0].Note.File != second.Sessions[0].Note.File || first.Sessions[1].Note.File == second.Sessions[1].Note.File {
		t.Error("the wrong notes were parsed again")
	}
}

// tellAll is everything a build tells of its notes that reading could get wrong.
func tellAll(b *Build) string {
	s := fmt.Sprintf("%s, %d left out\n", b.Card.Currency.Code, b.LinesLeftOut)
	for _, f := range b.Faults {
		s += fmt.Sprintf("%s %s %v %q %q\n", f.Flaw, f.Span.File.Path, f.Span.Begin(), f.Word, f.Why)
	}
	for _, x := range b.Sessions {
		s += x.Path + " " + x.Title + "\n"
		for _, l := range x.Note.Lines {
			s += fmt.Sprintf("  %s %s bad %v\n", l.Kind.Key, l.Text.S, b.LeftOut(l))
		}
		for _, it := range x.Note.Items {
			s += fmt.Sprintf("  item %q %q bad %v\n", it.ID, it.Words().S, b.LeftOut(it.Line))
		}
	}
	for _, a := range b.Acts {
		s += fmt.Sprintf("%s %s: %s %s %s %s, due %s, takes %s, waits for %q\n", a.What, a.ID, a.Standing.Kind, a.Standing.Words, a.Stage, a.Severity, a.Due, a.Takes, a.WaitsFor)
	}
	for _, x := range b.Pages {
		s += x.Path + " " + x.Title + "\n"
	}
	return s
}
