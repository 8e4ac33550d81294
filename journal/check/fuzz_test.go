package check

import (
	"encoding/json"
	"io"
	"strings"
	"testing"
	"testing/fstest"

	"golang.org/x/tools/txtar"

	"guidecoat/journal/problem"
)

// FuzzCheck gives whole notes, and whole job cards, of any content: nothing
// panics, every problem stands within its file, and all of them can be printed.
func FuzzCheck(f *testing.F) {
	seed := func(example string) {
		var note, card []byte
		for _, file := range txtar.Parse([]byte(archive(example))).Files {
			switch {
			case file.Name == "build.md":
				card = file.Data
			case strings.HasSuffix(file.Name, ".md"):
				note = append(note, file.Data...)
			}
		}
		f.Add(note, card)
	}
	for _, c := range All {
		bad, good := c.Examples()
		seed(bad)
		seed(good)
	}
	for _, test := range places {
		seed(strings.NewReplacer("⟦", "", "⟧", "").Replace(test.text))
	}
	f.Fuzz(func(t *testing.T, note, card []byte) {
		fsys := fstest.MapFS{
			"build.md":      {Data: card},
			"garage.txt":    {},
			"2026-04-11.md": {Data: note},
			"2026-04-12.md": {Data: note},
			"page.md":       {Data: append([]byte("---\npage: Page\n---\n"), note...)},
			"2026-04-13.md": {Data: []byte("---\nstage: body\nparts:\n  wing: fitted wing; from Tidewell\nsold: 5150\n---\n- [x] arch-seal: sealed\n")},
		}
		found := proofread(t, fsys)
		byItself(t, fsys)
		for _, p := range found {
			c := Named(p.Check)
			if settled := p.Severity == problem.Information && strings.HasSuffix(p.Message, "settled by \"sure\""); c == nil || c.Severity != p.Severity && !settled {
				t.Fatalf("a problem of no check: %+v", p)
			}
			if f := p.Span.File; f == nil || p.Span.Start < 0 || p.Span.Start > p.Span.End || int(p.Span.End) > len(f.Data) {
				t.Fatalf("%s: out of bounds: %d to %d", p.Check, p.Span.Start, p.Span.End)
			}
			if p.Message == "" || strings.ContainsRune(p.Message+p.Help, '\n') {
				t.Fatalf("%s: message %q, help %q", p.Check, p.Message, p.Help)
			}
		}
		if n := strings.Count(printed(t, found), "\n"); n < len(found) {
			t.Fatalf("%d lines for %d problems", n, len(found))
		}
		r, w := io.Pipe()
		go func() { w.CloseWithError(problem.WriteJSON(w, found)) }()
		var got struct{ Problems []json.RawMessage }
		if err := json.NewDecoder(r).Decode(&got); err != nil || len(got.Problems) != len(found) {
			t.Fatalf("%d of %d problems as JSON: %v", len(got.Problems), len(found), err)
		}
	})
}
