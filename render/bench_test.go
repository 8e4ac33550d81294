package render

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"testing"
	"testing/fstest"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
)

// manyNotes is a build of n sessions, each like one of an evening in the garage.
func manyNotes(n int) fstest.MapFS {
	fsys := fstest.MapFS{"build.md": {Data: []byte("---\nbuild: many\ncurrency: GBP\nstages:\n  body: system body\n  brakes: system brakes\npublic:\n  money: lines\n---\nA build.\n")}}
	d := measure.NewDate(2001, 1, 1)
	prose := bytes.Repeat([]byte("The left bolt sheared, so the hole needed *drilling*, and the `M8` tap went in crooked the first time. "), 18)
	for i := range n {
		text := fmt.Sprintf(`---
title: Evening %d
stage: brakes
time:
  - 3h40 beam out
cost:
  - 138.00 rear axle beam; for part-%d; from Tidewell
  - 2 x 6.49 copper grease; as consumables
parts:
  part-%d: fitted a part; new
readings:
  disc-%d: 8.7 mm; min 8.0 mm
---
# Evening %d

%s

| a | b |
|---|---|
| 1 | 2 |

%s

- [ ] hanger-%d: hung on wire until the rubber comes
`, i, i, i, i, i, prose[:900], prose[:900], i)
		if i > 0 {
			text += fmt.Sprintf("- [x] hanger-%d: done\n", i-1)
		}
		fsys[fmt.Sprintf("%s-%05d.md", d.AddDays(i/2), i)] = &fstest.MapFile{Data: []byte(text)}
	}
	return fsys
}

func BenchmarkSite(b *testing.B) {
	for _, n := range []int{100, 1000, 8000} {
		build, err := journal.ReadBuild(manyNotes(n), ".")
		if err != nil {
			b.Fatal(err)
		}
		v := view.Of(state.At(build, 0, today), view.ForPublic)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				if _, err := allOf(Site(v, Options{Theme: theme(b)})); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/float64(n), "µs/note")
		})
		b.Run(fmt.Sprint(n, "-bare"), func(b *testing.B) {
			for b.Loop() {
				for _, s := range v.Sessions {
					if err := note.Markdown.Renderer().Render(io.Discard, s.Body.Source, s.Body.Doc()); err != nil {
						b.Fatal(err)
					}
				}
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/float64(n), "µs/note")
		})
	}
}

// BenchmarkPages makes the first page of each sort of the example, from the view on.
func BenchmarkPages(b *testing.B) {
	build, err := journal.ReadBuild(example(), ".")
	if err != nil {
		b.Fatal(err)
	}
	st := state.At(build, 0, today)
	s, err := prepare(view.ForHandover(st, view.ForBuyer, nil), Options{Theme: theme(b), Read: func(p string) ([]byte, error) { return fs.ReadFile(example(), p) }})
	if err != nil {
		b.Fatal(err)
	}
	seen := map[string]bool{}
	for _, t := range s.todo {
		if seen[t.kind] {
			continue
		}
		seen[t.kind] = true
		b.Run(t.kind, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := s.makePage(t); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
