package place

import (
	"errors"

	"golang.org/x/sys/windows"
)

// hold locks the file for this run, unless another holds it; without locks it lets everybody through.
func hold(fd uintptr) (held bool) {
	const flags = windows.LOCKFILE_EXCLUSIVE_LOCK | windows.LOCKFILE_FAIL_IMMEDIATELY
	err := windows.LockFileEx(windows.Handle(fd), flags, 0, 1, 0, &windows.Overlapped{})
	return !errors.Is(err, windows.ERROR_LOCK_VIOLATION)
}
