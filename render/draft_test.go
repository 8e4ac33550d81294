package render

import (
	"bytes"
	"io/fs"
	"slices"
	"sync"
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
	"guidecoat/render/place"
)

// A draft makes the same bytes as the whole site, whoever else is asking.
func TestDraft(t *testing.T) {
	b, err := journal.ReadBuild(example(), ".")
	if err != nil {
		t.Fatal(err)
	}
	v := view.Of(state.At(b, 0, today), view.ForWorkshop)
	want := siteOfView(t, example(), b, v)
	o := Options{Theme: theme(t), Version: "test", Read: func(p string) ([]byte, error) { return fs.ReadFile(example(), p) }, Store: pictures}
	for _, s := range b.Sessions {
		o.Notes = append(o.Notes, RawNote{File: s.Note.File})
	}
	d, err := NewDraft(v, o)
	if err != nil {
		t.Fatal(err)
	}
	noted := map[string]bool{"notes/index.html": true, d.s.paths.notes[o.Notes[0].File.Path]: true} // siteOfView says something of the first note
	var wg sync.WaitGroup
	for _, f := range want {
		if noted[f.Path] {
			continue
		}
		wg.Go(func() {
			files, err := d.Make(f.Path)
			if err != nil {
				t.Error(err)
			}
			at := slices.IndexFunc(files, func(g place.File) bool { return g.Path == f.Path })
			if at < 0 || !bytes.Equal(files[at].Data, f.Data) {
				t.Errorf("%s differs from that of the whole site", f.Path)
			}
		})
	}
	wg.Wait()
	for _, path := range []string{"", ".", "../build.md", "build.md", "sessions", "no.html"} {
		files, err := d.Make(path)
		if err != nil || slices.ContainsFunc(files, func(f place.File) bool { return f.Path == path }) {
			t.Errorf("%q: %v", path, err)
		}
	}
}
