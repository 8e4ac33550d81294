package place

import (
	"errors"

	"golang.org/x/sys/windows"
)

// What the system says, by what it means for the site.
var (
	full      = []error{windows.ERROR_DISK_FULL, windows.ERROR_HANDLE_DISK_FULL, windows.ERROR_DISK_QUOTA_EXCEEDED}
	readOnly  = []error{windows.ERROR_WRITE_PROTECT}
	tooLong   = []error{windows.ERROR_FILENAME_EXCED_RANGE}
	unmovable = []error{windows.ERROR_NOT_SAME_DEVICE}
	busy      = []error{windows.ERROR_BUSY}

	notExchanged = []error{errors.ErrUnsupported} // exchanging two folders is not known here
)

// noWait is nothing where no pipe has a name among files.
const noWait = 0

// hold locks the file for this run, unless another holds it; without locks it lets everybody through.
func hold(fd uintptr) (held bool) {
	const flags = windows.LOCKFILE_EXCLUSIVE_LOCK | windows.LOCKFILE_FAIL_IMMEDIATELY
	err := windows.LockFileEx(windows.Handle(fd), flags, 0, 1, 0, &windows.Overlapped{})
	return !errors.Is(err, windows.ERROR_LOCK_VIOLATION)
}
