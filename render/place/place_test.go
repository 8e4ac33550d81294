package place

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"iter"
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"guidecoat/journal/marker"
)

// A tree is the files of a site, or of any folder, by path.
type tree map[string]string

var forPublic = Site{Audience: "public", Build: "Halden"}

var small = tree{"index.html": "home", "notes/a.html": "a", "notes/b.html": "b", "photos/deep/c.jpg": "c"}

// with returns the tree with some files changed, added, or removed where "-".
func (t tree) with(changes tree) tree {
	out := maps.Clone(t)
	maps.Copy(out, changes)
	maps.DeleteFunc(out, func(_, data string) bool { return data == "-" })
	return out
}

// files gives the tree's files in order of path.
func (t tree) files() iter.Seq2[File, error] {
	return func(yield func(File, error) bool) {
		for _, path := range slices.Sorted(maps.Keys(t)) {
			if !yield(File{Path: path, Data: []byte(t[path])}, nil) {
				return
			}
		}
	}
}

// open returns an empty folder to publish in.
func open(t testing.TB) *os.Root {
	t.Helper()
	return openAt(t, t.TempDir())
}

// openIn returns an empty folder in that one, if it is there.
func openIn(t testing.TB, dir string) *os.Root {
	t.Helper()
	dir, err := os.MkdirTemp(dir, "guidecoat-test-")
	if err != nil {
		return open(t)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	return openAt(t, dir)
}

func openAt(t testing.TB, dir string) *os.Root {
	t.Helper()
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { root.Close() })
	return root
}

func put(t testing.TB, root *os.Root, site tree) Report {
	t.Helper()
	report, err := Put(root, "site", forPublic, site.files())
	if err != nil {
		t.Fatal(err)
	}
	return report
}

// read returns all that is below a folder that is not itself a folder.
func read(t testing.TB, root *os.Root, dir string) tree {
	t.Helper()
	found := tree{}
	err := fs.WalkDir(root.FS(), dir, func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		data, err := root.ReadFile(name)
		found[strings.TrimPrefix(name, dir+"/")] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return found
}

// expect checks that the site is exactly that, and that nothing stands beside it.
func expect(t testing.TB, root *os.Root, site tree) {
	t.Helper()
	want := marked(site)
	if got := read(t, root, "site"); !maps.Equal(got, want) {
		t.Errorf("the site is %v, want %v", got, want)
	}
	expectAlone(t, root, "site")
}

// marked is a site with its marker.
func marked(site tree) tree { return site.with(tree{marker.Marker: markerOf(site, "public")}) }

func markerOf(site tree, audience string) string {
	m := marker.Site{Audience: audience, Build: marker.Of("Halden"), Files: map[string]marker.Digest{}}
	for name, data := range site {
		m.Files[name] = sha256.Sum256([]byte(data))
	}
	return m.Text()
}

func expectAlone(t testing.TB, root *os.Root, names ...string) {
	t.Helper()
	entries, err := fs.ReadDir(root.FS(), ".")
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, entry := range entries {
		got = append(got, entry.Name())
	}
	if !slices.Equal(got, names) {
		t.Errorf("the folder above has %v, want %v", got, names)
	}
}

func TestPut(t *testing.T) {
	tests := []struct {
		name   string
		before tree // nil for none
		after  tree
		want   Report
	}{
		{"fresh", nil, small, Report{Written: 4}},
		{"fresh, without files", nil, tree{}, Report{}},
		{"unchanged", small, small, Report{Kept: 4, Unchanged: true}},
		{"one changed in length", small, small.with(tree{"notes/b.html": "bb"}), Report{Written: 1, Kept: 3}},
		{"one changed in content", small, small.with(tree{"notes/b.html": "B"}), Report{Written: 1, Kept: 3}},
		{"one emptied", small, small.with(tree{"notes/b.html": ""}), Report{Written: 1, Kept: 3}},
		{"one added", small, small.with(tree{"x/y": "z"}), Report{Written: 1, Kept: 4}},
		{"one removed", small, small.with(tree{"index.html": "-"}), Report{Kept: 3, Removed: 1}},
		{"one renamed", small, small.with(tree{"index.html": "-", "home.html": "home"}), Report{Written: 1, Kept: 3, Removed: 1}},
		{"a file becomes a folder", small, small.with(tree{"index.html": "-", "index.html/x": "x"}), Report{Written: 1, Kept: 3, Removed: 1}},
		{"a folder becomes a file", small, small.with(tree{"photos/deep/c.jpg": "-", "photos/deep": "x"}), Report{Written: 1, Kept: 3, Removed: 1}},
		{"all changed", small, tree{"index.html": "new"}, Report{Written: 1, Removed: 3}},
		{"all removed", small, tree{}, Report{Removed: 4}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			root := open(t)
			if test.before != nil {
				put(t, root, test.before)
				expect(t, root, test.before)
			}
			if got := put(t, root, test.after); !reflect.DeepEqual(got, test.want) {
				t.Errorf("the report is %+v, want %+v", got, test.want)
			}
			expect(t, root, test.after)
			if got := put(t, root, test.after); !got.Unchanged {
				t.Errorf("again: the report is %+v, want all unchanged", got)
			}
		})
	}
}

func TestUnchangedIsLeftAlone(t *testing.T) {
	root := open(t)
	put(t, root, small)
	before, err := root.Stat("site")
	if err != nil {
		t.Fatal(err)
	}
	put(t, root, small)
	after, err := root.Stat("site")
	if err != nil || !os.SameFile(before, after) || !before.ModTime().Equal(after.ModTime()) {
		t.Errorf("the folder is another, or was written to (%v)", err)
	}
}

func TestKeptFilesAreTheSameFiles(t *testing.T) {
	root := open(t)
	put(t, root, small)
	before, _ := root.Stat("site/notes/a.html")
	put(t, root, small.with(tree{"index.html": "new"}))
	after, err := root.Stat("site/notes/a.html")
	if err != nil || !os.SameFile(before, after) {
		t.Errorf("an unchanged file was written again (%v)", err)
	}
}

func TestEmptyFolderIsTaken(t *testing.T) {
	root := open(t)
	for _, site := range []tree{small, {}} {
		root.RemoveAll("site")
		if err := root.Mkdir("site", 0o755); err != nil {
			t.Fatal(err)
		}
		put(t, root, site)
		expect(t, root, site)
	}
}

func TestPermissionsOfTheFolderStay(t *testing.T) {
	root := open(t)
	put(t, root, small)
	if err := root.Chmod("site", 0o700); err != nil {
		t.Fatal(err)
	}
	put(t, root, small.with(tree{"index.html": "new"}))
	if info, err := root.Stat("site"); err != nil || filepath.Separator == '/' && info.Mode().Perm() != 0o700 {
		t.Errorf("a private folder is now %v (%v)", info.Mode(), err)
	}
}

// What somebody has changed in a site is kept beside it, whatever it is now, also
// where the new site has no such file.
func TestChangedFilesAreKept(t *testing.T) {
	for name, plant := range map[string]func(root *os.Root) error{
		"another text":   func(r *os.Root) error { return r.WriteFile("site/notes/a.html", []byte("mine"), 0o644) },
		"a text as long": func(r *os.Root) error { return r.WriteFile("site/notes/a.html", []byte("m"), 0o644) },
		"nothing":        func(r *os.Root) error { return r.WriteFile("site/notes/a.html", nil, 0o644) },
		"a link": func(r *os.Root) error {
			return errors.Join(r.Remove("site/notes/a.html"), r.Symlink("b.html", "site/notes/a.html"))
		},
		"a link to nothing": func(r *os.Root) error {
			return errors.Join(r.Remove("site/notes/a.html"), r.Symlink("x", "site/notes/a.html"))
		},
		"a text nobody may read": func(r *os.Root) error {
			return errors.Join(r.WriteFile("site/notes/a.html", []byte("mine"), 0o644), r.Chmod("site/notes/a.html", 0))
		},
	} {
		for _, after := range []tree{small, small.with(tree{"notes/a.html": "-"}), small.with(tree{"notes/a.html": "new"})} {
			root := open(t)
			put(t, root, small)
			if err := plant(root); err != nil {
				t.Skip(err)
			}
			before := kindOf(t, root, "site/notes/a.html")
			report := put(t, root, after)
			if !slices.Equal(report.Aside, []string{"site-kept/notes/a.html"}) {
				t.Errorf("%s: kept is %v", name, report.Aside)
			}
			if now := kindOf(t, root, "site-kept/notes/a.html"); now != before {
				t.Errorf("%s: it is now %s, was %s", name, now, before)
			}
			must(t, root.RemoveAll("site-kept"))
			expect(t, root, after)
		}
	}
}

// kindOf is what there is to know of a file: its kind, and its text or where it leads.
func kindOf(t testing.TB, root *os.Root, name string) string {
	t.Helper()
	info, err := root.Lstat(name)
	if err != nil {
		return err.Error()
	}
	text, err := root.Readlink(name)
	if err != nil && info.Mode().IsRegular() {
		root.Chmod(name, 0o644)
		data, err := root.ReadFile(name)
		root.Chmod(name, info.Mode().Perm())
		return fmt.Sprint(info.Mode().Type(), string(data), err)
	}
	return fmt.Sprint(info.Mode().Type(), text)
}

// The same files of another build are a site of their own, and it is told.
func TestAnotherBuild(t *testing.T) {
	root := open(t)
	put(t, root, small)
	for _, other := range []bool{true, false} {
		report, err := Put(root, "site", Site{Audience: "public", Build: "Van"}, small.files())
		if want := (Report{Kept: 4, Other: other, Unchanged: !other}); !reflect.DeepEqual(report, want) || err != nil {
			t.Errorf("the report is %+v, %v, want %+v", report, err, want)
		}
	}
}

// A file that somebody has made what it is to be stays as it is, and is ours again.
func TestChangedToWhatItIsToBe(t *testing.T) {
	root := open(t)
	put(t, root, small)
	must(t, root.WriteFile("site/notes/a.html", []byte("new"), 0o644))
	site := small.with(tree{"notes/a.html": "new"})
	if got, want := put(t, root, site), (Report{Kept: 4}); !reflect.DeepEqual(got, want) {
		t.Errorf("the report is %+v, want %+v", got, want)
	}
	expect(t, root, site)
}

var errHalfway = errors.New("halfway")

// halfway gives half of the tree and then an error.
func halfway(site tree) iter.Seq2[File, error] {
	return func(yield func(File, error) bool) {
		left := len(site) / 2
		for file := range site.files() {
			if left--; left < 0 {
				yield(File{}, errHalfway)
				return
			}
			if !yield(file, nil) {
				return
			}
		}
	}
}

func TestFailureLeavesTheOld(t *testing.T) {
	root := open(t)
	if _, err := Put(root, "site", forPublic, halfway(small)); err != errHalfway {
		t.Errorf("the error is %v, want the one that came with the files", err)
	}
	expectAlone(t, root)
	put(t, root, small)
	changed := tree{}
	for path := range small {
		changed[path] = "changed"
	}
	if _, err := Put(root, "site", forPublic, halfway(changed)); err != errHalfway {
		t.Errorf("the error is %v, want the one that came with the files", err)
	}
	expect(t, root, small)
	func() {
		defer func() { recover() }()
		Put(root, "site", forPublic, func(yield func(File, error) bool) {
			yield(File{Path: "new.html", Data: []byte("new")}, nil)
			panic("while rendering")
		})
	}()
	expect(t, root, small)
}
