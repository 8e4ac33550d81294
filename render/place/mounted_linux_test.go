package place

import (
	"fmt"
	"os"
	"os/exec"
	"strings"
	"syscall"
	"testing"
)

// mounts says that this program runs where it may mount what it likes, and nobody
// else sees it.
const mounts = "GUIDECOAT_TEST_MOUNTS"

// TestMounted publishes to small disks, disks that cannot be written, and folders
// that are disks themselves.
func TestMounted(t *testing.T) {
	if os.Getenv(mounts) == "" {
		child := exec.Command(os.Args[0], "-test.run=^TestMounted$", "-test.v")
		child.Env = append(os.Environ(), mounts+"=yes")
		child.SysProcAttr = &syscall.SysProcAttr{
			Cloneflags:  syscall.CLONE_NEWUSER | syscall.CLONE_NEWNS,
			UidMappings: []syscall.SysProcIDMap{{HostID: os.Getuid(), Size: 1}},
			GidMappings: []syscall.SysProcIDMap{{HostID: os.Getgid(), Size: 1}},
		}
		out, err := child.CombinedOutput()
		switch {
		case child.ProcessState == nil || strings.Contains(string(out), "SKIP"):
			t.Skipf("nothing can be mounted here: %v %s", err, out)
		case err != nil:
			t.Errorf("%s", out)
		}
		return
	}
	t.Run("full", testFull)
	t.Run("read-only", testReadOnly)
	t.Run("a disk itself", testMountedSite)
	t.Run("the image of a container", testImage)
}

func mount(t *testing.T, dir, options string, flags uintptr) {
	t.Helper()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", flags, options); err != nil {
		t.Skipf("mount: %v", err)
	}
}

// testFull publishes with less and less room left, down to none.
func testFull(t *testing.T) {
	for _, limit := range []string{"size=80k", "nr_inodes=32"} {
		refused, done := 0, 0
		for taken := range 16 {
			root := mounted(t, limit)
			put(t, root, small)
			for i := range taken {
				must(t, root.WriteFile(strings.Repeat("x", i+1), make([]byte, 4096), 0o644))
			}
			changed := small.with(tree{"index.html": strings.Repeat("new", 2000), "deep/er/b.html": "b"})
			_, err := Put(root, "site", forPublic, changed.files())
			got := read(t, root, "site")
			switch {
			case err == nil && same(got, changed):
				done++
			case err != nil && same(got, small) && strings.Contains(err.Error(), "make room on the disk and publish again"):
				refused++
			default:
				t.Fatalf("%s, %d files beside it: %v\n%v", limit, taken, err, got)
			}
			for i := range taken {
				must(t, root.Remove(strings.Repeat("x", i+1)))
			}
			put(t, root, changed)
			expect(t, root, changed)
		}
		if refused == 0 || done == 0 {
			t.Errorf("%s: %d runs were refused and %d were not", limit, refused, done)
		}
	}
}

func mounted(t *testing.T, options string) *os.Root {
	t.Helper()
	dir := t.TempDir()
	mount(t, dir, options, 0)
	root := openAt(t, dir)
	t.Cleanup(func() { root.Close(); syscall.Unmount(dir, syscall.MNT_DETACH) })
	return root
}

func testReadOnly(t *testing.T) {
	root := mounted(t, "")
	put(t, root, small)
	mount(t, root.Name(), "", syscall.MS_REMOUNT|syscall.MS_RDONLY)
	_, err := Put(root, "site", forPublic, small.with(tree{"x": "x"}).files())
	if want := `cannot write beside the folder "site"; make the folder it stands in writable, or publish elsewhere`; err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("the error is %v, want %s", err, want)
	}
	expect(t, root, small)
}

// A folder that is a disk cannot be renamed, whether there is a site on it or not.
func testMountedSite(t *testing.T) {
	for _, site := range []tree{nil, small} {
		root := open(t)
		must(t, root.Mkdir("site", 0o755))
		dir := root.Name() + "/site"
		mount(t, dir, "", 0)
		t.Cleanup(func() { syscall.Unmount(dir, syscall.MNT_DETACH) })
		for name, data := range site {
			must(t, root.MkdirAll("site/"+name[:strings.LastIndexByte("/"+name, '/')], 0o755))
			must(t, root.WriteFile("site/"+name, []byte(data), 0o644))
		}
		if site != nil {
			must(t, root.WriteFile("site/.guidecoat", []byte(marked(site)[".guidecoat"]), 0o644))
		}
		_, err := Put(root, "site", forPublic, small.with(tree{"x": "x"}).files())
		if err == nil || !strings.Contains(err.Error(), "publish to a folder on it") {
			t.Errorf("the error is %v", err)
		}
		if !same(read(t, root, "site"), site) {
			t.Errorf("the site is now %v", read(t, root, "site"))
		}
		expectAlone(t, root, "site")
	}
}

// What came with the image of a container is seen through an overlay, which moves
// no folder of it. Folders made since are moved as anywhere.
func testImage(t *testing.T) {
	disk := mounted(t, "")
	for _, dir := range []string{"image", "since", "work", "seen"} {
		must(t, disk.Mkdir(dir, 0o755))
	}
	put(t, openAt(t, disk.Name()+"/image"), small)
	seen := disk.Name() + "/seen"
	options := fmt.Sprintf("userxattr,lowerdir=%[1]s/image,upperdir=%[1]s/since,workdir=%[1]s/work", disk.Name())
	if err := syscall.Mount("overlay", seen, "overlay", 0, options); err != nil {
		t.Logf("there are no overlays here: %v", err)
		return
	}
	t.Cleanup(func() { syscall.Unmount(seen, syscall.MNT_DETACH) })
	root := openAt(t, seen)
	changed := small.with(tree{"x": "x"})
	_, err := Put(root, "site", forPublic, changed.files())
	if err == nil || !strings.Contains(err.Error(), "publish to another folder: this one cannot be moved") {
		t.Errorf("the error is %v", err)
	}
	expect(t, root, small)
	for _, site := range []tree{small, changed} {
		if _, err := Put(root, "another", forPublic, site.files()); err != nil || !same(read(t, root, "another"), site) {
			t.Errorf("another folder: %v", err)
		}
	}
}
