package themes

import (
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"
)

// A pipe in a builder's own theme is told of, and not waited for.
func TestPipesInThemes(t *testing.T) {
	for _, name := range []string{styleFile, extraFile, folder + "/session.html", folder + "/_mine.html"} {
		own := fstest.MapFS{name: {Mode: fs.ModeNamedPipe}}
		if _, err := Load(Default, Layer{"theme", own}); err == nil || !strings.Contains(err.Error(), name) || !strings.Contains(err.Error(), "not a file") {
			t.Errorf("%s: the error is %v", name, err)
		}
	}
}
