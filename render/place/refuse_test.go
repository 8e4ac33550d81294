package place

import (
	"errors"
	"io/fs"
	"maps"
	"os"
	"path"
	"reflect"
	"runtime"
	"strings"
	"testing"
	"time"

	"guidecoat/journal/marker"
)

// plants makes a folder called site that holds those files.
func plants(files tree) func(*os.Root) error {
	return func(r *os.Root) (err error) {
		for name, data := range files {
			err = errors.Join(err, r.MkdirAll(path.Dir("site/"+name), 0o755), r.WriteFile("site/"+name, []byte(data), 0o644))
		}
		return err
	}
}

func TestRefusedFolders(t *testing.T) {
	tests := []struct {
		name  string
		plant func(root *os.Root) error
		want  string // in the error
	}{
		{"somebody's files", plants(tree{"thesis.txt": ""}),
			`the folder "site" holds files that guidecoat did not put there, such as "thesis.txt"; publish to another folder`},
		{"notes", plants(tree{".hidden": "", "2026-04-11.md": ""}),
			`the folder "site" holds your note "2026-04-11.md", which guidecoat did not put there and would remove; publish to another folder, or move the note out`},
		{"another audience", plants(tree{marker.Marker: markerOf(small, "workshop")}),
			`the folder "site" holds the site for "workshop"; publish the one for "public" to another folder, or remove it`},
		{"a repository", plants(tree{marker.Marker: markerOf(nil, "public"), ".git/HEAD": ""}),
			`the folder "site" holds ".git", which would be removed`},
		{"a site in which somebody has put a file", plants(marked(tree{"photos/a.jpg": ""}).with(tree{"photos/the only one.jpg": ""})),
			`the folder "site" holds "photos/the only one.jpg", which guidecoat did not put there and would remove; take it out, or publish to another folder`},
		{"a site in which somebody has put a note", plants(marked(small).with(tree{"notes/2026-04-11.MD": ""})),
			`the folder "site" holds your note "notes/2026-04-11.MD"`},
		{"a site in which somebody has put a folder", plants(marked(small).with(tree{"mine/deep/x": ""})),
			`the folder "site" holds "mine/deep/x", which guidecoat did not put there`},
		{"a site in which somebody has put a folder named as one of our files", plants(marked(small).with(tree{"index.html": "-", "index.html/x": ""})),
			`the folder "site" holds "index.html/x", which guidecoat did not put there`},
		{"a site in which somebody has put a link", func(r *os.Root) error {
			return errors.Join(plants(marked(tree{"a": ""}))(r), r.Symlink("/nowhere", "site/x"))
		}, `the folder "site" holds "x", which guidecoat did not put there and would remove`},
		{"a site, and what looks like leftovers in it", plants(marked(small).with(tree{"notes/.DS_Store/x": ""})),
			`the folder "site" holds "notes/.DS_Store/x", which`},
		{"a job card beside a marker without a list", plants(tree{marker.Marker: "guidecoat site for public\n", "build.md": "x", "2026-04-11.md": "x"}),
			`holds your note "2026-04-11.md"`},
		{"a job card beside a whole marker", plants(marked(tree{"a": ""}).with(tree{"build.md": "x"})),
			`holds your note "build.md"`},
		{"photos beside a marker without a list", plants(tree{marker.Marker: "guidecoat site for public\n", "a.jpg": "x"}),
			`the file ".guidecoat" in the folder "site" is damaged or of an earlier version, and does not prove that guidecoat put all there; ` +
				`if nothing in that folder is yours, delete it and publish again; otherwise publish to another folder`},
		{"a site of an earlier version", plants(small.with(tree{marker.Marker: "guidecoat site for public\nindex.html\nnotes/a.html\nnotes/b.html\nphotos/deep/c.jpg\n"})),
			`is damaged or of an earlier version`},
		{"a marker that is empty", plants(tree{marker.Marker: "", "a": ""}), `is damaged or of an earlier version`},
		{"a marker cut short", plants(small.with(tree{marker.Marker: markerOf(small, "public")[:200]})), `is damaged or of an earlier version`},
		{"a marker that lists notes", plants(marked(tree{"deep/2026-04-11.md": "x"})), `is damaged or of an earlier version`},
		{"a marker that is a folder", plants(tree{marker.Marker + "/x": ""}), `such as ".guidecoat"`},
		{"a marker that is a link", func(r *os.Root) error {
			return errors.Join(plants(tree{"mark": markerOf(tree{"mark": "x"}, "public")})(r), r.Symlink("mark", "site/"+marker.Marker))
		}, `holds files that guidecoat did not put there`},
		{"a file", func(r *os.Root) error {
			return r.WriteFile("site", nil, 0o644)
		}, `"site" is a file, not a folder; publish to another folder, or remove it`},
		{"a link to a site", func(r *os.Root) error {
			return errors.Join(plants(marked(small))(r), r.Rename("site", "elsewhere"), r.Symlink("elsewhere", "site"))
		}, `"site" is a symbolic link; publish to the folder that it leads to, or remove it`},
		{"a link to nothing", func(r *os.Root) error {
			return r.Symlink("/nowhere", "site")
		}, `"site" is a symbolic link`},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			root := open(t)
			if err := test.plant(root); err != nil {
				t.Skip(err)
			}
			before := listing(t, root)
			_, err := Put(root, "site", forPublic, small.files())
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("the error is %v, want %s", err, test.want)
			}
			if after := listing(t, root); !maps.Equal(before, after) {
				t.Errorf("the folder was changed: %v, before %v", after, before)
			}
		})
	}
}

// listing returns everything in the folder, with its kind.
func listing(t *testing.T, root *os.Root) map[string]string {
	t.Helper()
	found := map[string]string{}
	var walk func(dir string)
	walk = func(dir string) {
		in, err := root.Open(dir)
		if err != nil {
			t.Fatal(err)
		}
		defer in.Close()
		entries, err := in.ReadDir(-1)
		if err != nil {
			t.Fatal(err)
		}
		for _, entry := range entries {
			name := dir + "/" + entry.Name()
			found[name] = entry.Type().String()
			if entry.IsDir() {
				walk(name)
			}
		}
	}
	walk(".")
	return found
}

func TestRefusedNames(t *testing.T) {
	root := open(t)
	for _, name := range []string{"", ".", "..", "../site", "a/b", `a\b`, "/site", "site/"} {
		if _, err := Put(root, name, forPublic, small.files()); err == nil {
			t.Errorf("a folder called %q was published to", name)
		}
	}
	for _, audience := range []string{"", "a\nb"} {
		if _, err := Put(root, "site", Site{Audience: audience, Build: "Halden"}, small.files()); err == nil {
			t.Errorf("a site for %q was published", audience)
		}
	}
	expectAlone(t, root)
}

// A name so long that nothing can be written beside the folder is told as that.
func TestTooLongNames(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("a path is counted in whole there")
	}
	for _, length := range []int{245, 300} { // with what stands beside it too long, and too long itself
		root := open(t)
		_, err := Put(root, strings.Repeat("s", length), forPublic, small.files())
		if err == nil || !strings.Contains(err.Error(), "publish to a folder with a shorter name") {
			t.Errorf("%d: the error is %v", length, err)
		}
		expectAlone(t, root)
	}
	root := open(t)
	put(t, root, small)
	_, err := Put(root, "site", forPublic, small.with(tree{"a/" + strings.Repeat("é", 150): "x"}).files())
	if err == nil || !strings.Contains(err.Error(), "file name too long") {
		t.Errorf("a file of the site: the error is %v", err)
	}
	expect(t, root, small)
}

func TestRefusedPaths(t *testing.T) {
	tests := []struct {
		paths []string
		want  string // in the error; none where the paths are fine
	}{
		{[]string{"a", "b/a", "b/c", "b-c", "c/é.html", "..a", "a..b"}, ""},
		{[]string{"b/x", "b/y/x", "b/z"}, ""},
		{[]string{""}, `"" is not a path within the site`},
		{[]string{"."}, `"." is not a path within the site`},
		{[]string{".."}, `".." is not a path within the site`},
		{[]string{"../x"}, `"../x" is not a path within the site`},
		{[]string{"a/../../x"}, `"a/../../x" is not a path within the site`},
		{[]string{"/etc/x"}, `"/etc/x" is not a path within the site`},
		{[]string{"a//b"}, `"a//b" is not a path within the site`},
		{[]string{"a/"}, `"a/" is not a path within the site`},
		{[]string{"a\xff"}, `"a\xff" is not a path within the site`},
		{[]string{`a\..\x`}, `holds a backslash or a control character`},
		{[]string{"a\x00"}, `holds a backslash or a control character`},
		{[]string{".guidecoat"}, `is where guidecoat marks the site`},
		{[]string{".guidecoat-unfinished"}, `is where guidecoat marks the site`},
		{[]string{"notes/2026-04-11.MD"}, `the path "notes/2026-04-11.MD" is named as notes are`},
		{[]string{".GuideCoat/x"}, `is where guidecoat marks the site`},
		{[]string{"a", "b", "a"}, `the path "a" is in the site twice, the first time as a file`},
		{[]string{"É/a", "é/A"}, `the path "é/A" cannot be in the site beside the folder "É"`},
		{[]string{"\u00e9.jpg", "e\u0301.jpg"}, "cannot be in the site beside the file \"\u00e9.jpg\""},
		{[]string{"photo.JPG", "photo.jpg"}, `the path "photo.jpg" cannot be in the site beside the file "photo.JPG"`},
		{[]string{"a/b", "A/c"}, `the path "A/c" cannot be in the site beside the folder "a"`},
		{[]string{"a", "a/b"}, `the path "a/b" cannot be in the site beside the file "a"`},
		{[]string{"a/b/c", "a/b"}, `the path "a/b" is in the site twice, the first time as a folder`},
		{[]string{"a/b/c", "A"}, `the path "A" cannot be in the site beside the folder "a"`},
	}
	for _, test := range tests {
		root := open(t)
		_, err := Put(root, "site", forPublic, func(yield func(File, error) bool) {
			for _, path := range test.paths {
				if !yield(File{Path: path, Data: []byte("x")}, nil) {
					return
				}
			}
		})
		switch {
		case test.want == "" && err != nil:
			t.Errorf("%q: %v", test.paths, err)
		case test.want != "" && (err == nil || !strings.Contains(err.Error(), test.want)):
			t.Errorf("%q: the error is %v, want %s", test.paths, err, test.want)
		case test.want != "":
			expectAlone(t, root)
		}
	}
}

func TestOneRunAtATime(t *testing.T) {
	if runtime.GOOS == "plan9" || runtime.GOOS == "js" {
		t.Skip("no locks here")
	}
	root := open(t)
	_, err := Put(root, "site", forPublic, func(yield func(File, error) bool) {
		_, err := Put(root, "site", forPublic, small.files())
		if want := `another run of guidecoat is publishing to "site"; wait until it has ended`; err == nil || err.Error() != want {
			t.Errorf("a second run: the error is %v, want %s", err, want)
		}
		if _, err := Put(root, "site-buyer", Site{Audience: "buyer", Build: "Halden"}, small.files()); err != nil {
			t.Errorf("a run for another folder: %v", err)
		}
		yield(File{Path: "index.html", Data: []byte("first")}, nil)
	})
	if err != nil {
		t.Fatal(err)
	}
	root.RemoveAll("site-buyer")
	expect(t, root, tree{"index.html": "first"})
}

// What systems leave in a folder that somebody has looked at stands in nobody's way.
func TestDroppingsAreRemoved(t *testing.T) {
	root := open(t)
	put(t, root, small)
	must(t, root.WriteFile("site/notes/.DS_Store", []byte("x"), 0o644))
	put(t, root, small)
	expect(t, root, small)
}

// Some disks give back a name in other letters than it was written in; the file is
// ours all the same.
func TestOtherSpellingsAreOurs(t *testing.T) {
	for written, given := range map[string]string{"caf\u00e9.html": "cafe\u0301.html", "Axle.html": "axle.html"} {
		root := open(t)
		put(t, root, small.with(tree{written: "x"}))
		must(t, root.Rename("site/"+written, "site/"+given))
		put(t, root, small.with(tree{written: "x", "index.html": "new"}))
		expect(t, root, small.with(tree{written: "x", "index.html": "new"}))
	}
}

// No decision hangs on a clock: neither files of the far future nor of the far
// past are in the way.
func TestClockSetBack(t *testing.T) {
	for _, year := range []int{1970, 2106} {
		root := open(t)
		put(t, root, small)
		must(t, root.WriteFile(".site.lock", nil, 0o644))
		must(t, root.Mkdir(leftNew, 0o755))
		err := fs.WalkDir(root.FS(), ".", func(name string, _ fs.DirEntry, err error) error {
			day := time.Date(year, 1, 2, 0, 0, 0, 0, time.UTC)
			return errors.Join(err, root.Chtimes(name, day, day))
		})
		must(t, err)
		changed := small.with(tree{"notes/b.html": "B"})
		if got, want := put(t, root, changed), (Report{Written: 1, Kept: 3}); !reflect.DeepEqual(got, want) {
			t.Errorf("%d: the report is %+v, want %+v", year, got, want)
		}
		expect(t, root, changed)
	}
}
