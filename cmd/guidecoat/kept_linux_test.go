package main

import (
	"errors"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// mounts says that this program runs where it may mount what it likes, and nobody
// else sees it.
const mounts = "GUIDECOAT_TEST_MOUNTS"

// TestReadOnlyDisk reads notes on a disk that cannot be written to.
func TestReadOnlyDisk(t *testing.T) {
	if os.Getenv(mounts) == "" {
		child := exec.Command(os.Args[0], "-test.run=^TestReadOnlyDisk$", "-test.v")
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
	disk := t.TempDir()
	if err := syscall.Mount("tmpfs", disk, "tmpfs", 0, ""); err != nil {
		t.Skipf("mount: %v", err)
	}
	t.Cleanup(func() { _ = syscall.Unmount(disk, syscall.MNT_DETACH) })
	dir := plantHalden(t, disk)
	site := filepath.Join(disk, "halden-site")
	on(t, theDay(), "", exitDone, "", "publish", dir, "--to", site)
	if err := syscall.Mount("tmpfs", disk, "tmpfs", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Skipf("mount: %v", err)
	}
	before := exactly(t, disk)
	readEverything(t, dir, t.TempDir())
	const remedy = `make the folder it stands in writable, or publish elsewhere`
	on(t, theDay(), "", exitFiles, `cannot write beside the folder "site"; `+remedy, "publish", dir)
	on(t, theDay(), "", exitFiles, remedy, "publish", dir, "--to", site)
	on(t, theDay(), "", exitFiles, "read-only file system", "note", dir)
	p := startPreview(t, dir)
	p.holds("", 200, "Halden Fjord estate")
	p.stop()
	if after := exactly(t, disk); !maps.Equal(before, after) {
		t.Errorf("the disk holds %v, held %v", after, before)
	}
}

// A pipe in the store, which nobody ever writes to, keeps nobody waiting, be it where a
// picture is kept or what was noted of the run before.
func TestPipesInStore(t *testing.T) {
	dir, cache := t.TempDir(), t.TempDir()
	made := publishPicture(t, dir, cache)
	kept, err := filepath.Glob(filepath.Join(cache, "guidecoat", "*", "*"))
	if err != nil || len(kept) < 3 {
		t.Fatalf("%v, %v", kept, err)
	}
	for _, name := range kept {
		if err := errors.Join(os.Remove(name), syscall.Mkfifo(name, 0o600)); err != nil {
			t.Fatal(err)
		}
	}
	done := make(chan bool)
	go func() {
		defer close(done)
		publishTo(t, cache, dir, filepath.Join(dir, "site"))
	}()
	select {
	case <-done:
	case <-time.After(time.Minute):
		t.Fatal("it waits for the other end of a pipe")
	}
	if got := filesIn(t, filepath.Join(dir, "site", "pictures")); !maps.Equal(got, made) {
		t.Error("other pictures were published")
	}
}
