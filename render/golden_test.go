package render

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"guidecoat/journal/measure"
	"guidecoat/journal/view"
	"guidecoat/render/place"
)

var update = flag.Bool("update", false, "write the goldens anew")

// Each folder in testdata/sites is a build and, for each audience, the pages that
// are made of it. Of pictures only the paths are held, of the style nothing.
func TestGolden(t *testing.T) {
	dirs, err := filepath.Glob("testdata/sites/*")
	if err != nil || len(dirs) == 0 {
		t.Fatal("no goldens", err)
	}
	for _, dir := range dirs {
		for _, to := range view.Audiences() {
			t.Run(filepath.Base(dir)+"/"+string(to), func(t *testing.T) {
				files := siteOf(t, os.DirFS(filepath.Join(dir, "in")), to, measure.NewDate(2026, 4, 1))
				want := filepath.Join(dir, "want", string(to))
				if *update {
					writeGolden(t, want, files)
				}
				compareGolden(t, want, files)
			})
		}
	}
}

func goldenText(f place.File) (string, bool) {
	switch {
	case f.Path == "style.css":
		return "", false
	case strings.HasPrefix(f.Path, "pictures/"):
		return "a picture\n", true
	}
	if strings.HasSuffix(f.Path, ".json") { // a line for each value, so that a difference shows
		var b bytes.Buffer
		if err := json.Indent(&b, f.Data, "", "  "); err != nil {
			return err.Error(), true
		}
		return b.String(), true
	}
	return string(f.Data), true
}

func writeGolden(t *testing.T, dir string, files []place.File) {
	t.Helper()
	if err := os.RemoveAll(dir); err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		text, held := goldenText(f)
		if !held {
			continue
		}
		name := filepath.Join(dir, filepath.FromSlash(f.Path))
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

func compareGolden(t *testing.T, dir string, files []place.File) {
	t.Helper()
	found := map[string]bool{}
	for _, f := range files {
		got, held := goldenText(f)
		if !held {
			continue
		}
		found[f.Path] = true
		want, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(f.Path)))
		if err != nil {
			t.Errorf("%v; if it is as it should be, run go test ./render -update", err)
			continue
		}
		if d := firstDifference(string(want), got); d != "" {
			t.Errorf("%s: %s\nIf it is as it should be, run go test ./render -update", f.Path, d)
		}
	}
	err := filepath.WalkDir(dir, func(name string, e os.DirEntry, err error) error {
		if err == nil && !e.IsDir() {
			if rel, _ := filepath.Rel(dir, name); !found[filepath.ToSlash(rel)] {
				t.Errorf("%s is no longer made", rel)
			}
		}
		return err
	})
	if err != nil {
		t.Error(err)
	}
}

func firstDifference(want, got string) string {
	if want == got {
		return ""
	}
	w, g := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range max(len(w), len(g)) {
		var a, b string
		if i < len(w) {
			a = w[i]
		}
		if i < len(g) {
			b = g[i]
		}
		if a != b {
			return fmt.Sprintf("line %d\n  want %s\n  got  %s", i+1, a, b)
		}
	}
	return "they differ"
}
