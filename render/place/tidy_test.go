package place

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"os"
	"path"
	"reflect"
	"slices"
	"testing"

	"guidecoat/journal/marker"
)

func TestReplaceInSteps(t *testing.T) {
	root := open(t)
	put(t, root, small)
	next := &fresh{parent: folder{root}, name: ".site.new-x", perm: 0o755,
		site: marker.Site{Audience: "public", Build: marker.Of("Halden"), Files: map[string]marker.Digest{}}}
	if _, err := next.replaceInSteps("site", nil); err == nil {
		t.Error("a folder that is not there was put in place")
	}
	expect(t, root, small)

	if err := next.write("index.html", []byte("new")); err != nil {
		t.Fatal(err)
	}
	must(t, next.finish())
	left, err := next.replaceInSteps("site", nil)
	if err != nil {
		t.Fatal(err)
	}
	if got := read(t, root, left); got["notes/a.html"] != "a" {
		t.Errorf("the old site set aside is %v", got)
	}
	if got := read(t, root, "site"); got["index.html"] != "new" {
		t.Errorf("the site is %v", got)
	}
}

// plantAll writes files, whose paths are those in the folder above the site.
func plantAll(t *testing.T, root *os.Root, files tree) {
	t.Helper()
	for name, data := range files {
		must(t, errors.Join(root.MkdirAll(path.Dir(name), 0o755), root.WriteFile(name, []byte(data), 0o644)))
	}
}

func TestLeftoversAreTidied(t *testing.T) {
	site := marker.Site{Audience: "public", Build: "x"}
	begun := site.Head() + marker.Line("notes/x", sha256.Sum256([]byte("x"))) + marker.Line("y", sha256.Sum256([]byte("y")))
	for name, files := range map[string]tree{
		"before it was written":         {leftNew + "/" + marker.Marker: ""},
		"in the head of its marker":     {leftNew + "/" + marker.Marker: begun[:10]},
		"in a line of its marker":       {leftNew + "/" + marker.Marker: begun[:len(begun)-3], leftNew + "/notes/x": "x"},
		"in a file":                     {leftNew + "/" + marker.Marker: begun, leftNew + "/notes/x": "x", leftNew + "/" + marker.Part: "in pa"},
		"in its whole marker":           {leftNew + "/" + marker.Marker: begun, leftNew + "/notes/x": "x", leftNew + "/" + marker.Part: "guide"},
		"when it was finished":          {leftNew + "/" + marker.Marker: markerOf(tree{"y": "y"}, "public"), leftNew + "/y": "y"},
		"when it had been replaced":     {leftOld + "/" + marker.Marker: markerOf(tree{"y": "y"}, "public"), leftOld + "/y": "y"},
		"when it had been half removed": {leftOld + "/" + marker.Marker: markerOf(tree{"y": "y", "z": "z"}, "public"), leftOld + "/y": "y"},
		"with the lock":                 {".site.lock": ""},
	} {
		root := open(t)
		put(t, root, small)
		plantAll(t, root, files)
		if got := put(t, root, small); !got.Unchanged || got.Aside != nil {
			t.Errorf("killed %s: the report is %+v", name, got)
		}
		expect(t, root, small)
	}
	root := open(t)
	put(t, root, small)
	must(t, root.Mkdir(leftNew, 0o755)) // killed before there was a marker
	put(t, root, small)
	expect(t, root, small)

	must(t, root.Rename("site", leftOld)) // killed between two steps
	if got := put(t, root, small); !got.Unchanged {
		t.Errorf("the site set aside was not taken up again: %+v", got)
	}
	expect(t, root, small)
}

// What is named nearly as our own folders are, or just so, is somebody's unless it
// proves to be ours.
func TestFoldersOfLikeNames(t *testing.T) {
	published := marked(tree{"y": "y"})
	for name, files := range map[string]tree{
		".site.new-design":                published,
		".site.new-":                      published,
		".site.old-spring":                published,
		".site.old-a":                     {marker.Marker: ""},
		leftNew + "x":                     published,
		leftNew[:len(leftNew)-1] + "1":    published,
		"." + leftNew:                     published,
		".other" + leftNew[len(".site"):]: published,
		leftNew:                           {"x": "x"},
		leftOld:                           {marker.Marker: "guidecoat site for public\n", "2026-04-11.md": "a note"},
		".site.old-abcdefghijklmnopqrstuvwxyz/mine": published,
	} {
		root := open(t)
		put(t, root, small)
		for at, data := range files {
			plantAll(t, root, tree{name + "/" + at: data})
		}
		before := read(t, root, ".")
		if got := put(t, root, small); !got.Unchanged || got.Aside != nil {
			t.Errorf("%s: the report is %+v", name, got)
		}
		if after := read(t, root, "."); !reflect.DeepEqual(before, after) {
			t.Errorf("%s: %v, before %v", name, after, before)
		}
	}
	root := open(t)
	for _, name := range []string{".site.new-design", "site", ".site.new-design"} { // both are sites
		if _, err := Put(root, name, forPublic, small.files()); err != nil {
			t.Error(err)
		}
	}
	expectAlone(t, root, ".site.new-design", "site")
}

// What somebody has put into a folder that a killed run left is kept.
func TestForeignFilesInLeftovers(t *testing.T) {
	old := leftOld + "/"
	begun := marker.Site{Audience: "public", Build: "x"}.Head() + marker.Line("notes/y", sha256.Sum256([]byte("y")))
	for name, files := range map[string]tree{
		"in a site that was replaced":                 {old + marker.Marker: markerOf(tree{"notes/y": "y"}, "public"), old + "notes/y": "mine", old + "notes/2026-04-11.md": "mine", old + "more/x": "mine"},
		"in an unfinished one, also as its last file": {leftNew + "/" + marker.Marker: begun, leftNew + "/notes/y": "mine", leftNew + "/more/x": "mine"},
		"in an unfinished one":                        {leftNew + "/" + marker.Marker: begun, leftNew + "/notes/y": "y", leftNew + "/notes/2026-04-11.md": "mine", leftNew + "/more/x": "mine"},
	} {
		root := open(t)
		put(t, root, small)
		plantAll(t, root, files)
		var want []string
		for at, data := range files {
			if data == "mine" && path.Base(at) != "x" {
				want = append(want, "site-kept"+at[len(leftNew):])
			}
		}
		want = append(want, "site-kept/more")
		slices.Sort(want)
		got, err := Put(root, "site", forPublic, halfway(small)) // it is told with an error too
		if err != errHalfway || !slices.Equal(slices.Sorted(slices.Values(got.Aside)), want) {
			t.Errorf("%s: the report is %+v, %v, want %v", name, got, err, want)
		}
		for at, data := range read(t, root, "site-kept") {
			if data != "mine" {
				t.Errorf("%s: %s is %q", name, at, data)
			}
		}
		must(t, root.RemoveAll("site-kept"))
		expect(t, root, small)
	}
}

// A file beside the site that is named as our lock, and is not one, stays.
func TestForeignLock(t *testing.T) {
	for name, plant := range map[string]func(*os.Root) error{
		"a file":   func(r *os.Root) error { return r.WriteFile(".site.lock", []byte("mine"), 0o644) },
		"a link":   func(r *os.Root) error { return r.Symlink("elsewhere", ".site.lock") },
		"a folder": func(r *os.Root) error { return r.Mkdir(".site.lock", 0o755) },
	} {
		root := open(t)
		must(t, plant(root))
		before := kindOf(t, root, ".site.lock")
		if _, err := Put(root, "site", forPublic, small.files()); err == nil || err.Error() != `".site.lock" beside the folder "site" is not guidecoat's, which needs that name for a moment; rename it` {
			t.Errorf("%s: the error is %v", name, err)
		}
		if after := kindOf(t, root, ".site.lock"); after != before {
			t.Errorf("%s: it is now %s", name, after)
		}
		expectAlone(t, root, ".site.lock")
	}
}

// What is saved again under the name of something that was moved takes no other's place.
func TestKeptFilesStay(t *testing.T) {
	root := open(t)
	l := leaving{parent: folder{root}, name: leftOld, site: "site"}
	for i, name := range []string{"a", "a", "a/b", "c"} {
		must(t, root.RemoveAll(leftOld))
		plantAll(t, root, tree{leftOld + "/" + name: fmt.Sprint(i)})
		must(t, l.move(name))
	}
	must(t, root.RemoveAll(leftOld))
	want := tree{"site-kept/a": "0", "site-kept-2/a": "1", "site-kept-3/a/b": "2", "site-kept-3/c": "3"}
	if got := read(t, root, "."); !reflect.DeepEqual(got, want) {
		t.Errorf("kept is %v, want %v", got, want)
	}
}

// A folder that was never finished is never taken for the site that is missing.
func TestUnfinishedIsNoSite(t *testing.T) {
	root := open(t)
	plantAll(t, root, tree{leftOld + "/" + marker.Marker: marker.Site{Audience: "public", Build: "x"}.Head()})
	if _, err := Put(root, "site", forPublic, halfway(small)); err != errHalfway {
		t.Error(err)
	}
	expectAlone(t, root)
}
