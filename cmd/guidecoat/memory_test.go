package main

import (
	"bytes"
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// publishTo publishes as on one certain day.
func publishTo(t *testing.T, cache, dir, to string, args ...string) string {
	t.Helper()
	var out, errs bytes.Buffer
	day := func() time.Time { return time.Date(2026, 7, 1, 12, 0, 0, 0, time.UTC) }
	w := world{append([]string{"publish", dir, "--to", to}, args...), bytes.NewReader(nil), &out, &errs, func(string) string { return "" }, day, cache}
	if code := run(context.Background(), w); code != exitDone {
		t.Fatalf("exit code %d\n%s", code, errs.String())
	}
	return errs.String()
}

func filesIn(t *testing.T, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := os.ReadFile(filepath.Join(dir, path))
		files[path] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}
