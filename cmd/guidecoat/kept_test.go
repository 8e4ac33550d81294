package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"golang.org/x/tools/txtar"
)

// plantHalden writes the build of the scripts into a new folder called halden.
func plantHalden(t *testing.T, in string) string {
	t.Helper()
	archive, err := txtar.ParseFile("testdata/halden.txtar")
	if err != nil {
		t.Fatal(err)
	}
	dir := filepath.Join(in, "halden")
	for _, f := range archive.Files {
		path := filepath.Join(dir, f.Name)
		if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o755), os.WriteFile(path, f.Data, 0o644)); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// lockUp takes from everybody the right to write to a folder and what is in it.
func lockUp(t *testing.T, dir string) {
	t.Helper()
	modes(t, dir, 0o555, 0o444)
	t.Cleanup(func() { modes(t, dir, 0o755, 0o644) }) // or it could not be removed
}

func modes(t *testing.T, dir string, folders, files fs.FileMode) {
	t.Helper()
	err := filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if e.IsDir() {
			return os.Chmod(path, folders)
		}
		return os.Chmod(path, files)
	})
	if err != nil {
		t.Fatal(err)
	}
}

// exactly is all there is to know of a folder: what is in it, when it was written,
// and who may do what.
func exactly(t *testing.T, dir string) map[string]string {
	t.Helper()
	found := tree(t, dir)
	err := filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		info, err := e.Info()
		if err == nil {
			found[path] = fmt.Sprint(info.Mode(), info.ModTime())
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return found
}

// on runs the program on a day and holds it to an exit code and words.
func on(t *testing.T, day time.Time, cache string, code int, words string, args ...string) (stdout string) {
	t.Helper()
	var out, errs bytes.Buffer
	w := world{args, strings.NewReader(""), &out, &errs, func(string) string { return "" }, func() time.Time { return day }, cache}
	if got := run(context.Background(), w); got != code || !strings.Contains(errs.String(), words) {
		t.Errorf("%q exits %d, want %d and %q:\n%.2000s", args, got, code, words, errs.String())
	}
	return out.String()
}

// Whatever is asked about them, notes that nobody may write to are read, and stay to
// the byte and the second as they were.
func TestNotesStayAsTheyWere(t *testing.T) {
	dir := plantHalden(t, t.TempDir())
	lockUp(t, dir)
	before, elsewhere := exactly(t, dir), t.TempDir()
	readEverything(t, dir, elsewhere)
	p := startPreview(t, dir)
	p.holds("", 200, "Halden Fjord estate")
	p.stop()
	if after := exactly(t, dir); !maps.Equal(before, after) {
		t.Errorf("the notes are %v, were %v", after, before)
	}
}

// readEverything runs every command that only reads the notes.
func readEverything(t *testing.T, dir, elsewhere string) {
	t.Helper()
	for _, args := range [][]string{
		{"proofread", dir, "--json"}, {"costs", dir}, {"snags", dir}, {"parts", dir}, {"bid", dir},
		{"publish", dir, "--to", filepath.Join(elsewhere, "site")},
		{"handover", dir, "--uncleared", "--to", filepath.Join(elsewhere, "pack")},
	} {
		code := exitDone
		if args[0] == "handover" {
			code = exitProblems
		}
		if out := on(t, theDay(), t.TempDir(), code, "", args...); out == "" {
			t.Errorf("%q says nothing", args)
		}
	}
}

// A clock set back changes what is late, and nothing else: notes of days to come are
// read, and files of days to come are replaced by what was asked for.
func TestClockSetBack(t *testing.T) {
	in := t.TempDir()
	dir, cache, site := plantHalden(t, in), t.TempDir(), filepath.Join(in, "site")
	on(t, theDay(), cache, exitDone, "site: ", "publish", dir, "--to", site)
	before := tree(t, dir)
	for year, ofFiles := range map[int]int{1970: 2106, 2001: 1971, 2106: 2200} {
		for _, root := range []string{site, cache} {
			err := filepath.WalkDir(root, func(path string, e fs.DirEntry, err error) error {
				to := time.Date(ofFiles, 1, 2, 3, 4, 5, 0, time.UTC)
				return errors.Join(err, os.Chtimes(path, to, to))
			})
			if err != nil {
				t.Fatal(err)
			}
		}
		page := filepath.Join(site, "index.html") // somebody has scribbled over it, by the clock before
		info, err := os.Stat(page)
		if err == nil {
			err = os.WriteFile(page, bytes.Repeat([]byte("x"), int(info.Size())), 0o644)
		}
		if err != nil {
			t.Fatal(err)
		}
		day := time.Date(year, 2, 3, 4, 5, 6, 0, time.UTC)
		on(t, day, cache, exitDone, "site: ", "publish", dir, "--to", site)
		anew := filepath.Join(t.TempDir(), "site")
		on(t, day, "", exitDone, "", "publish", dir, "--to", anew)
		if got, want := filesIn(t, site), filesIn(t, anew); !maps.Equal(got, want) {
			t.Errorf("%d: the site is not what publishing anew makes", year)
		}
		on(t, day, cache, exitDone, "nothing has changed", "publish", dir, "--to", site)
	}
	if !maps.Equal(before, tree(t, dir)) {
		t.Error("the notes have changed")
	}
}
