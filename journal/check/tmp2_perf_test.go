package check

import (
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"
)

func dirFS(t *testing.T, m fstest.MapFS) fs.FS {
	dir := t.TempDir()
	for n, f := range m {
		os.WriteFile(filepath.Join(dir, n), f.Data, 0o666)
	}
	return os.DirFS(dir)
}
