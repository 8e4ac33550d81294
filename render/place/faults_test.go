package place

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"

	"guidecoat/journal/marker"
)

// theNote is a note beside the site. A file of the site is a second name for it,
// so that writing through that name would be found out.
const theNote = "the only copy\n"

// memory is a folder that is on no disk, where there is one: thousands of runs are
// over in seconds.
const memory = "/dev/shm"

// The names of folders that a killed run may have left.
const (
	leftNew = ".site.new-abcdefghijklmnopqrstuvwxyz"
	leftOld = ".site.old-234567abcdefghijklmnopqrst"
)

// before are the states in which a run may find the folder. Each of them returns
// the site that stands there, nil for none.
var before = []struct {
	name  string
	plant func(t *testing.T, root *os.Root) tree
}{
	{"nothing", func(*testing.T, *os.Root) tree { return nil }},
	{"an empty folder", func(t *testing.T, root *os.Root) tree {
		must(t, root.Mkdir("site", 0o755))
		return nil
	}},
	{"a site", plantSite},
	{"a site, and what a killed run left", func(t *testing.T, root *os.Root) tree {
		old := plantSite(t, root)
		must(t, root.Mkdir(leftNew, 0o755))
		must(t, root.WriteFile(leftNew+"/"+marker.Marker, []byte(marker.Site{Audience: "public", Build: "x"}.Head()+marker.Line("x", marker.Digest{})), 0o644))
		must(t, root.WriteFile(leftNew+"/"+marker.Part, []byte("in pa"), 0o644))
		must(t, root.WriteFile(".site.lock", nil, 0o644))
		return old
	}},
	{"a site set aside", func(t *testing.T, root *os.Root) tree {
		old := plantSite(t, root)
		must(t, root.Rename("site", leftOld))
		return old
	}},
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func plantSite(t *testing.T, root *os.Root) tree {
	old := small.with(tree{"files/list.txt": theNote, "gone.html": "gone"})
	putFast(t, root, old)
	must(t, root.Remove("site/files/list.txt"))
	must(t, root.Link("note.md", "site/files/list.txt"))
	return old
}

// putFast publishes without waiting for the disk.
func putFast(t *testing.T, root *os.Root, site tree) {
	t.Helper()
	if _, err := putOn(faulty{folder{root}, &plan{at: -1}}, "site", forPublic, site.files()); err != nil {
		t.Fatal(err)
	}
}

var after = small.with(tree{"index.html": "a new home", "files/list.txt": "another list", "more/deep/new.html": "new"})

// TestEveryFault makes every step of a run go wrong in every way. Whatever that
// is, the folder holds the whole old site or the whole new one, the notes are as
// they were, the message says what to do, and the next run puts all right.
func TestEveryFault(t *testing.T) {
	stride := 1
	if _, err := os.Stat(memory); err != nil && os.Getenv("GUIDECOAT_LONG") == "" {
		stride = 7
		t.Logf("there is no %s, so every %dth step; all of them with GUIDECOAT_LONG=1", memory, stride)
	}
	for _, state := range before {
		for _, steps := range []bool{false, true} {
			if !steps && runtime.GOOS != "linux" {
				continue
			}
			t.Run(fmt.Sprintf("%s, in steps %v", state.name, steps), func(t *testing.T) {
				taken := runWith(t, state.plant, plan{at: -1, steps: steps})
				if len(taken) < 20 {
					t.Fatalf("only %d steps: %q", len(taken), taken)
				}
				for at := 0; at < len(taken); at += stride {
					for _, how := range []fault{fails, lies, dies} {
						runWith(t, state.plant, plan{at: at, how: how, steps: steps})
					}
				}
			})
		}
	}
}

// All that was written is on the disk before it takes the place of a site: a power
// cut must not leave one of empty files.
func TestSettledBeforeReplaced(t *testing.T) {
	for _, steps := range []bool{false, true} {
		taken := runWith(t, plantSite, plan{at: -1, steps: steps})
		first := func(what string) int {
			return slices.IndexFunc(taken, func(step string) bool { return strings.HasPrefix(step, what) })
		}
		settled, replaced, change := first("settle"), first("exchange .site"), "exchange"
		if steps {
			replaced, change = first("rename site"), "rename"
		}
		if settled < 0 || settled > replaced {
			t.Errorf("in steps %v: settled in step %d, %s in step %d", steps, settled, change, replaced)
		}
		for i, step := range taken {
			if i > settled && (strings.HasPrefix(step, "write ") || strings.HasPrefix(step, "create ") || strings.HasPrefix(step, "link ")) {
				t.Errorf("in steps %v: %q comes after all was settled", steps, step)
			}
		}
		if synced := first("sync " + marker.Marker); synced < 0 || synced > replaced {
			t.Errorf("in steps %v: the marker is on the disk in step %d", steps, synced)
		}
	}
}

// runWith publishes once with that plan, checks what has come of it, publishes
// again without faults and returns the steps taken in the first run.
func runWith(t *testing.T, plant func(*testing.T, *os.Root) tree, p plan) []string {
	t.Helper()
	root := openIn(t, memory)
	defer os.RemoveAll(root.Name())
	defer root.Close()
	must(t, root.WriteFile("note.md", []byte(theNote), 0o644))
	old := plant(t, root)
	missing := standing(t, root, "site") == nil
	_, err := putOn(faulty{folder{root}, &p}, "site", forPublic, after.files())

	where := "no fault"
	if p.at >= 0 {
		where = fmt.Sprintf("step %d, %q, %s", p.at, p.taken[p.at], p.how)
	}
	now := standing(t, root, "site")
	switch {
	case now == nil && (missing || p.how == dies):
		if aside := setAside(t, root); old != nil && !maps.Equal(aside, marked(old)) {
			t.Errorf("%s: there is no site, and set aside is %v", where, aside)
		}
	case !same(now, old) && !maps.Equal(now, marked(after)):
		t.Errorf("%s: the site is neither the old nor the new one: %v\n%v", where, now, err)
	}
	switch {
	case err == nil && !maps.Equal(now, marked(after)):
		t.Errorf("%s: without an error the site is %v", where, now)
	case err != nil && p.at < 0:
		t.Errorf("%s: %v", where, err)
	case err != nil && !helpful.MatchString(err.Error()):
		t.Errorf("%s: the message does not say what to do: %v", where, err)
	case err != nil && !errors.Is(err, errDisk) && !strings.Contains(err.Error(), "did not put there"):
		t.Errorf("%s: the message does not give the cause: %v", where, err)
	case err != nil && strings.Contains(err.Error(), "is as it was") && !same(now, old):
		t.Errorf("%s: the message says that the folder is as it was: %v", where, err)
	}
	putFast(t, root, after)
	if got := standing(t, root, "site"); !maps.Equal(got, marked(after)) {
		t.Errorf("%s: after the next run the site is %v", where, got)
	}
	if kept := standing(t, root, "site-kept"); kept != nil {
		t.Errorf("%s: kept is %v", where, kept)
		must(t, root.RemoveAll("site-kept"))
	}
	expectAlone(t, root, "note.md", "site")
	if note, err := root.ReadFile("note.md"); err != nil || string(note) != theNote {
		t.Fatalf("%s: the note is %q (%v)", where, note, err)
	}
	return p.taken
}

// helpful is what a message must hold of what to do, or of where all now is.
var helpful = regexp.MustCompile(`publish (again|elsewhere|to another)|delete the folder|rename `)

// same tells whether what stands there is the old site, or nothing where there
// was none.
func same(now, old tree) bool {
	if old == nil {
		return len(now) == 0
	}
	return maps.Equal(now, marked(old))
}

// standing is what is in that folder, nil without one.
func standing(t *testing.T, root *os.Root, name string) tree {
	t.Helper()
	if _, err := root.Lstat(name); errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return read(t, root, name)
}

func setAside(t *testing.T, root *os.Root) tree {
	t.Helper()
	entries, err := fs.ReadDir(root.FS(), ".")
	must(t, err)
	for _, entry := range entries {
		if strings.HasPrefix(entry.Name(), ".site.old-") {
			return read(t, root, entry.Name())
		}
	}
	return nil
}
