package place

import (
	"errors"
	"path"
	"testing"

	"guidecoat/journal/marker"
)

func TestReplaceInSteps(t *testing.T) {
	root := open(t)
	put(t, root, small)
	next := &fresh{parent: folder{root}, name: ".site.new-x", audience: "public", perm: 0o755}
	if err := next.replaceInSteps("site", nil); err == nil {
		t.Error("a folder that is not there was put in place")
	}
	expect(t, root, small)

	if err := next.write("index.html", []byte("new")); err != nil {
		t.Fatal(err)
	}
	must(t, next.finish([]string{"index.html"}))
	next.close()
	if err := next.replaceInSteps("site", nil); err != nil {
		t.Fatal(err)
	}
	if got := read(t, root, next.name); got["notes/a.html"] != "a" {
		t.Errorf("the old site set aside is %v", got)
	}
	if err := next.discard(); err != nil {
		t.Fatal(err)
	}
	expect(t, root, tree{"index.html": "new"})
}

func TestLeftoversAreTidied(t *testing.T) {
	root := open(t)
	plant := func(files tree) {
		for name, data := range files {
			if err := errors.Join(root.MkdirAll(path.Dir(name), 0o755), root.WriteFile(name, []byte(data), 0o644)); err != nil {
				t.Fatal(err)
			}
		}
	}
	put(t, root, small)
	plant(tree{
		".site.new-a/" + marker.Marker: marker.Text("public"), ".site.new-a/notes/x": "x",
		".site.new-b/" + marker.Marker: "", // killed before it was written
		".site.old-c/" + marker.Marker: marker.Text("public"), ".site.old-c/y": "y",
		".site.lock": "",
	})
	root.Mkdir(".site.new-d", 0o755) // killed before there was a marker
	put(t, root, small)
	expect(t, root, small)

	plant(tree{".site.new-mine/x": "x", ".site.new-file": "x", ".other.new-a/" + marker.Marker: marker.Text("public")})
	put(t, root, small)
	expectAlone(t, root, ".other.new-a", ".site.new-file", ".site.new-mine", "site")
	for _, name := range []string{".site.new-mine", ".site.new-file", ".other.new-a"} {
		root.RemoveAll(name)
	}

	if err := root.Rename("site", ".site.old-e"); err != nil { // killed between two steps
		t.Fatal(err)
	}
	if got := put(t, root, small); !got.Unchanged {
		t.Errorf("the site set aside was not taken up again: %+v", got)
	}
	expect(t, root, small)
}
