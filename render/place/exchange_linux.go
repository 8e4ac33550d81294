package place

import (
	"os"

	"golang.org/x/sys/unix"
)

// settle waits until what was written is on the disk: a power cut must not leave a site of empty files.
func settle(root *os.Root) error {
	return inFolder(root, func(fd int) error { return unix.Syncfs(fd) })
}

func exchange(root *os.Root, a, b string) error {
	return inFolder(root, func(fd int) error {
		if err := unix.Renameat2(fd, a, fd, b, unix.RENAME_EXCHANGE); err != nil {
			return err
		}
		unix.Fsync(fd) // before the old site is removed; it is in place in any case
		return nil
	})
}

func inFolder(root *os.Root, do func(fd int) error) error {
	dir, err := root.Open(".")
	if err != nil {
		return err
	}
	defer dir.Close()
	return control(dir, func(fd uintptr) error { return do(int(fd)) })
}
