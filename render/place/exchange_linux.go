package place

import (
	"os"

	"golang.org/x/sys/unix"
)

// settle waits until what was written to the file system of root is on the disk:
// a power cut just after the exchange must not leave a site of empty files. It is
// one call for all files, and not made where there was no site to lose.
func settle(root *os.Root) error {
	return inFolder(root, func(fd int) error { return unix.Syncfs(fd) })
}

// exchange makes two folders in root change places, in one step.
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
